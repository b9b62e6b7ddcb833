#include "base/text.h"
#include "office/json_writer.h"
#include "office/opening.h"
#include "office/totals_json.h"
#include "office/verbs.h"
#include "reports/published.h"
#include "reports/render.h"
#include "reports/term_tables.h"

#include <algorithm>
#include <ostream>

namespace gk::office {

using base::Error;
using base::ErrorCode;
using base::Result;

namespace {

using Terms = std::vector<base::Recorded<roster::Term>>;

Result<Terms> wantedTerms(session::Session& session, const Call& call) {
  const auto name = call.textIfAny("--term");
  if (!name) return session.terms();
  auto term = termCalled(session, *name);
  if (!term) return term.error();
  return Terms{std::move(*term)};
}

struct Publishing {
  reports::SuppressionRule rule;
  std::vector<base::Date> earlier; ///< oldest first
};

/// The program's own threshold when none is given.
Result<Publishing> publishing(session::Session& session, const Call& call) {
  const auto program = session.program();
  if (!program) return program.error();
  const auto under = call.whole("--suppress-under", reports::SuppressionRule::least, 100);
  if (!under) return under.error();
  const auto rule = reports::SuppressionRule::under(under->value_or(program->value.suppressBelow));
  if (!rule) return rule.error();
  Publishing out{*rule, {}};
  if (const auto dates = call.textIfAny("--published-on"))
    for (const auto word : base::split(*dates, ',')) {
      const auto date = base::Date::parse(base::trim(word));
      if (!date) return Error{date.error().code, "--published-on: " + date.error().detail};
      out.earlier.push_back(*date);
    }
  std::ranges::sort(out.earlier);
  return out;
}

void tablesJson(JsonWriter& json, const std::vector<reports::Table>& tables) {
  json.arrayField("tables");
  for (const auto& table : tables) {
    json.beginObject();
    json.field("title", table.title);
    json.arrayField("columns");
    for (const auto& column : table.columns)
      json.value(column.heading);
    json.endArray();
    json.arrayField("rows");
    for (const auto& row : table.rows)
      json.value(row);
    json.endArray();
    json.field("notes", table.notes);
    json.endObject();
  }
  json.endArray();
}

Result<Exit> publish(session::Session& session, const Terms& terms, base::Date asOf,
                     const Call& call, const Surroundings& around) {
  const auto how = publishing(session, call);
  if (!how) return how.error();
  std::vector<std::vector<reports::Table>> all;
  for (const auto& term : terms) {
    std::vector<reports::TermTotals> history;
    auto dates = how->earlier;
    std::erase_if(dates, [&](base::Date date) { return date < term.value.start; });
    dates.push_back(asOf);
    for (const auto date : dates) {
      const auto records = session.termRecords(term.id, date);
      if (!records) return records.error();
      history.push_back(reports::termTotals(*records));
    }
    all.push_back(reports::publishedTables(history.back(), how->rule,
                                           std::span(history).first(history.size() - 1)));
  }
  if (!call.wantsJson()) {
    for (const auto& tables : all)
      around.out << reports::toText(tables);
    return Exit::fine;
  }
  JsonWriter json(around.out);
  json.beginObject();
  json.field("suppressed_under", how->rule.threshold());
  json.arrayField("terms");
  for (std::size_t i = 0; i < all.size(); ++i) {
    json.beginObject();
    json.field("name", terms[i].value.name);
    json.field("as_of", std::min(asOf, terms[i].value.end).iso());
    tablesJson(json, all[i]);
    json.endObject();
  }
  json.endArray();
  json.endObject();
  return Exit::fine;
}

Result<Exit> totals(const Call& call, const Surroundings& around) {
  const auto asOf = call.date("--as-of");
  if (!asOf) return asOf.error();
  if (!call.has("--publish"))
    for (const auto* option : {"--suppress-under", "--published-on"})
      if (call.has(option))
        return Error{ErrorCode::callMalformed, std::string(option) + " goes with --publish"};
  auto session = openToRead(call, around);
  if (!session) return session.error();
  const auto terms = wantedTerms(*session, call);
  if (!terms) return terms.error();
  const auto date = asOf->value_or(around.clock.now().date());
  if (call.has("--publish")) return publish(*session, *terms, date, call, around);
  std::vector<reports::TermRecords> records;
  for (const auto& term : *terms) {
    auto rows = session->termRecords(term.id, date);
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
             {"--as-of", "DATE", "nothing after this day counts; today when not given"},
             {"--publish", "", "only what may be published: small numbers are suppressed"},
             {"--suppress-under", "N", "the least count shown; the program's own, at least 5"},
             {"--published-on", "DATES", "days as of which tables of the term are out already"}}},
           totals}};
}

} // namespace gk::office
