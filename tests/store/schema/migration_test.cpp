#include "store/schema/migration.h"

#include "broken/broken_books.h"
#include "roster/program/program.h"
#include "store/audit.h"
#include "store/book.h"
#include "store/records/every_table.h"
#include "store/sqlite/trouble.h"
#include "support/scratch.h"

#include <catch2/catch.hpp>

namespace gk::test {

using base::ErrorCode;
using base::Path;
using store::Access;
using store::Checkup;
using store::Durability;
using store::Migration;
using store::openBook;

namespace {

base::Result<store::Connection> openedAt(const Path& path, const std::vector<Migration>& steps,
                                         Access access = Access::readWrite) {
  return openBook(path, access, Durability::everyAct, someMorning, Checkup::whole, steps);
}

std::vector<Migration> firstAnd(std::string_view sql) {
  auto steps = firstSchema();
  steps.push_back({2, "next", sql});
  return steps;
}

std::int64_t numberOf(store::Connection& book, std::string_view sql) {
  auto row = book.prepare(sql);
  REQUIRE(row.step());
  return row.column<std::int64_t>(0);
}

} // namespace

TEST_CASE("the checksum is FNV-1a of 64 bits") {
  // Test vectors of IETF draft-eastlake-fnv, appendix C: "" and "foobar".
  CHECK(store::checksum("") == 0xcbf29ce484222325ULL);
  CHECK(store::checksum("foobar") == 0x85944171f73967e8ULL);
}

TEST_CASE("the schema steps built in are numbered from one without gaps") {
  int expected = 0;
  for (const Migration& step : store::migrations()) {
    CHECK(step.number == ++expected);
    CHECK_FALSE(step.sql.empty());
  }
}

TEST_CASE("the schema built in makes a whole book that opens again") {
  const Scratch scratch;
  const Path path = scratch / "larkmere.gkbook";
  REQUIRE(store::createBook(path, Durability::everyAct, someMorning));
  auto book = openBook(path, Access::readWrite, Durability::everyAct, someMorning);
  REQUIRE(book);
  CHECK(store::userVersion(*book) == static_cast<std::int64_t>(store::migrations().size()));
  CHECK(store::integrity(*book).value().empty());
}

TEST_CASE("a new book carries our mark and its version and its history") {
  const Scratch scratch;
  auto book = store::createBook(scratch / "larkmere.gkbook", Durability::everyAct, someMorning,
                                secondSchema());
  REQUIRE(book);
  CHECK(numberOf(*book, "PRAGMA application_id") == 0x474B424B);
  CHECK(store::userVersion(*book) == 2);
  auto history = book->prepare("SELECT number, name, applied_at FROM migration ORDER BY number");
  REQUIRE(history.step());
  CHECK(history.columns<int, std::string, base::Instant>() ==
        std::tuple(1, std::string("jars"), someMorning));
  REQUIRE(history.step());
  CHECK(history.columns<int, std::string, base::Instant>() ==
        std::tuple(2, std::string("lids"), someMorning));
  CHECK_FALSE(history.step());
}

TEST_CASE("an older book is brought up to date after a copy of it was put beside it") {
  const Scratch scratch;
  writeBook(scratch / "larkmere.gkbook");
  auto book = openedAt(scratch / "larkmere.gkbook", secondSchema());
  REQUIRE(book);
  CHECK(store::userVersion(*book) == 2);
  CHECK(numberOf(*book, "SELECT count(*) FROM jar WHERE lid IS NULL") == 3);

  auto copy = openedAt(scratch / "larkmere.before-2.gkbook", firstSchema());
  REQUIRE(copy);
  CHECK(store::userVersion(*copy) == 1);
  CHECK(numberOf(*copy, "SELECT count(*) FROM jar") == 3);
}

TEST_CASE("the copy made before a schema step never replaces an earlier one") {
  const Scratch scratch;
  writeBook(scratch / "larkmere.gkbook");
  writeTextFile(scratch / "larkmere.before-2.gkbook");
  const std::string before = bytesOf(scratch / "larkmere.before-2.gkbook");
  CHECK(openedAt(scratch / "larkmere.gkbook", secondSchema()));
  CHECK(bytesOf(scratch / "larkmere.before-2.gkbook") == before);
  CHECK(openedAt(scratch / "larkmere.before-2-2.gkbook", firstSchema()));
}

TEST_CASE("an older book is not brought up to date by reading") {
  const Scratch scratch;
  writeBook(scratch / "larkmere.gkbook");
  const std::string before = bytesOf(scratch / "larkmere.gkbook");
  const auto book = openedAt(scratch / "larkmere.gkbook", secondSchema(), Access::readOnly);
  REQUIRE_FALSE(book);
  CHECK(book.error().code == ErrorCode::storeReadOnly);
  CHECK(bytesOf(scratch / "larkmere.gkbook") == before);
}

TEST_CASE("a schema step that fails half way leaves the version before it") {
  const Scratch scratch;
  writeBook(scratch / "larkmere.gkbook");
  std::string_view sql;
  SECTION("a statement is wrong") {
    sql = "DROP TABLE jar; CREATE TABLE lid (id INTEGER) STRICT; INSERT INTO nosuch VALUES (1);";
  }
  SECTION("a constraint refuses an old row") {
    sql = "CREATE TABLE lid (label TEXT NOT NULL UNIQUE) STRICT;"
          "INSERT INTO lid (label) SELECT label FROM jar ORDER BY id;";
  }
  SECTION("rows would point at rows that do not exist") {
    sql = "DELETE FROM shelf;";
  }
  const auto failed = openedAt(scratch / "larkmere.gkbook", firstAnd(sql));
  REQUIRE_FALSE(failed);
  CHECK(failed.error().code == ErrorCode::storeMigrationFailed);
  CHECK(failed.error().detail.find("schema step 2 next was undone") == 0);

  auto book = openedAt(scratch / "larkmere.gkbook", firstSchema());
  REQUIRE(book);
  CHECK(store::userVersion(*book) == 1);
  CHECK(numberOf(*book, "SELECT count(*) FROM jar") == 3);
  CHECK(numberOf(*book, "SELECT count(*) FROM sqlite_schema WHERE name = 'lid'") == 0);
  CHECK(store::integrity(*book).value().empty());
}

TEST_CASE("a schema step may rebuild a table that others point at") {
  const Scratch scratch;
  writeBook(scratch / "larkmere.gkbook");
  auto book = openedAt(scratch / "larkmere.gkbook",
                       firstAnd("CREATE TABLE wider (id INTEGER NOT NULL PRIMARY KEY,"
                                " length INTEGER) STRICT;"
                                "INSERT INTO wider (id) SELECT id FROM shelf ORDER BY id;"
                                "DROP TABLE shelf; ALTER TABLE wider RENAME TO shelf;"));
  REQUIRE(book);
  CHECK(numberOf(*book, "SELECT count(*) FROM jar JOIN shelf ON shelf.id = jar.shelf") == 3);
  CHECK(numberOf(*book, "PRAGMA foreign_keys") == 1);
}

TEST_CASE("a history that does not fit the version is a damaged book") {
  const Scratch scratch;
  writeBook(scratch / "larkmere.gkbook");
  {
    store::Connection book(scratch / "larkmere.gkbook", Access::readWrite, Durability::bulk);
    book.execute("DELETE FROM migration");
  }
  const auto refused = openedAt(scratch / "larkmere.gkbook", firstSchema());
  REQUIRE_FALSE(refused);
  CHECK(refused.error().code == ErrorCode::storeDamaged);
}

namespace {

/// The program's own schema and a made-up next step: one more kind of record, one more column.
std::vector<Migration> withGossip() {
  auto steps = store::migrations();
  steps.push_back(
      {static_cast<int>(steps.size()) + 1, "gossip",
       "INSERT INTO entry_kind (number, name) VALUES (999, 'gossip');"
       "ALTER TABLE wet ADD COLUMN seen TEXT NOT NULL DEFAULT 'not said';"
       "CREATE TABLE gossip (entry INTEGER PRIMARY KEY REFERENCES entry (id), child INTEGER NOT "
       "NULL REFERENCES entry (id), text TEXT NOT NULL) STRICT;"
       "CREATE TRIGGER gossip_kind BEFORE INSERT ON gossip WHEN (SELECT kind FROM entry WHERE id = "
       "NEW.entry) IS NOT 999 BEGIN SELECT RAISE(ABORT, 'an entry of another kind in gossip'); END;"
       "CREATE TRIGGER gossip_no_delete BEFORE DELETE ON gossip BEGIN SELECT RAISE(ABORT, 'rows of "
       "gossip are never changed'); END;"});
  return steps;
}

constexpr std::string_view anEntryOfGossip =
    "INSERT INTO entry (id, kind, nth) VALUES (4097, 999, 0)";

} // namespace

TEST_CASE("a book of the version before keeps its rows and takes a new kind of record") {
  const Scratch scratch;
  const Path path = scratch / "larkmere.gkbook";
  base::SeededRandom random(3);
  {
    const auto made =
        store::Book::create(path, base::LaptopId(base::makeUuid7(someMorning, random)),
                            Durability::everyAct, someMorning,
                            {std::vector<std::uint8_t>(16, 1), 3, 65536,
                             std::vector<std::uint8_t>(24, 2), std::vector<std::uint8_t>(48, 3)},
                            random, {{}, {someMorning, {}}, [](store::Act& act) {
                                       act.add(roster::School{"Alder Hollow", "AH"});
                                     }});
    REQUIRE(made);
  }
  {
    store::Connection old(path, Access::readWrite, Durability::bulk);
    CHECK_FALSE(store::guarded([&] { old.execute(anEntryOfGossip); }));
  }
  auto book = openedAt(path, withGossip());
  REQUIRE(book);
  CHECK(numberOf(*book, "SELECT count(*) FROM entry JOIN school ON school.entry = entry.id") == 1);
  book->execute(anEntryOfGossip);
  book->execute("INSERT INTO gossip SELECT 4097, entry, 'heard' FROM school");
  CHECK_FALSE(store::guarded(
      [&] { book->execute("INSERT INTO gossip SELECT entry, entry, 'x' FROM school"); }));
  for (const auto* sql : {"UPDATE entry SET reason = 'x'", "DELETE FROM entry",
                          "DELETE FROM gossip", "DELETE FROM entry_kind"}) {
    CAPTURE(sql);
    CHECK_FALSE(store::guarded([&] { book->execute(sql); }));
  }
  CHECK(store::integrity(*book).value().empty());
}

TEST_CASE("a book with rows in every table is brought up to date with its digests, and the copy of "
          "it opens as it was") {
  const Scratch scratch;
  makeEveryTable(scratch / "larkmere.gkbook");
  const auto before = contentAt(scratch / "larkmere.gkbook");
  const auto steps = withGossip();
  {
    auto book = openedAt(scratch / "larkmere.gkbook", steps);
    REQUIRE(book);
    CHECK(numberOf(*book, "SELECT count(*) FROM current_entry") ==
          numberOf(*book, "SELECT count(*) FROM every_entry") - 7);
    CHECK(store::historyFaults(*book, "main", store::ownTables(*book)).empty());
    CHECK(store::integrity(*book).value().empty());
  }
  const auto copy = "larkmere.before-" + std::to_string(steps.size()) + ".gkbook";
  CHECK(openedAt(scratch / copy, store::migrations()));
  CHECK(contentAt(scratch / copy) == before);
}

TEST_CASE("Bringing a book up to date can be stopped anywhere, and then nothing was changed",
          "[case-276]") {
  const Scratch scratch;
  const Path path = scratch / "larkmere.gkbook";
  writeBook(path);
  auto steps = secondSchema();
  steps.push_back({3, "many",
                   "CREATE TABLE many (n INTEGER) STRICT; INSERT INTO many WITH RECURSIVE c(n) AS "
                   "(SELECT 1 UNION ALL SELECT n + 1 FROM c WHERE n < 20000) SELECT n FROM c;"});
  const auto opened = [&](int stopAt, int& asked) {
    return openBook(path, Access::readWrite, Durability::everyAct, someMorning, Checkup::whole,
                    steps, {[&, stopAt] { return ++asked >= stopAt; }, {}});
  };
  const auto before = bytesOf(path);
  int stops = 0;
  for (int stopAt = 1;; stopAt += 3) {
    int asked = 0;
    CAPTURE(stopAt);
    {
      const auto book = opened(stopAt, asked);
      if (book) break;
      CHECK(book.error().code == ErrorCode::workCanceled);
    }
    ++stops;
    CHECK(bytesOf(path) == before);
    CHECK(std::ranges::distance(std::filesystem::directory_iterator(scratch.path()),
                                std::filesystem::directory_iterator()) == 1);
  }
  CHECK(stops > 3);
  CHECK(std::filesystem::exists(scratch / "larkmere.before-3.gkbook"));
}

TEST_CASE("A book of an older version is told without touching it", "[case-276]") {
  const Scratch scratch;
  writeBook(scratch / "larkmere.gkbook");
  const auto before = bytesOf(scratch / "larkmere.gkbook");
  CHECK(store::isOfOlderVersion(scratch / "larkmere.gkbook", secondSchema()));
  CHECK_FALSE(store::isOfOlderVersion(scratch / "larkmere.gkbook", firstSchema()));
  CHECK_FALSE(store::isOfOlderVersion(scratch / "none.gkbook"));
  CHECK(bytesOf(scratch / "larkmere.gkbook") == before);
}

} // namespace gk::test
