#include "broken/broken_books.h"
#include "broken/digest_all.h"
#include "store/records/every_table.h"
#include "support/scratch.h"

#include <catch2/catch.hpp>

// Whoever knows how digests are made can write any text with a right one.

namespace gk::test {

TEST_CASE("A text that would command a terminal or turn a line around is named and never merged",
          "[case-384]") {
  const Scratch folder;
  const auto whole = folder / "whole.gkbook";
  makeEveryTable(whole);
  const auto changes = std::to_array<const char*>({
      "UPDATE school SET name = 'Cobble' || char(27) || ']0;x' || char(7) WHERE code = 'AFTER'",
      "UPDATE school SET name = 'Cobble' || char(8238) || 'retnaL' WHERE code = 'AFTER'",
      "UPDATE school SET name = CAST(x'436f62ff' AS TEXT) WHERE code = 'AFTER'",
  });
  for (const auto* change : changes) {
    INFO(change);
    const Scratch other;
    const auto bad = other / "bad.gkbook";
    std::filesystem::copy_file(whole, bad);
    runUnguarded(bad, change);
    {
      store::Connection book(bad, store::Access::readWrite, store::Durability::bulk);
      digestAll(book);
    }
    const auto opened = store::Book::open(bad, nobodysLaptop, store::Access::readOnly,
                                          store::Durability::everyAct, someMorning);
    REQUIRE_FALSE(opened);
    CHECK(opened.error().code == base::ErrorCode::storeDamaged);
    CHECK(opened.error().detail.find("school") != std::string::npos);
    CHECK(opened.error().detail.find("Cob") == std::string::npos);
    auto mine = store::Book::open(whole, nobodysLaptop, store::Access::readWrite,
                                  store::Durability::everyAct, someMorning);
    REQUIRE(mine);
    const auto merged = mine->absorb(bad, someMorning, {}, {.copies = true});
    REQUIRE_FALSE(merged);
    CHECK(merged.error().detail.find("a sign that cannot be seen") != std::string::npos);
  }
}

} // namespace gk::test
