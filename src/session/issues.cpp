#include "session/issues.h"

#include "crypto/digest.h"
#include "reports/publish/release_lines.h"
#include "reports/records/words.h"

#include <algorithm>

namespace gk::session {

Result<ReadyIssue> readyIssue(Reader& book, roster::TermId term, const std::string& report,
                              const std::string& choice, const reports::Report& made,
                              base::Date today) {
  if (made.exposed > 0)
    return base::Error{
        base::ErrorCode::ruleSmallCounts,
        "with the tables issued before, " +
            reports::counted(made.exposed, "small count", "small counts") +
            " could be worked out, so nothing was issued and nothing is lost; suppress "
            "counts under the number that those tables used, or wait until more is "
            "counted"};
  auto earlier = book.issuedReports(term);
  if (!earlier) return earlier.error();
  std::erase_if(*earlier, [&](const auto& one) {
    return one.value.report != report || one.value.choice != choice;
  });
  const auto figures = reports::figuresOf(made.tables);
  auto version = reports::versionOf(*earlier, figures);
  return ReadyIssue{std::move(version.words),
                    {.term = term,
                     .report = report,
                     .choice = choice,
                     .version = version.number,
                     .issued = today,
                     .figures = figures,
                     .digest = crypto::digest(figures),
                     .release = made.release ? reports::toLines(*made.release) : std::string()}};
}

namespace {

using Issued = Recorded<followup::IssuedReport>;

/// Whether a report of a year, kept at another term, tells of one of these. One of a year that is
/// no longer known may.
bool tellsOf(const Issued& issued, const std::vector<Recorded<roster::ProgramYear>>& years,
             std::span<const Recorded<roster::Term>> terms) {
  if (issued.value.report != base::nameOf(reports::ReportKind::state)) return false;
  const auto year = std::ranges::find(years, issued.value.choice,
                                      [](const auto& one) { return roster::wordsOf(one.value); });
  return year == years.end() || std::ranges::any_of(terms, [&](const auto& term) {
           return year->value.overlaps(term.value.start, term.value.end);
         });
}

} // namespace

Result<std::vector<reports::Release>> publishedIn(Reader& book,
                                                  std::span<const Recorded<roster::Term>> terms) {
  const auto everyTerm = book.terms();
  if (!everyTerm) return everyTerm.error();
  const auto years = book.years();
  if (!years) return years.error();
  std::vector<Issued> issued;
  for (const auto& term : *everyTerm) {
    auto rows = book.issuedReports(term.id);
    if (!rows) return rows.error();
    const bool isOwn =
        std::ranges::any_of(terms, [&](const auto& one) { return one.id == term.id; });
    for (auto& row : *rows)
      if (!row.value.release.empty() && (isOwn || tellsOf(row, *years, terms)))
        issued.push_back(std::move(row));
  }
  std::ranges::stable_sort(
      issued, {}, [](const auto& one) { return std::pair(one.stamp.at.at, one.stamp.entry); });
  std::vector<reports::Release> out;
  for (const auto& one : issued) {
    auto release = reports::releaseFrom(one.value.release);
    if (!release)
      return base::Error{base::ErrorCode::storeDamaged,
                         "what was published on " + one.value.issued.words() + " cannot be read"};
    std::erase(out, *release);
    out.push_back(*std::move(release));
  }
  return out;
}

Result<std::vector<reports::Release>> releases(Reader& book, roster::TermId term) {
  auto terms = book.terms();
  if (!terms) return terms.error();
  std::erase_if(*terms, [&](const auto& one) { return one.id != term; });
  return publishedIn(book, *terms);
}

Result<std::vector<std::string>> figuresIssued(Reader& book, roster::TermId term,
                                               const std::string& report,
                                               const std::string& choice) {
  const auto issued = book.issuedReports(term);
  if (!issued) return issued.error();
  std::vector<std::string> out;
  for (const auto& one : *issued)
    if (one.value.report == report && one.value.choice == choice) out.push_back(one.value.figures);
  return out;
}

} // namespace gk::session
