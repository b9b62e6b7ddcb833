#include "store/sqlite/connection.h"

#include "broken/broken_books.h"
#include "store/sqlite/transaction.h"
#include "support/scratch.h"

#include <catch2/catch.hpp>

namespace gk::test {

using base::ErrorCode;
using store::Access;
using store::Connection;
using store::Durability;
using store::guarded;

namespace {

/// A book of the small schema, open for writing.
struct OpenBook {
  explicit OpenBook(Durability durability = Durability::everyAct) {
    writeBook(scratch / "larkmere.gkbook");
    connection.emplace(scratch / "larkmere.gkbook", Access::readWrite, durability);
  }

  Scratch scratch;
  std::optional<Connection> connection;
};

std::string answer(Connection& connection, std::string_view sql) {
  auto row = connection.prepare(sql);
  REQUIRE(row.step());
  return row.column<std::string>(0);
}

std::int64_t number(Connection& connection, std::string_view sql) {
  auto row = connection.prepare(sql);
  REQUIRE(row.step());
  return row.column<std::int64_t>(0);
}

base::Error troubleOf(Connection& connection, std::string_view sql) {
  const auto done = guarded([&] { connection.execute(sql); });
  REQUIRE_FALSE(done);
  return done.error();
}

} // namespace

TEST_CASE("every connection has the house settings") {
  OpenBook book;
  Connection& connection = *book.connection;
  CHECK(number(connection, "PRAGMA foreign_keys") == 1);
  CHECK(number(connection, "PRAGMA trusted_schema") == 0);
  CHECK(number(connection, "PRAGMA cell_size_check") == 1);
  CHECK(number(connection, "PRAGMA secure_delete") == 1);
  CHECK(answer(connection, "PRAGMA journal_mode") == "delete");
  CHECK(answer(connection, "PRAGMA locking_mode") == "exclusive");
  CHECK(number(connection, "PRAGMA synchronous") == 3); // EXTRA
}

TEST_CASE("a bulk connection is unsynced until it is finished") {
  OpenBook book(Durability::bulk);
  CHECK(number(*book.connection, "PRAGMA synchronous") == 0);
  book.connection->finish();
  CHECK(number(*book.connection, "PRAGMA synchronous") == 3);
}

TEST_CASE("a row that points at nothing is refused") {
  OpenBook book;
  const auto error = troubleOf(*book.connection, "INSERT INTO jar VALUES (9, 77, 'plum')");
  CHECK(error.code == ErrorCode::storeWriteFailed);
  CHECK(error.detail.find("FOREIGN KEY constraint failed (SQLite 787)") != std::string::npos);
  CHECK(error.detail.find("larkmere.gkbook") != std::string::npos);
}

TEST_CASE("a strict table refuses text for a number") {
  OpenBook book;
  const auto error = troubleOf(*book.connection, "INSERT INTO shelf VALUES ('top')");
  CHECK(error.code == ErrorCode::storeWriteFailed);
}

TEST_CASE("a misspelt column in double quotes is an error and not a text") {
  OpenBook book;
  CHECK(troubleOf(*book.connection, "SELECT \"labell\" FROM jar").detail.find("no such column") !=
        std::string::npos);
  CHECK(troubleOf(*book.connection, "CREATE INDEX by_label ON jar (\"labell\")")
            .detail.find("no such column") != std::string::npos);
}

TEST_CASE("the schema cannot be edited behind the program's back") {
  OpenBook book;
  const auto error =
      troubleOf(*book.connection, "PRAGMA writable_schema = ON; DELETE FROM sqlite_schema");
  CHECK(error.detail.find("may not be modified") != std::string::npos);
}

TEST_CASE("an act without commit leaves nothing") {
  OpenBook book;
  {
    store::Transaction act(*book.connection);
    book.connection->execute("DELETE FROM jar");
  }
  CHECK_FALSE(book.connection->isInTransaction());
  CHECK(number(*book.connection, "SELECT count(*) FROM jar") == 3);
}

TEST_CASE("an act that throws leaves nothing") {
  OpenBook book;
  const auto done = guarded([&] {
    store::Transaction act(*book.connection);
    book.connection->execute("DELETE FROM jar");
    book.connection->execute("INSERT INTO shelf VALUES (1)"); // taken
    act.commit();
  });
  CHECK_FALSE(done);
  CHECK(number(*book.connection, "SELECT count(*) FROM jar") == 3);
}

TEST_CASE("an act whose commit is refused leaves nothing") {
  OpenBook book;
  const auto done = guarded([&] {
    store::Transaction act(*book.connection);
    book.connection->execute("PRAGMA defer_foreign_keys = ON; DELETE FROM shelf");
    act.commit();
  });
  REQUIRE_FALSE(done);
  CHECK_FALSE(book.connection->isInTransaction());
  CHECK(number(*book.connection, "SELECT count(*) FROM shelf") == 1);
}

TEST_CASE("a full disk is told as such and every earlier act is kept") {
  OpenBook book;
  Connection& connection = *book.connection;
  const auto pages = number(connection, "PRAGMA page_count");
  connection.execute("PRAGMA max_page_count = " + std::to_string(pages + 8));
  int kept = 0;
  auto outcome = base::Result<base::Done>(base::Done{});
  while (outcome && kept < 1000) {
    outcome = guarded([&] {
      store::Transaction act(connection);
      connection.prepare("INSERT INTO jar (id, shelf, label) VALUES (?1, ?2, ?3)")
          .bindAll(100 + kept, 1, std::string(2000, 'p'))
          .run();
      act.commit();
    });
    if (outcome) ++kept;
  }
  REQUIRE_FALSE(outcome);
  CHECK(outcome.error().code == ErrorCode::diskFull);
  CHECK(kept > 3);
  CHECK(number(connection, "SELECT count(*) FROM jar") == 3 + kept);

  book.connection.reset();
  auto again =
      store::openBook(book.scratch / "larkmere.gkbook", Access::readWrite, Durability::everyAct,
                      someMorning, store::Checkup::whole, firstSchema());
  REQUIRE(again);
  CHECK(number(*again, "SELECT count(*) FROM jar") == 3 + kept);
  CHECK(store::integrity(*again).value().empty());
}

TEST_CASE(
    "the journal beside an open file keeps the pages as they were, but of a commit that cuts it") {
  OpenBook book;
  const auto journal = (book.scratch / "larkmere.gkbook").string() + "-journal";
  const auto bytesAfter = [&](const char* sql, bool isCut) {
    store::Transaction act(*book.connection);
    book.connection->execute(sql);
    if (isCut) book.connection->cutJournal();
    act.commit();
    return std::filesystem::exists(journal) ? std::filesystem::file_size(journal) : 0;
  };
  CHECK(bytesAfter("DELETE FROM jar WHERE rowid = (SELECT max(rowid) FROM jar)", false) > 0);
  CHECK(bytesAfter("DELETE FROM jar WHERE rowid = (SELECT max(rowid) FROM jar)", true) == 0);
  CHECK(bytesAfter("DELETE FROM jar", false) > 0); // that one alone
}

TEST_CASE("guarded work gives its value or its trouble") {
  CHECK(guarded([] { return 7; }).value() == 7);
  CHECK(guarded([] {}).value() == base::Done{});
  CHECK(guarded([] { return base::Result<int>(7); }).value() == 7);
  const base::Error error{ErrorCode::notFound, "no such visit"};
  CHECK(guarded([&]() -> int { throw store::Trouble(error); }).error() == error);
}

} // namespace gk::test
