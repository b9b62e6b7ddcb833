#include "session/reporting/year_records.h"

#include "reports/publish/published.h"
#include "reports/records/one_term.h"
#include "session/reporting/issues.h"

#include <algorithm>

namespace gk::session {

using base::Error;
using base::ErrorCode;

namespace {

/// Those of the year that have begun, the oldest first; where none has, the first to begin.
Result<std::vector<Recorded<roster::Term>>> termsOf(Reader& book, const roster::ProgramYear& year,
                                                    base::Date asOf) {
  auto terms = book.terms();
  if (!terms) return terms.error();
  std::erase_if(*terms,
                [&](const auto& term) { return !year.overlaps(term.value.start, term.value.end); });
  std::ranges::stable_sort(*terms, {}, [](const auto& term) { return term.value.start; });
  while (terms->size() > 1 && terms->back().value.start > asOf)
    terms->pop_back();
  if (terms->empty())
    return Error{ErrorCode::notFound, "no term is within " + roster::wordsOf(year) +
                                          "; check the dates of the year and of the terms"};
  return terms;
}

} // namespace

Result<YearRead> readYear(Reader& book, const roster::ProgramYear& year, base::Date asOf,
                          const base::Progress& progress) {
  const auto terms = termsOf(book, year, asOf);
  if (!terms) return terms.error();
  const auto program = book.program();
  if (!program) return program.error();
  std::vector<reports::TermRecords> read;
  for (const auto& term : *terms) {
    progress.at(base::Stage::reading, std::ssize(read), std::ssize(*terms));
    if (progress.isStopped()) return Error{ErrorCode::workCanceled, "the year was not counted"};
    // The newest has what every child of the year ever was; the others add their own days.
    const bool isLast = term.id == terms->back().id;
    auto records = book.termRecords(term.id, asOf, isLast ? Reach::program : Reach::term);
    if (!records) return records.error();
    read.push_back(*std::move(records));
  }
  const auto rule = reports::SuppressionRule::under(program->value.suppressBelow);
  if (!rule) return rule.error();
  reports::ReportOptions options;
  options.today = asOf;
  options.suppression = *rule;
  options.year = reports::YearOptions{year, program->value.name, program->value.county};
  auto out = releases(book, *terms);
  if (!out) return out.error();
  options.earlier = *std::move(out);
  options.groups = reports::groupsIssued(options.earlier);
  return YearRead{year, terms->front().id, reports::asOneTerm(std::move(read), year, asOf),
                  std::move(options)};
}

Result<Recorded<roster::ProgramYear>>
yearCalled(Reader& book, const std::optional<std::string>& name, base::Date asOf) {
  const auto years = book.years();
  if (!years) return years.error();
  if (name) {
    const auto at =
        std::ranges::find(*years, *name, [](const auto& one) { return one.value.name; });
    if (at == years->end()) return Error{ErrorCode::notFound, "no year " + *name};
    return *at;
  }
  if (years->empty())
    return Error{ErrorCode::notFound, "this logbook has no year yet; add one with add-year"};
  auto wanted = years->front();
  for (const auto& one : *years)
    if (one.value.start <= asOf) wanted = one;
  return wanted;
}

} // namespace gk::session
