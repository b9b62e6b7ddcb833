#include "base/files/files.h"
#include "broken/broken_books.h"
#include "store/audit.h"
#include "store/records/every_table.h"
#include "store/schema/migration.h"
#include "store/schema/own_schema.h"
#include "support/scratch.h"

#include <catch2/catch.hpp>
#include <cstdlib>
#include <string>
#include <vector>

namespace gk::test {

using base::Path;
using store::Access;
using store::Checkup;
using store::Durability;

namespace {

/// A logbook of schema 1 with rows in every table, as SQL that any SQLite reads back: text, so that
/// a change of it can be read. `GK_WRITE_GOLDEN=1 test_store "The golden*"` writes it again, which
/// is right only until the first release. After it, the file stays and a step is added.
Path goldenFile() {
  return Path(GK_SOURCE_DIR) / "tests/store/golden/0001.sql";
}

std::string asSql(store::Connection& book) {
  const auto listed = [&](const std::string& sql) {
    std::vector<std::string> list;
    auto rows = book.prepare(sql);
    while (rows.step())
      list.push_back(rows.column<std::string>(0));
    return list;
  };
  const auto objects = [&](const std::string& which) {
    std::string sql;
    for (const auto& one : listed("SELECT sql FROM sqlite_schema WHERE sql IS NOT NULL AND type " +
                                  which + " ORDER BY rowid"))
      sql += one + ";\n";
    return sql;
  };
  std::string sql =
      "PRAGMA application_id = " +
      listed("SELECT CAST(application_id AS TEXT) FROM pragma_application_id").front() +
      ";\nPRAGMA user_version = " + std::to_string(store::userVersion(book)) + ";\nBEGIN;\n" +
      objects("= 'table'");
  for (const auto& table :
       listed("SELECT name FROM sqlite_schema WHERE type = 'table' ORDER BY name")) {
    std::string values;
    auto columns = book.prepare("SELECT name FROM pragma_table_info(?) ORDER BY cid");
    columns.bind(1, std::string_view(table));
    while (columns.step())
      values += (values.empty() ? "quote(\"" : " || ', ' || quote(\"") +
                columns.column<std::string>(0) + "\")";
    for (const auto& row : listed("SELECT " + values + " FROM \"" + table + "\" ORDER BY 1"))
      sql += "INSERT INTO \"" + table + "\" VALUES (" + row + ");\n";
  }
  return sql + objects("<> 'table'") + "COMMIT;\n";
}

std::vector<store::Migration> withNext(std::string_view sql) {
  auto steps = store::migrations();
  steps.push_back({static_cast<int>(steps.size()) + 1, "next", sql});
  return steps;
}

} // namespace

TEST_CASE("The golden logbook of the first schema is whole for this program and for the next",
          "[case-326]") {
  const Scratch scratch;
  if (std::getenv("GK_WRITE_GOLDEN") != nullptr) {
    makeEveryTable(scratch / "made.gkbook");
    store::Connection made(scratch / "made.gkbook", Access::readOnly, Durability::everyAct);
    REQUIRE(base::replaceFile(goldenFile(), asSql(made)));
  }
  const auto path = scratch / "golden.gkbook";
  const auto golden = base::readFile(goldenFile());
  REQUIRE(golden);
  runUnguarded(path, *golden);
  {
    store::Connection read(path, Access::readOnly, Durability::everyAct);
    // Where this fails before the first release, schema step 1 was edited: write the file again.
    // After the release it may never fail: add a step instead.
    REQUIRE(store::strangeObjects(read, "main", store::ownSchema(store::migrations(), 1)).empty());
    CHECK(asSql(read) == *golden);
  }
  const auto before = contentAt(path);
  {
    auto book = store::openBook(path, Access::readWrite, Durability::everyAct, someMorning);
    INFO((book ? std::string() : book.error().detail));
    REQUIRE(book);
    CHECK(store::historyFaults(*book, "main", store::newestSchema()).empty());
    CHECK(store::pageFaults(*book).empty());
  }
  const auto steps = withNext("ALTER TABLE wet ADD COLUMN seen TEXT NOT NULL DEFAULT 'not said';"
                              "CREATE TABLE jar (id INTEGER PRIMARY KEY) STRICT;");
  auto book = store::openBook(path, Access::readWrite, Durability::everyAct, someMorning,
                              Checkup::whole, steps);
  REQUIRE(book);
  CHECK(store::userVersion(*book) == std::ssize(steps));
  CHECK(store::historyFaults(*book, "main", store::ownTables(*book)).empty());
  CHECK(contentAt(scratch / ("golden.before-" + std::to_string(steps.size()) + ".gkbook")) ==
        before);
}

} // namespace gk::test
