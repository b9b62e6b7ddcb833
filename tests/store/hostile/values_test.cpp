#include "base/text/text.h"
#include "store/records/authorization_rows.h"
#include "store/records/chairside_rows.h"
#include "store/records/child_rows.h"
#include "store/records/closing_rows.h"
#include "store/records/consent_rows.h"
#include "store/records/every_table.h"
#include "store/records/followup_rows.h"
#include "store/records/key_rows.h"
#include "store/records/kit_rows.h"
#include "store/records/people_rows.h"
#include "store/records/record_list.h"
#include "store/records/roster_rows.h"
#include "store/records/visit_rows.h"
#include "store/records/year_rows.h"
#include "store/rows/rows.h"
#include "store/sqlite/trouble.h"
#include "support/long_checks.h"
#include "support/scratch.h"

#include <catch2/catch.hpp>

// What the schema lets in, the program must be able to read: else a logbook that `check` calls
// whole, and a merge takes in, is one that nothing can be done with.

namespace gk::test {

namespace {

using store::Connection;

struct SomeColumn {
  std::string table;
  std::string name;
  std::string type;
};

std::vector<SomeColumn> columnsOf(Connection& book) {
  std::vector<SomeColumn> columns;
  auto rows = book.prepare(
      "SELECT t.name, c.name, c.type FROM sqlite_schema AS t JOIN pragma_table_info(t.name) AS c "
      "WHERE t.type = 'table' ORDER BY t.name, c.cid");
  while (rows.step()) {
    const auto [table, name, type] = rows.columns<std::string, std::string, std::string>();
    columns.push_back({table, name, type});
  }
  return columns;
}

/// As SQL, the ends of what a column of that type can hold and of what it is meant to.
std::vector<std::string> hostileValues(const std::string& type) {
  if (type == "INTEGER")
    return {"-9223372036854775807 - 1",
            "-2147483649",
            "-1",
            "0",
            "1",
            "11",
            "99",
            "100000",
            "2147483647",
            "2147483648",
            "4294967296",
            "5975883311104",
            "9223372036854775807"};
  if (type == "TEXT")
    return {"''",
            "' '",
            "'x'",
            "'-1'",
            "char(9)",
            "'a' || char(10)",
            "'a' || char(8203)",
            "'0001-01-01'",
            "'1899-12-31'",
            "'1900-01-01'",
            "'2199-12-31'",
            "'2200-01-01'",
            "'9999-12-31'",
            "'2026-02-30'",
            "'2026-1-1'",
            "'1/../../x-1'",
            "'1-2-3'",
            "'99999999999999999999999999-1'",
            "hex(zeroblob(5000))"};
  return {"x''",          "x'00'",        "zeroblob(16)",  "zeroblob(24)",
          "zeroblob(32)", "zeroblob(48)", "zeroblob(5000)"};
}

/// A reference to a row that is not there is what `check` finds by itself.
bool refersToRows(Connection& book) {
  auto broken = book.prepare("SELECT 1 FROM pragma_foreign_key_check");
  return !broken.step();
}

/// What cannot be read of any kind of row, whole or as it stands now.
std::vector<std::string> unreadable(Connection& book) {
  std::vector<std::string> out;
  store::forEachRecord([&]<class T>() {
    for (const auto which : {store::Which::ever, store::Which::current}) {
      const auto read =
          store::guarded([&] { (void)store::selectRows<T>(book, store::everything(), which); });
      if (!read) out.push_back(std::string(store::Rows<T>::table) + ": " + read.error().detail);
    }
  });
  return out;
}

} // namespace

TEST_CASE("Every value that the schema admits in any column can be read", "[case-498]") {
  const Scratch folder;
  makeEveryTable(folder / "all.gkbook");
  Connection book(folder / "all.gkbook", store::Access::readWrite, store::Durability::bulk);
  {
    std::string dropping;
    auto triggers = book.prepare("SELECT name FROM sqlite_schema WHERE type = 'trigger'");
    while (triggers.step())
      dropping += "DROP TRIGGER " + triggers.column<std::string>(0) + ";";
    book.execute(dropping);
  }
  REQUIRE(unreadable(book).empty());
  std::uint64_t turn = 0;
  int admitted = 0;
  for (const auto& [table, column, type] : columnsOf(book))
    for (const auto& value : hostileValues(type)) {
      if (table == "hand") continue; // another number for a laptop leaves its entries without one
      if (turn++ % test::oneOf(1) != 0) continue;
      book.execute("BEGIN");
      const auto changed = store::guarded([&] {
        book.execute("UPDATE \"" + table + "\" SET \"" + column + "\" = " + value +
                     " WHERE rowid = (SELECT max(rowid) FROM \"" + table + "\")");
      });
      if (changed && refersToRows(book)) {
        ++admitted;
        INFO(table << '.' << column << " = " << value);
        CHECK(base::join(unreadable(book), "; ") == "");
      }
      book.rollBack();
    }
  CHECK(admitted > 100);
}

} // namespace gk::test
