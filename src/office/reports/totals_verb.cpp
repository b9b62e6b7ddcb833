#include "base/text/text.h"
#include "office/call/verbs.h"
#include "office/reports/publishing.h"
#include "office/tables/json_writer.h"
#include "office/tables/tables_json.h"
#include "reports/print/render.h"
#include "reports/term/term_tables.h"

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
  const auto rule = reports::SuppressionRule::under(under->value_or(program->value.suppressBelow),
                                                    program->value.bySchool);
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

/// What went out of a term: as noted, and as rebuilt for the days that were told.
Result<std::vector<reports::Release>> releasesOf(session::Session& session, roster::TermId term,
                                                 base::Date start, const Publishing& how) {
  std::vector<reports::Release> out;
  for (const auto date : how.earlier) {
    if (date < start) continue;
    const auto records = session.termRecords(term, date, session::Reach::term);
    if (!records) return records.error();
    out.push_back(reports::publish(reports::termTotals(*records), how.rule, out).release);
  }
  auto noted = session::releases(session, term);
  if (!noted) return noted.error();
  noted->insert(std::ranges::find(*noted, reports::OfTerm::same, &reports::Release::of),
                out.begin(), out.end());
  return std::move(*noted);
}

struct PublishedTerm {
  std::string name;
  base::Date asOf;
  std::string version;
  std::vector<reports::Table> tables;
  std::string advice;
};

Result<PublishedTerm> publishTerm(session::Session& session,
                                  const base::Recorded<roster::Term>& term, base::Date asOf,
                                  const Publishing& how, const Call& call,
                                  const Surroundings& around) {
  const auto earlier = releasesOf(session, term.id, term.value.start, how);
  if (!earlier) return earlier.error();
  const auto records = session.termRecords(term.id, asOf, session::Reach::term);
  if (!records) return records.error();
  const auto totals = reports::termTotals(*records);
  const auto groups = groupsWanted(session, call, totals, how.rule, *earlier);
  if (!groups) return groups.error();
  auto published = reports::publish(totals, how.rule, *earlier, *groups);
  const reports::Report made{std::move(published.tables), std::move(published.release),
                             published.exposed};
  const auto version =
      issued(session, call, around, term.id, "published", "", made, around.clock.now().date());
  if (!version) return version.error();
  const bool mayAdvise = groups->empty() && !call.wantsJson();
  return PublishedTerm{term.value.name, std::min(asOf, term.value.end), *version, made.tables,
                       mayAdvise ? mergingAdvice(totals, how.rule, *earlier) : std::string()};
}

Result<Exit> publish(session::Session& session, const Terms& terms, base::Date asOf,
                     const Call& call, const Surroundings& around) {
  const auto how = publishing(session, call);
  if (!how) return how.error();
  std::vector<PublishedTerm> all;
  for (const auto& term : terms) {
    auto one = publishTerm(session, term, asOf, *how, call, around);
    if (!one) return one.error();
    all.push_back(std::move(*one));
  }
  if (!call.wantsJson()) {
    for (const auto& one : all) {
      around.out << reports::toText(
          one.tables, one.version.empty() ? draftWords : std::string_view(one.version));
      if (!one.advice.empty()) around.err << one.advice << '\n';
    }
    return Exit::fine;
  }
  JsonWriter json(around.out);
  json.beginObject();
  json.field("suppressed_under", how->rule.threshold());
  json.arrayField("terms");
  for (const auto& one : all) {
    json.beginObject();
    json.field("name", one.name);
    json.field("as_of", one.asOf.iso());
    json.field("version", one.version);
    tablesField(json, one.tables, Digits::printed);
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
    for (const auto* option : {"--suppress-under", "--published-on", "--merge", "--issue"})
      if (call.has(option))
        return Error{ErrorCode::callMalformed, std::string(option) + " goes with --publish"};
  auto session = openToIssue(call, around);
  if (!session) return session.error();
  const auto terms = wantedTerms(*session, call);
  if (!terms) return terms.error();
  const auto date = asOf->value_or(around.clock.now().date());
  if (call.has("--publish")) return publish(*session, *terms, date, call, around);
  // What is kept of a term once it is counted: its records may be of many children.
  std::vector<reports::TermTotals> counted;
  for (const auto& term : *terms) {
    const auto records = session->termRecords(term.id, date, session::Reach::term);
    if (!records) return records.error();
    counted.push_back(reports::termTotals(*records));
  }
  if (call.wantsJson()) {
    JsonWriter json(around.out);
    json.beginObject();
    json.arrayField("terms");
    for (const auto& term : counted) {
      json.beginObject();
      json.field("name", term.term);
      json.field("as_of", term.asOf.iso());
      tablesField(json, reports::termFile(term), Digits::all);
      json.endObject();
    }
    json.endArray();
    json.endObject();
  } else {
    for (const auto& term : counted)
      around.out << reports::toText(reports::termTables(term));
    if (counted.empty()) around.out << "This logbook has no term yet; add-term adds one.\n";
  }
  return Exit::fine;
}

} // namespace

std::vector<Verb> totalsVerbs() {
  return {
      {{"totals",
        "FILE",
        "totals of each term, by school; names stay locked",
        {{"--term", "NAME", "this term alone"},
         {"--as-of", "DATE", "nothing after this day counts; today when not given"},
         {"--publish", "", "only what may be published: small numbers are suppressed"},
         {"--suppress-under", "N", "the smallest count shown; the program's own, at least 5"},
         {"--published-on", "DATES", "as-of dates of tables issued that are not in the logbook"},
         mergeOption(),
         issueOption(),
         byOption(),
         pinOption(),
         laptopOption(),
         clockOption()}},
       totals}};
}

} // namespace gk::office
