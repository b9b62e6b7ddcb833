#include "base/files/files.h"
#include "base/text/text.h"
#include "office/call/verbs.h"
#include "office/reports/publishing.h"
#include "office/tables/tables_json.h"
#include "reports/print/render.h"
#include "reports/report.h"
#include "reports/workbook/workbook.h"
#include "session/reporting/terms_so_far.h"
#include "session/reporting/year_records.h"

#include <algorithm>
#include <ostream>

namespace gk::office {

using base::Error;
using base::ErrorCode;
using base::Result;

namespace {

/// The named term, else the newest.
Result<base::Recorded<roster::Term>> wantedTerm(session::Session& session, const Call& call) {
  if (const auto name = call.textIfAny("--term")) return termCalled(session, *name);
  auto terms = session.terms();
  if (!terms) return terms.error();
  if (terms->empty())
    return Error{ErrorCode::notFound, "this logbook has no term yet; add-term adds one"};
  return *std::ranges::max_element(*terms, {}, [](const auto& row) { return row.value.start; });
}

Result<reports::WhatIf> whatIf(const Call& call) {
  reports::WhatIf out;
  struct Wanted {
    std::string_view option;
    std::optional<double>* into;
  };
  for (const auto& [option, into] :
       {Wanted{"--attack-rate", &out.attackRate}, Wanted{"--retention", &out.retentionYearOne},
        Wanted{"--program-cost", &out.programCost},
        Wanted{"--cost-per-cavity", &out.costPerCavity}}) {
    const auto number = call.number(option);
    if (!number) return number.error();
    *into = *number;
  }
  out.firstMolarsOnly = call.has("--first-molars");
  const auto years = call.whole("--years", 0, 100);
  if (!years) return years.error();
  out.years = years->value_or(out.years);
  return out;
}

/// What the trace and the funder's report need beside the records.
Result<base::Done> addFromBook(session::Session& session, const Call& call,
                               reports::ReportOptions& options) {
  const auto program = session.program();
  if (!program) return program.error();
  options.suppression = reports::SuppressionRule::of(program->value);
  options.page.program = program->value.name;
  options.lot = call.textIfAny("--lot").value_or("");
  options.light = call.textIfAny("--light").value_or("");
  options.material = call.textIfAny("--material").value_or("");
  if (!options.material.empty() && options.lot.empty())
    return Error{ErrorCode::callMalformed, "--material goes with --lot"};
  if (!options.lot.empty())
    if (const auto lots = lotsWanted(session, call); !lots) return lots.error();
  if (!options.light.empty())
    if (const auto light = lightTagged(session, options.light);
        !light && light.error().code == ErrorCode::notFound)
      return light.error(); // a recall lists both of two lights
  return base::Done{};
}

/// What a report that leaves the program is checked against, and the schools it shows as one.
Result<base::Done> addReleases(session::Session& session, const Call& call,
                               reports::ReportKind kind, const reports::TermRecords& records,
                               reports::ReportOptions& options) {
  if (!reports::isPublished(kind) || kind == reports::ReportKind::state) return base::Done{};
  const auto bands = gradesWanted(call);
  if (!bands) return bands.error();
  options.bands = *bands;
  auto earlier = session::releases(session, records.id);
  if (!earlier) return earlier.error();
  options.earlier = std::move(*earlier);
  auto before = session::termBefore(session, records.id);
  if (!before) return before.error();
  options.page.before = std::move(*before);
  auto groups = groupsWanted(session, call, reports::termTotals(records), options.suppression,
                             options.earlier);
  if (!groups) return groups.error();
  options.groups = std::move(*groups);
  return base::Done{};
}

/// What is printed: all parts, or the one file of a state.
Result<base::Done> write(const Call& call, const Surroundings& around, reports::ReportKind kind,
                         const std::string& title, const std::string& version,
                         const reports::Report& made, const std::optional<reports::Table>& file) {
  if (const auto path = call.textIfAny("--workbook")) {
    const auto bytes = reports::toWorkbook(title, made.tables, version, reports::markOf(kind));
    if (!bytes) return bytes.error();
    if (const auto written = base::replaceFile(*path, *bytes); !written) return written.error();
    around.out << "Saved: " << *path << '\n';
  } else if (call.wantsJson())
    writeTablesJson(title, version, made.tables, made.release ? Digits::printed : Digits::all,
                    around.out);
  else if (file)
    around.out << reports::toCsv(*file, version);
  else if (call.has("--html"))
    around.out << reports::toHtml(title, made.tables, version, reports::markOf(kind));
  else
    around.out << reports::toText(made.tables, version, reports::markOf(kind));
  return base::Done{};
}

/// Reports that count each child once over a year.
bool isOfYear(reports::ReportKind kind, const Call& call) {
  return kind == reports::ReportKind::state || call.textIfAny("--year");
}

/// The years of the same kind up to this one, the oldest first; those without a term are none.
Result<std::vector<reports::TermTotals>>
yearsSoFar(session::Session& session, const roster::ProgramYear& last, base::Date asOf) {
  auto years = session.years();
  if (!years) return years.error();
  std::ranges::stable_sort(*years, {}, [](const auto& row) { return row.value.start; });
  std::vector<reports::TermTotals> out;
  for (const auto& row : *years) {
    if (row.value.kind != last.kind || row.value.start > last.start) continue;
    const auto read = session::readYear(session, row.value, asOf);
    if (!read && read.error().code == ErrorCode::notFound) continue;
    if (!read) return read.error();
    out.push_back(reports::termTotals(read->records));
  }
  return out;
}

Result<base::Done> chosenSchool(session::Session& session, const Call& call,
                                reports::ReportOptions& options) {
  const auto name = call.textIfAny("--school");
  if (!name) return base::Done{};
  const auto school = schoolCoded(session, *name);
  if (!school) return school.error();
  options.school = school->id;
  return base::Done{};
}

Result<Exit> yearReport(reports::ReportKind kind, const Call& call, const Surroundings& around) {
  using reports::ReportKind;
  if (kind != ReportKind::state && kind != ReportKind::cost && kind != ReportKind::term &&
      kind != ReportKind::findings && kind != ReportKind::terms)
    return Error{ErrorCode::callMalformed,
                 "--year goes with state, cost, term, findings and terms-compared"};
  for (const auto* option : {"--term", "--school", "--merge", "--grades"})
    if (call.has(option) && !(kind == ReportKind::terms && option == std::string_view("--school")))
      return Error{ErrorCode::callMalformed,
                   std::string(option) + " does not go with a year's report"};
  const auto asOf = call.date("--as-of");
  if (!asOf) return asOf.error();
  auto session = openToIssue(call, around);
  if (!session) return session.error();
  const auto today = asOf->value_or(around.clock.now().date());
  const auto year = session::yearCalled(*session, call.textIfAny("--year"), today);
  if (!year) return year.error();
  auto read = session::readYear(*session, year->value, today);
  if (!read) return read.error();
  if (kind == ReportKind::terms) {
    if (const auto school = chosenSchool(*session, call, read->options); !school)
      return school.error();
    auto years = yearsSoFar(*session, year->value, today);
    if (!years) return years.error();
    read->options.terms = std::move(*years);
  }
  const auto made = reports::makeReport(kind, read->records, read->options);
  const auto choice = reports::choiceOf(kind, read->records, read->options);
  auto version = issued(*session, call, around, read->first, std::string(base::nameOf(kind)),
                        choice, made, around.clock.now().date());
  if (!version) return version.error();
  if (version->empty() && made.release) version = std::string(draftWords);
  std::optional<reports::Table> file;
  if (kind == ReportKind::state && call.has("--csv"))
    file = reports::stateFigures(made.tables, read->records.asOf, *read->options.year);
  const auto written = write(call, around, kind, reports::reportTitle(kind, read->records, choice),
                             *version, made, file);
  if (!written) return written.error();
  return Exit::fine;
}

/// An option that a report leaves out of account, which it refuses.
Result<base::Done> checkOptions(reports::ReportKind kind, const Call& call) {
  using enum reports::ReportKind;
  struct Used {
    std::string_view option;
    std::vector<reports::ReportKind> by;
  };
  const std::vector<Used> all{{"--csv", {state}},
                              {"--school", {term, retention, terms, schoolPage}},
                              {"--lot", {trace}},
                              {"--material", {trace}},
                              {"--light", {trace}},
                              {"--merge", {funder, funderAnnex, schoolPage}},
                              {"--grades", {funder, funderAnnex}},
                              {"--attack-rate", {prevention}},
                              {"--retention", {prevention}},
                              {"--first-molars", {prevention}},
                              {"--years", {prevention}},
                              {"--program-cost", {prevention}},
                              {"--cost-per-cavity", {prevention}}};
  for (const auto& [option, by] : all) {
    if (!call.has(option) || std::ranges::find(by, kind) != by.end()) continue;
    std::vector<std::string> names;
    for (const auto one : by)
      names.emplace_back(base::nameOf(one));
    return Error{ErrorCode::callMalformed,
                 std::string(option) + " goes with " + base::join(names, " and ")};
  }
  return base::Done{};
}

Result<Exit> report(const Call& call, const Surroundings& around) {
  const auto kind = base::parseName<reports::ReportKind>(call.operand(1), ErrorCode::callMalformed);
  if (!kind) return kind.error();
  if (const auto fit = checkOptions(*kind, call); !fit) return fit.error();
  if (isOfYear(*kind, call)) return yearReport(*kind, call, around);
  const auto asOf = call.date("--as-of");
  if (!asOf) return asOf.error();
  reports::ReportOptions options;
  const auto changed = whatIf(call);
  if (!changed) return changed.error();
  options.whatIf = *changed;
  auto session = openToIssue(call, around);
  if (!session) return session.error();
  const auto term = wantedTerm(*session, call);
  if (!term) return term.error();
  if (const auto school = chosenSchool(*session, call, options); !school) return school.error();
  if (const auto added = addFromBook(*session, call, options); !added) return added.error();
  options.today = asOf->value_or(around.clock.now().date());
  const auto records = session->termRecords(term->id, *options.today);
  if (!records) return records.error();
  if (const auto added = addReleases(*session, call, *kind, *records, options); !added)
    return added.error();
  if (*kind == reports::ReportKind::terms) {
    auto terms = session::termsSoFar(*session, records->term.start, *options.today);
    if (!terms) return terms.error();
    options.terms = std::move(*terms);
  }
  const auto made = reports::makeReport(*kind, *records, options);
  const auto choice = reports::choiceOf(*kind, *records, options);
  auto version = issued(*session, call, around, term->id, std::string(base::nameOf(*kind)), choice,
                        made, around.clock.now().date());
  if (!version) return version.error();
  if (version->empty() && made.release) version = std::string(draftWords);
  const auto written =
      write(call, around, *kind, reports::reportTitle(*kind, *records, choice), *version, made, {});
  if (!written) return written.error();
  return Exit::fine;
}

} // namespace

std::vector<Verb> reportVerbs() {
  return {
      {{"report",
        "FILE KIND",
        "term, retention, quality, findings, prevention, follow-up, trace, payers, "
        "terms-compared, cost, funder (one sheet), funder-annex or school-page (for principals), "
        "of "
        "one term, or state, of a year; names stay locked",
        {{"--term", "NAME", "which term; the newest when not given"},
         {"--year", "NAME",
          "state, cost, term, findings: of this year, each child once; terms-compared: the years "
          "of its kind up to it"},
         {"--csv", "", "state: one file for a spreadsheet, a figure a row"},
         {"--as-of", "DATE", "nothing after this day counts; today when not given"},
         {"--school", "CODE", "term, retention, terms-compared, school-page: of this school alone"},
         {"--lot", "LOT", "trace: every tooth that this lot touched"},
         materialOption(),
         {"--light", "TAG", "trace: every tooth cured under this light"},
         {"--html", "", "as one web page"},
         {"--workbook", "PATH", "writes it as one workbook (.xlsx), a sheet for each table"},
         mergeOption(),
         gradesOption(),
         issueOption(),
         byOption(),
         laptopOption(),
         clockOption(),
         {"--attack-rate", "SHARE", "prevention: instead of the measured one, 0 to 1"},
         {"--retention", "SHARE", "prevention: protected at one year, instead of the measured one"},
         {"--first-molars", "",
          "prevention: without second molars, which use the first molars' rate"},
         {"--years", "NUMBER", "prevention: the years looked ahead; 9 when not given"},
         {"--program-cost", "AMOUNT", "prevention: what the term's program cost"},
         {"--cost-per-cavity", "AMOUNT", "prevention: what treating one cavity costs"}}},
       report}};
}

} // namespace gk::office
