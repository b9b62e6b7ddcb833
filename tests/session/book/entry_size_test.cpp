#include "store/sqlite/connection.h"
#include "support/large_book.h"

#include <catch2/catch.hpp>

using namespace gk;

// 100,000 children are 196 bytes an entry; a small book has its tables to carry besides.
TEST_CASE(
    "An entry of a small logbook takes at most 230 bytes of its file, all tables, indexes and "
    "digests together",
    "[case-217]") {
  const test::Scratch folder;
  test::makeLargeBook(folder / "small.gkbook", 1000);
  store::Connection book(folder / "small.gkbook", store::Access::readOnly, store::Durability::bulk);
  auto entries = book.prepare("SELECT count(*) FROM entry");
  REQUIRE(entries.step());
  const auto bytes = std::filesystem::file_size(folder / "small.gkbook");
  CHECK(static_cast<double>(bytes) / static_cast<double>(entries.column<std::int64_t>(0)) < 230);
}
