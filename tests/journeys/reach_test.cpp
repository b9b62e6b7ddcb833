#include "journeys/told.h"
#include "office/tables/tables_json.h"
#include "reports/print/render.h"
#include "reports/publish/published.h"
#include "reports/term/term_tables.h"

#include <sstream>

namespace gk::test {

namespace {

std::string totalsOf(const reports::TermRecords& records) {
  const auto tables = reports::termTables(reports::termTotals(records));
  std::ostringstream out;
  office::writeTablesJson("Totals", "", tables, office::Digits::all, out);
  return out.str() + reports::toText(tables);
}

} // namespace

TEST_CASE("the children that a term's figures may count give the figures of all children") {
  Told told(demo::Until::closed);
  auto& book = told.book();
  for (const auto& term : must(book.terms()))
    for (const auto& on : {term.value.start, term.value.start.plusDays(40), term.value.end}) {
      const auto whole = must(book.termRecords(term.id, on, session::Reach::program));
      const auto own = must(book.termRecords(term.id, on, session::Reach::term));
      INFO(term.value.name << " as of " << on.iso());
      CHECK(own.children.size() <= whole.children.size());
      CHECK(totalsOf(own) == totalsOf(whole));
    }
}

} // namespace gk::test
