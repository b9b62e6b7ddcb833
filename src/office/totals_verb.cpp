#include "office/opening.h"
#include "office/totals_json.h"
#include "office/verbs.h"
#include "reports/render.h"
#include "reports/term_tables.h"

#include <ostream>

namespace gk::office {

using base::Result;

namespace {

Result<Exit> totals(const Call& call, const Surroundings& around) {
  const auto asOf = call.date("--as-of");
  if (!asOf) return asOf.error();
  auto session = openToRead(call, around);
  if (!session) return session.error();
  auto terms = session->terms();
  if (!terms) return terms.error();
  if (const auto name = call.textIfAny("--term")) {
    auto term = termCalled(*session, *name);
    if (!term) return term.error();
    terms->clear();
    terms->push_back(std::move(*term));
  }
  std::vector<reports::TermRecords> records;
  for (const auto& term : *terms) {
    auto rows = session->termRecords(term.id, asOf->value_or(around.clock.now().date()));
    if (!rows) return rows.error();
    records.push_back(std::move(*rows));
  }
  if (call.wantsJson()) {
    writeTotalsJson(records, around.out);
  } else {
    for (const auto& term : records)
      around.out << reports::toText(reports::termTables(reports::termTotals(term)));
    if (records.empty()) around.out << "This logbook has no term yet; add-term adds one.\n";
  }
  return Exit::fine;
}

} // namespace

std::vector<Verb> totalsVerbs() {
  return {{{"totals",
            "FILE",
            "what each term comes to, by school; names stay sealed",
            {{"--term", "NAME", "this term alone"},
             {"--as-of", "DATE", "nothing after this day counts; today when not given"}}},
           totals}};
}

} // namespace gk::office
