#include "broken/broken_books.h"
#include "broken/digest_all.h"
#include "roster/program/program.h"
#include "store/records/every_table.h"
#include "support/scratch.h"

#include <array>
#include <catch2/catch.hpp>
#include <cstdio>

// Logbooks with right digests that are merged to do harm: whoever has a copy of a logbook can write
// acts of a laptop that never was.

namespace gk::test {

using base::ErrorCode;
using store::Access;
using store::Book;
using store::Durability;

namespace {

const base::LaptopId mine{base::Uuid{{1, 2, 3, 4, 5, 6, 0x70, 8, 0x80, 1}}};
const base::LaptopId theirs{base::Uuid{{1, 2, 3, 4, 5, 6, 0x70, 9, 0x80, 2}}};

Book opened(const base::Path& path, base::LaptopId laptop) {
  auto book = Book::open(path, laptop, Access::readWrite, Durability::bulk, someMorning);
  if (!book) FAIL(book.error().detail);
  return std::move(*book);
}

base::Result<base::Done> addSchool(Book& book, base::Instant at) {
  return book.act({}, {at, std::chrono::minutes(-300)}, [](store::Act& act) {
    act.add(roster::School{"Gorse Bank", "GB"});
  });
}

/// Acts of as many laptops, each of one school, the first of them under the identity `slot` steps
/// after the start of 2020.
void forgeLaptops(const base::Path& path, int count, std::int64_t slot) {
  store::Connection book(path, Access::readWrite, Durability::bulk);
  book.execute("BEGIN");
  for (int i = 0; i < count; ++i) {
    std::array<char, 40> name{};
    std::snprintf(name.data(), name.size(), "0102030405067001800000000000%04x",
                  static_cast<unsigned>(i) & 0xFFFFU);
    const auto number = 100 + i;
    const auto id = std::to_string(((slot + i) << store::handBits) + number);
    book.execute("INSERT INTO hand VALUES (" + std::to_string(number) + ", x'" + name.data() +
                 "')");
    book.execute("INSERT INTO entry (id, kind, nth) VALUES (" + id +
                 ", (SELECT number FROM entry_kind WHERE name = 'school'), 0)");
    book.execute("INSERT INTO school VALUES (" + id + ", 'Forged', 'F', NULL)");
    book.execute("INSERT INTO act (first, sequence, count, at, utc_offset, verb, station, digest) "
                 "VALUES (" +
                 id + ", 1, 1, " + std::to_string(someMorning.utc.count()) +
                 ", -300, 'verb', 'chair', zeroblob(32))");
  }
  book.forgetHands();
  digestAll(book);
  book.execute("COMMIT");
}

struct TwoBooks {
  Scratch folder;
  base::Path here = folder / "here.gkbook";
  base::Path there = folder / "there.gkbook";
  TwoBooks() {
    makeEveryTable(here, Holds::everyone);
    std::filesystem::copy_file(here, there);
  }
};

} // namespace

TEST_CASE("Entries of days to come are merged only once that is said to be a wrong clock",
          "[case-499]") {
  const TwoBooks books;
  const base::Instant far{someMorning.utc + std::chrono::hours(24 * 365 * 70)};
  {
    auto other = opened(books.there, theirs);
    REQUIRE(addSchool(other, far));
  }
  auto book = opened(books.here, mine);
  const auto asked = book.absorb(books.there, someMorning);
  REQUIRE_FALSE(asked);
  CHECK(asked.error().code == ErrorCode::storeAhead);
  CHECK(asked.error().detail.find("2096") != std::string::npos);
  REQUIRE(addSchool(book, someMorning));
  const auto taken = book.absorb(books.there, someMorning, {}, {.ahead = true});
  REQUIRE(taken);
  CHECK(taken->newEntries == 1);
  // What is here already is not asked about again.
  CHECK(book.absorb(books.there, someMorning));
  REQUIRE(addSchool(book, someMorning));
  CHECK(book.faults().value().empty());
}

TEST_CASE("An identity of a later time than any act is a fault, and is not merged", "[case-499]") {
  const TwoBooks books;
  forgeLaptops(books.there, 1, (std::int64_t{1} << 52) - 2);
  auto book = opened(books.here, mine);
  const auto refused = book.absorb(books.there, someMorning, {}, {.ahead = true});
  REQUIRE_FALSE(refused);
  CHECK(refused.error().code == ErrorCode::storeDamaged);
  CHECK(refused.error().detail.find("of a later time than anything before it") !=
        std::string::npos);
  for (int i = 0; i < 2; ++i)
    REQUIRE(addSchool(book, someMorning));
}

TEST_CASE("A merge that would fill the list of laptops is refused", "[case-500]") {
  const TwoBooks books;
  const auto slot = (someMorning.utc.count() - 1'577'836'800'000) << 10;
  forgeLaptops(books.there, 1100, slot);
  auto book = opened(books.here, mine);
  const auto refused = book.absorb(books.there, someMorning);
  REQUIRE_FALSE(refused);
  CHECK(refused.error().code == ErrorCode::storeCrowded);
  CHECK(book.faults().value().empty());
  REQUIRE(addSchool(book, someMorning));
}

TEST_CASE("A date that no calendar has is refused by check and by a merge", "[case-498]") {
  const TwoBooks books;
  runUnguarded(books.there, "UPDATE term SET end_on = '9999-12-31'");
  {
    store::Connection book(books.there, Access::readWrite, Durability::bulk);
    digestAll(book);
  }
  auto book = opened(books.here, mine);
  const auto refused = book.absorb(books.there, someMorning);
  REQUIRE_FALSE(refused);
  CHECK(refused.error().code == ErrorCode::storeDamaged);
  CHECK(book.faults().value().empty());
}

TEST_CASE("A field without teeth, or with one twice, is a fault", "[case-498]") {
  for (const auto* sql : {"DELETE FROM field_tooth", "UPDATE field_tooth SET tooth = 11"}) {
    const TwoBooks books;
    runUnguarded(books.there, sql);
    {
      store::Connection book(books.there, Access::readWrite, Durability::bulk);
      digestAll(book);
    }
    auto book = opened(books.here, mine);
    const auto refused = book.absorb(books.there, someMorning);
    REQUIRE_FALSE(refused);
    INFO(refused.error().detail);
    CHECK(refused.error().detail.find("a field has no teeth") != std::string::npos);
  }
}

TEST_CASE("A moment outside what a logbook can have is damage and no bug", "[case-498]") {
  const TwoBooks books;
  runUnguarded(books.there, "UPDATE act SET at = 8000000000000 WHERE first = (SELECT max(first) "
                            "FROM act)");
  auto book = Book::open(books.there, mine, Access::readOnly, Durability::bulk, someMorning,
                         store::Checkup::skip);
  REQUIRE(book);
  const auto faults = book->faults();
  REQUIRE(faults);
  CHECK_FALSE(faults->empty());
  CHECK(base::LocalInstant{base::Instant{base::Milliseconds(8'000'000'000'000)}, {}}.date().iso() ==
        "2199-12-31");
}

} // namespace gk::test
