#include "session/reporting/issues.h"

#include "crypto/digest.h"
#include "reports/publish/release_lines.h"
#include "reports/records/words.h"

#include <algorithm>
#include <functional>
#include <iterator>

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
  const auto release = made.release ? reports::toLines(*made.release) : std::string();
  auto version = reports::versionOf(*earlier, figures, release);
  return ReadyIssue{std::move(version.words),
                    {.term = term,
                     .report = report,
                     .choice = choice,
                     .version = version.number,
                     .issued = today,
                     .figures = figures,
                     .digest = crypto::digest(figures),
                     .release = release}};
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

/// Whether sealants of one term come due in the other: their window touches it.
bool isDueIn(const roster::Term& placed, const roster::Term& due) {
  const followup::Window window;
  return placed.start.plusMonths(window.fromMonths) <= due.end &&
         due.start <= placed.end.plusMonths(window.untilMonths) && placed.start < due.start;
}

/// Oldest first, each once.
Result<std::vector<reports::Release>> releasesAmong(std::vector<Issued> issued) {
  std::erase_if(issued, [](const auto& one) { return one.value.release.empty(); });
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

/// Of several terms together.
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
      if (isOwn || tellsOf(row, *years, terms)) issued.push_back(std::move(row));
  }
  return releasesAmong(std::move(issued));
}

} // namespace

Result<std::vector<reports::Release>> releases(Reader& book, roster::TermId term) {
  const auto terms = book.terms();
  if (!terms) return terms.error();
  const auto own = std::ranges::find(*terms, term, &Recorded<roster::Term>::id);
  if (own == terms->end()) return std::vector<reports::Release>();
  return releases(book, std::span(&*own, 1));
}

Result<std::vector<reports::Release>> releases(Reader& book,
                                               std::span<const Recorded<roster::Term>> mine) {
  const auto terms = book.terms();
  if (!terms) return terms.error();
  const auto years = book.years();
  if (!years) return years.error();
  const auto isDueFrom = [&](const roster::Term& placed) {
    return std::ranges::any_of(mine, [&](const auto& own) { return isDueIn(placed, own.value); });
  };
  const auto isDueAfter = [&](const roster::Term& due) {
    return std::ranges::any_of(mine, [&](const auto& own) { return isDueIn(own.value, due); });
  };
  std::vector<reports::Release> out;
  for (const auto& other : *terms) {
    if (std::ranges::any_of(mine, [&](const auto& own) { return own.id == other.id; })) continue;
    auto issued = book.issuedReports(other.id);
    if (!issued) return issued.error();
    // A state report of a year with this term in it is among its own.
    std::erase_if(*issued, [&](const auto& one) { return tellsOf(one, *years, mine); });
    auto pages = releasesAmong(*std::move(issued));
    if (!pages) return pages.error();
    for (auto& page : *pages) {
      page.of = isDueFrom(other.value)    ? reports::OfTerm::sealedBefore
                : isDueAfter(other.value) ? reports::OfTerm::dueAfter
                                          : reports::OfTerm::other;
      page.otherTerm = other.id.text();
      out.push_back(std::move(page));
    }
  }
  auto published = publishedIn(book, mine);
  if (!published) return published.error();
  std::ranges::move(*published, std::back_inserter(out));
  return out;
}

Result<std::optional<reports::EarlierTerm>> termBefore(Reader& book, roster::TermId term) {
  auto terms = book.terms();
  if (!terms) return terms.error();
  const auto own = std::ranges::find(*terms, term, &Recorded<roster::Term>::id);
  if (own == terms->end()) return std::optional<reports::EarlierTerm>();
  const auto start = own->value.start;
  std::erase_if(*terms, [&](const auto& one) { return one.value.start >= start; });
  std::ranges::sort(*terms, std::greater(), [](const auto& one) { return one.value.start; });
  for (const auto& earlier : *terms) {
    auto issued = book.issuedReports(earlier.id);
    if (!issued) return issued.error();
    // A state's report is of a year.
    std::erase_if(*issued, [](const auto& one) {
      return one.value.report == base::nameOf(reports::ReportKind::state);
    });
    auto pages = releasesAmong(*std::move(issued));
    if (!pages) return pages.error();
    if (!pages->empty())
      return std::optional(reports::EarlierTerm{earlier.value.name, std::move(pages->back())});
  }
  return std::optional<reports::EarlierTerm>();
}

} // namespace gk::session
