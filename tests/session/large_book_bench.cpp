#include "store/connection.h"
#include "support/large_book.h"

#include <catch2/catch.hpp>
#include <iostream>

using namespace gk;

// The logbooks that test_store "[.bench]" and docs/benchmarks.md measure, beside this program.
TEST_CASE("Large logbooks are made to measure with", "[.large]") {
  for (const int children : {1000, 10'000, 100'000}) {
    const auto path = base::Path(GK_BIN_DIR) / ("large-" + std::to_string(children) + ".gkbook");
    std::filesystem::remove(path);
    test::makeLargeBook(path, children);
    std::cout << path << ": " << std::filesystem::file_size(path) << " bytes" << std::endl;
  }
}

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
