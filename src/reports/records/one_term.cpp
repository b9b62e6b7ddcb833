#include "reports/records/one_term.h"

#include "base/contract.h"

#include <algorithm>
#include <iterator>
#include <ranges>

namespace gk::reports {

namespace {

template <class T>
void appendTo(Rows<T>& to, Rows<T>& from) {
  std::ranges::move(from, std::back_inserter(to));
}

/// Those of `to` stay; of `older` only what `to` has nothing of.
template <class T, class KeyOf>
void addMissing(Rows<T>& to, Rows<T>& older, KeyOf keyOf) {
  const auto known = to.size();
  for (auto& row : older)
    if (std::none_of(to.begin(), to.begin() + static_cast<std::ptrdiff_t>(known),
                     [&](const auto& one) { return keyOf(one.value) == keyOf(row.value); }))
      to.push_back(std::move(row));
}

} // namespace

TermRecords asOneTerm(std::vector<TermRecords> terms, const roster::ProgramYear& year,
                      base::Date asOf) {
  base::require(!terms.empty(), "a year has a term");
  const auto before = terms.front().earlierTermsEnd;
  TermRecords all = std::move(terms.back());
  terms.pop_back();
  all.earlierTermsEnd = before;
  std::set<roster::TermId> ofYear{all.id};
  for (auto& one : std::views::reverse(terms)) {
    ofYear.insert(one.id);
    addMissing(all.enrollments, one.enrollments,
               [](const auto& it) { return std::pair(it.school, it.grade); });
    addMissing(all.eligibility, one.eligibility, [](const auto& it) { return it.school; });
    appendTo(all.seatings, one.seatings);
    appendTo(all.varnishes, one.varnishes);
    appendTo(all.outcomes, one.outcomes);
    appendTo(all.referrals, one.referrals);
    appendTo(all.incidents, one.incidents);
    appendTo(all.readiness, one.readiness);
    appendTo(all.efforts, one.efforts);
    appendTo(all.costs, one.costs);
  }
  // A term of that identity is in no book: a year's own.
  const roster::TermId nowhere{base::Uuid{}};
  const auto id = all.id;
  all.term = {roster::wordsOf(year), year.start, year.end, {}};
  all.asOf = std::min(asOf, year.end);
  for (auto& day : all.days) {
    if (!ofYear.contains(day.value.term)) continue;
    const bool isIn = year.start <= day.value.date && day.value.date <= year.end;
    day.value.term = isIn ? id : nowhere;
  }
  // Forms keep their term: a yes of a later one outranks an undated no (roster::standing).
  all.formsOf = std::move(ofYear);
  for (auto& row : all.enrollments)
    row.value.term = id;
  for (auto& row : all.eligibility)
    row.value.term = id;
  return all;
}

} // namespace gk::reports
