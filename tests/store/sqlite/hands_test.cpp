#include "store/sqlite/hands.h"

#include "broken/broken_books.h"
#include "kit/material.h"
#include "roster/team/team.h"
#include "store/book.h"
#include "store/records/every_table.h"
#include "support/scratch.h"

#include <catch2/catch.hpp>

namespace gk::test {

using base::ErrorCode;
using base::Instant;
using base::Milliseconds;
using store::Access;
using store::Book;
using store::Durability;
using store::Hands;

namespace {

const base::LocalInstant nineSharp{Instant{Milliseconds(1'794'924'000'000)},
                                   std::chrono::minutes(-300)};

base::LaptopId laptopNumbered(std::uint8_t number) {
  base::Uuid uuid;
  uuid.bytes.fill(number);
  return base::LaptopId(uuid);
}

/// Two laptops with copies of one book, which both write at the same moment.
class Twins {
 public:
  Twins() {
    base::SeededRandom random(3);
    auto made = Book::create(at("a"), one, Durability::bulk, nineSharp.at,
                             {std::vector<std::uint8_t>(16, 1), 3, 65536,
                              std::vector<std::uint8_t>(24, 2), std::vector<std::uint8_t>(48, 3)},
                             random);
    REQUIRE(made);
    add(*made, "Alder Hollow", nineSharp);
    REQUIRE(made->finish());
    std::filesystem::copy_file(at("a"), at("b"));
    std::filesystem::copy_file(at("a"), at("c"));
  }
  [[nodiscard]] base::Path at(const std::string& name) const {
    return folder_ / (name + ".gkbook");
  }
  [[nodiscard]] Book open(const std::string& name, base::LaptopId laptop) const {
    auto book = Book::open(at(name), laptop, Access::readWrite, Durability::bulk, nineSharp.at);
    if (!book) FAIL(book.error().detail);
    return std::move(*book);
  }
  static void add(Book& book, const std::string& school, base::LocalInstant when) {
    const auto done = book.act({}, when, [&](store::Act& act) {
      act.add(roster::School{school, "S"});
      act.add(kit::Lot{kit::MaterialKind::varnish,
                       school,
                       "L",
                       base::Date::of(2027, 3, 1).value(),
                       base::Seconds(0),
                       {},
                       false,
                       {}});
    });
    if (!done) FAIL(done.error().detail);
  }
  static std::vector<std::string> schools(Book& book) {
    std::vector<std::string> names;
    const auto rows = book.current<roster::School>(store::everything());
    for (const auto& row : rows.value())
      names.push_back(row.value.name + " " + row.stamp.entry.text() + " " +
                      row.stamp.laptop.text() + " " + std::to_string(row.stamp.sequence));
    return names;
  }
  static std::int64_t number(const base::Path& path, const std::string& sql) {
    store::Connection book(path, Access::readOnly, Durability::bulk);
    auto row = book.prepare(sql);
    REQUIRE(row.step());
    return row.column<std::int64_t>(0);
  }

  const base::LaptopId one = laptopNumbered(1);
  const base::LaptopId two = laptopNumbered(2);
  const base::LaptopId three = laptopNumbered(3);

 private:
  Scratch folder_;
};

} // namespace

TEST_CASE("An identity is one whole number in a file and comes back whole", "[case-211]") {
  Hands hands;
  hands.add(1, laptopNumbered(1));
  hands.add(2047, laptopNumbered(2));
  for (const auto laptop : {laptopNumbered(1), laptopNumbered(2)})
    for (const std::int64_t millis : {1'577'836'800'000, 1'794'924'000'000, 5'975'883'311'000}) {
      const auto mark = store::markOf(laptop);
      auto identity = store::nextIdentity({Milliseconds(millis)}, base::Uuid{}, mark);
      CHECK(base::timeOf(identity) == Instant{Milliseconds(millis)});
      CHECK(identity.bytes[6] >> 4U == 8); // the version and the variant, RFC 9562 section 5.8
      CHECK(identity.bytes[8] >> 6U == 2);
      const auto key = hands.keyOf(identity);
      CHECK(key > 0);
      CHECK(store::handIn(key) == hands.numberOf(laptop));
      CHECK(hands.identityOf(key) == identity);
    }
}

TEST_CASE("The rows of an act follow each other, past the end of a millisecond and when the clock "
          "goes back",
          "[case-211]") {
  Hands hands;
  hands.add(5, laptopNumbered(1));
  const auto mark = store::markOf(laptopNumbered(1));
  auto last = store::nextIdentity(nineSharp.at, base::Uuid{}, mark);
  const auto first = hands.keyOf(last);
  Instant clock = nineSharp.at;
  clock.utc -= std::chrono::hours(1000);
  for (std::int64_t nth = 1; nth <= 3000; ++nth) {
    const auto next = store::nextIdentity(clock, last, mark);
    CHECK(next > last);
    CHECK(hands.keyOf(next) == first + nth * store::keyStep);
    last = next;
  }
  CHECK(base::timeOf(last).utc == nineSharp.at.utc + Milliseconds(2)); // 1,024 to a millisecond
}

TEST_CASE("A clock before 2020 or past the range is refused, and nothing is written",
          "[case-212]") {
  Twins twins;
  auto book = twins.open("a", twins.one);
  const auto before = book.lastSequence();
  for (const std::int64_t millis :
       {std::int64_t{0}, std::int64_t{1'577'836'799'999}, std::int64_t{5'975'883'311'104},
        std::numeric_limits<std::int64_t>::max()}) {
    const auto written = book.act({}, {Instant{Milliseconds(millis)}, {}}, [](store::Act& act) {
      act.add(roster::School{"Cobble Lantern", "CL"});
    });
    REQUIRE_FALSE(written);
    CHECK(written.error().code == ErrorCode::storeClock);
  }
  CHECK(book.lastSequence() == before);
}

TEST_CASE("An identity that a file does not have names no row of it", "[case-211]") {
  Hands hands;
  hands.add(5, laptopNumbered(1));
  base::SeededRandom random(3);
  const auto stranger =
      store::nextIdentity(nineSharp.at, base::Uuid{}, store::markOf(laptopNumbered(9)));
  for (const auto& identity : {base::Uuid{}, base::makeUuid7(nineSharp.at, random), stranger})
    CHECK(store::handIn(hands.keyOf(identity)) == 0);
  CHECK(hands.keyOf(base::Uuid{}) == 0); // before every row
  for (const std::int64_t key : {std::int64_t{0}, std::int64_t{-5}, std::int64_t{7}})
    CHECK_FALSE(hands.identityOf(key));
}

TEST_CASE("A logbook takes 2,047 laptops and refuses the next", "[case-213]") {
  Hands hands;
  const auto laptop = [](int n) {
    base::Uuid uuid;
    uuid.bytes[0] = static_cast<std::uint8_t>(n & 255);
    uuid.bytes[1] = static_cast<std::uint8_t>(n >> 8);
    return base::LaptopId(uuid);
  };
  for (int n = 1; n <= store::mostHands; ++n)
    CHECK(hands.taken(laptop(n), 0) == n);
  CHECK(hands.taken(laptop(7), 0) == 7);
  const auto refused = store::guarded([&] { return hands.taken(laptop(0)); });
  REQUIRE_FALSE(refused);
  CHECK(refused.error().code == ErrorCode::storeCrowded);
  CHECK(refused.error().detail.find("2047 laptops") != std::string::npos);
}

TEST_CASE("Two laptops that wrote in the same millisecond are shown in one order in every file",
          "[case-214]") {
  Twins twins;
  {
    auto a = twins.open("a", twins.one);
    auto b = twins.open("b", twins.two);
    auto c = twins.open("c", twins.three);
    Twins::add(a, "Brindle Quay", nineSharp);
    Twins::add(b, "Cobble Lantern", nineSharp);
    Twins::add(c, "Dunmore Spit", nineSharp);
  }
  for (const auto* name : {"a", "b", "c"})
    std::filesystem::copy_file(twins.at(name), twins.at(std::string(name) + "-alone"));
  // In the first file the second laptop has the lower number, in the other the third: by them the
  // orders would differ.
  const auto merged = [&](const std::string& mine, base::LaptopId laptop,
                          const std::vector<std::string>& others) {
    auto book = twins.open(mine, laptop);
    for (const auto& other : others) {
      const auto done = book.absorb(twins.at(other), nineSharp.at);
      if (!done) FAIL(done.error().detail);
      CHECK(done->newEntries == 2);
      CHECK(book.absorb(twins.at(other), nineSharp.at)->newEntries == 0);
    }
    CHECK(book.faults().value().empty());
    return Twins::schools(book);
  };
  const auto second = merged("b", twins.two, {"c-alone", "a-alone"});
  const auto third = merged("c", twins.three, {"a-alone", "b-alone"});
  CHECK(second.size() == 4);
  CHECK(second == third);
  const auto numberOf = [&](const char* book, const char* laptop) {
    return Twins::number(twins.at(book),
                         "SELECT number FROM hand WHERE laptop = x'" + std::string(laptop) + "'");
  };
  const auto hexOf = [](int digit) {
    std::string hex;
    for (int i = 0; i < 16; ++i)
      hex += "0" + std::to_string(digit);
    return hex;
  };
  CHECK(numberOf("b", hexOf(2).c_str()) < numberOf("b", hexOf(3).c_str()));
  CHECK(numberOf("c", hexOf(2).c_str()) > numberOf("c", hexOf(3).c_str()));
  // Each goes on in its own hand.
  auto book = twins.open("c", twins.three);
  Twins::add(book, "Elder Reach", nineSharp);
  CHECK(book.lastSequence() == 4);
  CHECK(book.faults().value().empty());
}

TEST_CASE("A merge of files that number their laptops otherwise renumbers every identity of every "
          "table",
          "[case-215]") {
  const Scratch folder;
  makeEveryTable(folder / "one.gkbook", Holds::everyone);
  const auto third = laptopNumbered(3);
  {
    // The same logbook, of which a third laptop has nothing yet but what it wrote itself.
    auto made = store::createBook(folder / "two.gkbook", Durability::bulk, nineSharp.at);
    REQUIRE(made);
    made->prepare("ATTACH DATABASE ? AS other")
        .bindAll(std::string_view((folder / "one.gkbook").native()))
        .run();
    // But for the recovery code, which is in the history that this one does not have yet.
    made->execute("INSERT INTO main.book SELECT * FROM other.book; DETACH DATABASE other; UPDATE "
                  "book SET recovery_salt = NULL, recovery_passes = NULL, recovery_bytes = NULL, "
                  "recovery_nonce = NULL, recovery_box = NULL, recovery_digest = NULL, "
                  "wraps_digest = NULL");
  }
  const auto open = [&](const char* name, base::LaptopId laptop) {
    auto book =
        Book::open(folder / name, laptop, Access::readWrite, Durability::bulk, nineSharp.at);
    if (!book) FAIL(book.error().detail);
    return std::move(*book);
  };
  const auto rows = Twins::number(folder / "one.gkbook", "SELECT count(*) FROM entry");
  {
    auto book = open("two.gkbook", third);
    Twins::add(book, "Cobble Lantern", nineSharp);
    const auto merged = book.absorb(folder / "one.gkbook", nineSharp.at);
    if (!merged) FAIL(merged.error().detail);
    CHECK(merged->newEntries == rows);
    // The digests are over whole identities, so one that was not renumbered would not fit.
    CHECK(book.faults().value().empty());
  }
  CHECK(Twins::number(folder / "two.gkbook", "SELECT count(DISTINCT id & 2047) FROM entry") == 4);
  CHECK(Twins::number(folder / "two.gkbook", "SELECT count(*) FROM hand JOIN act ON first & 2047 = "
                                             "number WHERE laptop = x'" +
                                                 std::string(29, '0') + "801' AND number = 1") ==
        0);
  auto book = open("one.gkbook", nobodysLaptop);
  CHECK(book.absorb(folder / "two.gkbook", nineSharp.at)->newEntries == 2);
  CHECK(book.absorb(folder / "two.gkbook", nineSharp.at)->newEntries == 0);
  CHECK(book.faults().value().empty());
}

TEST_CASE("What an act's rows have in common is said once, and a row by another says so itself",
          "[case-216]") {
  Twins twins;
  {
    auto book = twins.open("a", twins.one);
    std::optional<base::MemberId> first;
    std::optional<base::MemberId> second;
    REQUIRE(book.act({}, nineSharp, [&](store::Act& act) {
      first = act.add(roster::Member{"Oriel", "OF", roster::Role::hygienist, "", {}, {}});
      second = act.add(roster::Member{"Renske", "RV", roster::Role::dentalAssistant, "", {}, {}});
    }));
    REQUIRE(book.act({first, {}}, nineSharp, [&](store::Act& act) {
      act.add(roster::School{"Said Once", "SO"});
    }));
    const auto said = book.current<roster::School>(store::everything()).value().back();
    REQUIRE(book.act({second, {}}, nineSharp, [&](store::Act& act) {
      act.add(roster::School{"Another", "AN"});
      act.restate(said, said.value, "entered again");
    }));
    const auto rows = book.current<roster::School>(store::everything()).value();
    CHECK(rows.at(1).stamp.by.author == second);
    CHECK_FALSE(rows.at(1).stamp.by.recorder);
    CHECK(rows.at(2).stamp.by.author == first);
    CHECK(rows.at(2).stamp.by.recorder == second);
    CHECK(rows.at(2).stamp.sequence == rows.at(1).stamp.sequence + 1);
    CHECK(book.faults().value().empty());
  }
  CHECK(Twins::number(twins.at("a"), "SELECT count(*) FROM entry WHERE author IS NOT NULL") == 1);
  CHECK(Twins::number(twins.at("a"), "SELECT count(*) FROM act") == 4);
  // For a reader with plain SQL all of it stands in each row.
  CHECK(Twins::number(twins.at("a"), "SELECT count(*) FROM every_entry WHERE author IS NOT NULL "
                                     "AND recorder IS NOT NULL AND kind = 'school'") == 1);
  CHECK(Twins::number(twins.at("a"), "SELECT count(DISTINCT sequence) FROM every_entry WHERE "
                                     "laptop = x'01010101010101010101010101010101'") == 7);
  CHECK(Twins::number(twins.at("a"), "SELECT count(*) FROM current_entry JOIN school ON "
                                     "school.entry = current_entry.id") == 3);
}

} // namespace gk::test
