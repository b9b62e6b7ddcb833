#include "store/records/every_table.h"

#include "broken/broken_books.h"

#include <catch2/catch.hpp>
#include <sqlite3.h>

namespace gk::test {

std::string contentOf(store::Connection& book) {
  std::string content;
  auto tables = book.prepare("SELECT name FROM sqlite_schema WHERE type = 'table' ORDER BY name");
  while (tables.step()) {
    const auto name = tables.column<std::string>(0);
    auto columns = book.prepare("SELECT count(*) FROM pragma_table_info(?)");
    columns.bind(1, std::string_view(name));
    columns.step();
    const auto count = columns.column<int>(0);
    auto rows =
        book.prepare("SELECT * FROM \"" + name + "\" ORDER BY " + (count > 1 ? "1, 2" : "1"));
    while (rows.step()) {
      content += '\n' + name;
      for (int i = 0; i < count; ++i) {
        const auto cell = rows.cell(i);
        content += '|' + std::to_string(static_cast<int>(cell.type)) + ':' +
                   std::to_string(cell.number) + ':' + std::string(cell.bytes);
      }
    }
  }
  return content;
}

bool looksWhole(const base::Path& path) {
  auto book = store::Book::open(path, nobodysLaptop, store::Access::readOnly,
                                store::Durability::everyAct, someMorning);
  if (!book) return false;
  const auto faults = book->faults();
  return faults && faults->empty();
}

std::string contentAt(const base::Path& path) {
  std::string content;
  (void)store::guarded([&] {
    store::Connection book(path, store::Access::readOnly, store::Durability::everyAct);
    content = contentOf(book);
  });
  return content;
}

void runUnguarded(const base::Path& path, const std::string& sql) {
  sqlite3* db = nullptr;
  REQUIRE(sqlite3_open(path.c_str(), &db) == SQLITE_OK);
  sqlite3_db_config(db, SQLITE_DBCONFIG_ENABLE_TRIGGER, 0, nullptr);
  char* why = nullptr;
  const int code = sqlite3_exec(
      db, ("PRAGMA ignore_check_constraints = ON; PRAGMA foreign_keys = OFF; " + sql).c_str(),
      nullptr, nullptr, &why);
  INFO(sql << ": " << (why != nullptr ? why : ""));
  sqlite3_close(db);
  REQUIRE(code == SQLITE_OK);
}

} // namespace gk::test
