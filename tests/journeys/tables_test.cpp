#include "base/text/text.h"
#include "journeys/told.h"
#include "reports/day/close_out_tables.h"
#include "reports/report.h"
#include "reports/term/term_tables.h"

#include <catch2/catch.hpp>

#include <set>

using namespace gk;
using reports::Kind;

namespace {

/// Figures are values: none stands as text, and a share or a date stands where one is said.
bool fits(const reports::Column& column, const reports::Cell& cell) {
  if (const auto* words = cell.as<std::string>()) return !base::parseDouble(*words);
  if (column.kind == Kind::share)
    return !cell.as<reports::Count>() && !cell.as<reports::Number>() && !cell.as<base::Date>();
  if (column.kind == Kind::date) return !column.isNumber() && !cell.as<reports::Count>();
  return !(column.kind == Kind::count && cell.as<reports::Share>());
}

void checkWhole(const std::vector<reports::Table>& tables) {
  for (const auto& table : tables) {
    INFO(table.title);
    CHECK_FALSE(keyOf(table).empty());
    std::set<std::string> keys;
    for (const auto& column : table.columns)
      keys.insert(keyOf(column));
    CHECK(keys.size() == table.columns.size());
    for (const auto& row : table.rows) {
      REQUIRE(row.size() == table.columns.size());
      for (std::size_t i = 0; i < row.size(); ++i) {
        INFO(table.columns[i].heading << ": " << row[i]);
        const bool isName = i == 0 || table.columns[i].kind == Kind::text;
        CHECK((isName || fits(table.columns[i], row[i])));
      }
    }
  }
}

} // namespace

TEST_CASE("Every table of the demo has keys of its own and its figures as values") {
  test::Told told(demo::Until::closed);
  const auto records = told.term(1);
  for (std::size_t i = 0; i < base::enumCount<reports::ReportKind>; ++i) {
    const auto kind = static_cast<reports::ReportKind>(i);
    if (kind == reports::ReportKind::state || kind == reports::ReportKind::terms) continue;
    CAPTURE(base::nameOf(kind));
    checkWhole(reports::reportOf(kind, records));
  }
  checkWhole(reports::termFile(reports::termTotals(records)));
  checkWhole(reports::closeOutFile(reports::closeOut(told.lastDay())));
}
