#include "broken/broken_books.h"
#include "broken/digest_all.h"
#include "store/records/every_table.h"
#include "support/scratch.h"

#include <catch2/catch.hpp>
#include <sqlite3.h>

namespace gk::test {

using base::ErrorCode;
using store::Access;
using store::Book;
using store::Checkup;
using store::Durability;

namespace {

/// A tool for SQLite, without anything of ours.
class Tool {
 public:
  explicit Tool(const base::Path& path) {
    REQUIRE(sqlite3_open(path.c_str(), &db_) == SQLITE_OK);
    run("PRAGMA writable_schema = ON");
  }
  ~Tool() { sqlite3_close(db_); }
  Tool(const Tool&) = delete;
  Tool& operator=(const Tool&) = delete;
  void run(const std::string& sql) {
    INFO(sql);
    REQUIRE(sqlite3_exec(db_, sql.c_str(), nullptr, nullptr, nullptr) == SQLITE_OK);
  }
  std::string ask(const std::string& sql) {
    std::string answer;
    const auto take = [](void* to, int, char** cells, char**) {
      *static_cast<std::string*>(to) = cells[0] ? cells[0] : "";
      return 0;
    };
    REQUIRE(sqlite3_exec(db_, sql.c_str(), take, &answer, nullptr) == SQLITE_OK);
    return answer;
  }

 private:
  sqlite3* db_ = nullptr;
};

/// Builds the index again with no row in it and puts its words back, so that the schema is ours.
void emptyIndex(const base::Path& path, const std::string& index) {
  const std::string of = "' WHERE name = '" + index + "'";
  std::string words;
  std::string version;
  {
    Tool tool(path);
    words = tool.ask("SELECT sql FROM sqlite_schema WHERE name = '" + index + "'");
    version = tool.ask("PRAGMA schema_version");
    tool.run("UPDATE sqlite_schema SET sql = sql || '" +
             std::string(words.find(" WHERE ") == std::string::npos ? " WHERE " : " AND ") +
             "1 = 0" + of);
    tool.run("PRAGMA schema_version = " + std::to_string(std::stoi(version) + 1));
  }
  {
    Tool tool(path);
    tool.run("REINDEX " + index);
  }
  Tool tool(path);
  tool.run("UPDATE sqlite_schema SET sql = '" + words + of);
  tool.run("PRAGMA schema_version = " + version);
}

std::vector<std::string> indexesOf(const base::Path& path) {
  Tool tool(path);
  std::vector<std::string> names;
  const auto count = std::stoi(
      tool.ask("SELECT count(*) FROM sqlite_schema WHERE type = 'index' AND sql IS NOT NULL"));
  for (int i = 0; i < count; ++i)
    names.push_back(tool.ask("SELECT name FROM sqlite_schema WHERE type = 'index' AND sql IS NOT "
                             "NULL ORDER BY name LIMIT 1 OFFSET " +
                             std::to_string(i)));
  return names;
}

base::Result<Book> openedWith(const base::Path& path, Access access) {
  return Book::open(path, nobodysLaptop, access, Durability::everyAct, someMorning);
}

} // namespace

TEST_CASE("A logbook whose index hides rows is not opened, copied or merged, whichever index it is",
          "[case-336]") {
  const Scratch folder;
  const auto whole = folder / "whole.gkbook";
  makeEveryTable(whole);
  const auto indexes = indexesOf(whole);
  REQUIRE(indexes.size() > 10);
  int noticed = 0;
  for (const auto& index : indexes) {
    const auto bad = folder / (index + ".gkbook");
    std::filesystem::copy_file(whole, bad);
    emptyIndex(bad, index);
    INFO(index);
    auto skipped = Book::open(bad, nobodysLaptop, Access::readOnly, Durability::everyAct,
                              someMorning, Checkup::skip);
    if (!skipped) { // found by what every opening reads
      CHECK(skipped.error().code == ErrorCode::storeDamaged);
      ++noticed;
      continue;
    }
    if (skipped->faults().value().empty()) continue; // it had no row before
    ++noticed;
    skipped = base::Error{ErrorCode::notFound, "closed"};
    for (const auto access : {Access::readOnly, Access::readWrite}) {
      const auto opened = openedWith(bad, access);
      REQUIRE_FALSE(opened);
      CHECK(opened.error().code == ErrorCode::storeDamaged);
    }
    auto mine = openedWith(whole, Access::readWrite);
    REQUIRE(mine);
    const auto merged = mine->absorb(bad, someMorning);
    REQUIRE_FALSE(merged);
    CHECK(merged.error().code == ErrorCode::storeDamaged);
    CHECK(merged.error().detail.find(index + ".gkbook") != std::string::npos);
  }
  CHECK(noticed > 10);
  CHECK(looksWhole(whole));
}

TEST_CASE("A file of a hundred thousand views is refused in a moment", "[case-337]") {
  const Scratch folder;
  const auto bomb = folder / "bomb.gkbook";
  makeEveryTable(bomb);
  {
    Tool tool(bomb);
    tool.run(
        "WITH RECURSIVE n (i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < 100000) "
        "INSERT INTO sqlite_schema (type, name, tbl_name, rootpage, sql) SELECT 'view', 'v' || "
        "i, 'v' || i, 0, 'CREATE VIEW v' || i || ' AS SELECT 1' FROM n");
  }
  for (const auto access : {Access::readOnly, Access::readWrite})
    for (const auto checkup : {Checkup::whole, Checkup::skip}) {
      const auto opened =
          Book::open(bomb, nobodysLaptop, access, Durability::everyAct, someMorning, checkup);
      REQUIRE_FALSE(opened);
      CHECK(opened.error().code == ErrorCode::storeDamaged);
      CHECK(opened.error().detail.find("more tables, indexes and views") != std::string::npos);
    }
}

} // namespace gk::test
