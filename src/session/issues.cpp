#include "session/issues.h"

#include "crypto/digest.h"
#include "reports/release_lines.h"
#include "reports/words.h"

#include <algorithm>
#include <iterator>

namespace gk::session {

Result<ReadyIssue> readyIssue(Reader& book, roster::TermId term, const std::string& report,
                              const std::string& choice, const reports::Report& made,
                              base::Date today) {
  if (made.exposed > 0)
    return base::Error{base::ErrorCode::ruleSmallCounts,
                       "with what went out before, " +
                           reports::counted(made.exposed, "small count", "small counts") +
                           " could be worked out, so nothing was issued and nothing is lost; hide "
                           "counts under the number that those tables had, or wait until more is "
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

/// Whether sealants of one term come due in the other: their window touches it.
bool isDueIn(const roster::Term& placed, const roster::Term& due) {
  const followup::Window window;
  return placed.start.plusMonths(window.fromMonths) <= due.end &&
         due.start <= placed.end.plusMonths(window.untilMonths) && placed.start < due.start;
}

Result<std::vector<reports::Release>> releasesOfTerm(Reader& book, roster::TermId term) {
  const auto issued = book.issuedReports(term);
  if (!issued) return issued.error();
  std::vector<reports::Release> out;
  for (const auto& one : *issued) {
    if (one.value.release.empty()) continue;
    auto release = reports::releaseFrom(one.value.release);
    if (!release)
      return base::Error{base::ErrorCode::storeDamaged,
                         "what was published on " + one.value.issued.iso() + " cannot be read"};
    std::erase(out, *release);
    out.push_back(*std::move(release));
  }
  return out;
}

} // namespace

Result<std::vector<reports::Release>> releases(Reader& book, roster::TermId term) {
  const auto terms = book.terms();
  if (!terms) return terms.error();
  const auto own = std::ranges::find(*terms, term, &base::Recorded<roster::Term>::id);
  std::vector<reports::Release> out;
  for (const auto& other : *terms) {
    if (other.id == term || own == terms->end()) continue;
    auto pages = releasesOfTerm(book, other.id);
    if (!pages) return pages.error();
    for (auto& page : *pages) {
      page.of = isDueIn(other.value, own->value)   ? reports::OfTerm::sealedBefore
                : isDueIn(own->value, other.value) ? reports::OfTerm::dueAfter
                                                   : reports::OfTerm::other;
      page.otherTerm = other.id.text();
      out.push_back(std::move(page));
    }
  }
  auto mine = releasesOfTerm(book, term);
  if (!mine) return mine.error();
  std::ranges::move(*mine, std::back_inserter(out));
  return out;
}

} // namespace gk::session
