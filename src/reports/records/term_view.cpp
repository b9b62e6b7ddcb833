#include "reports/records/term_view.h"

namespace gk::reports {

namespace {

auto ofTerm(const TermView& view) {
  return [&view](const auto& row) { return view.isOfTerm(row.value.day); };
}

} // namespace

TermView::TermView(const TermRecords& from)
    : records(from), days(from.days), children(from.children), schools(from.schools),
      seatings(from.seatings, ofTerm(*this)), screenings(from.screenings, ofTerm(*this)),
      placements(from.placements, ofTerm(*this)), varnishes(from.varnishes, ofTerm(*this)),
      outcomes(from.outcomes, ofTerm(*this)), checks(from.checks, ofTerm(*this)) {}

std::optional<base::Date> TermView::dateOf(const roster::DayId& day) const {
  const auto* found = days.find(day);
  if (!found) return std::nullopt;
  return found->date;
}

bool TermView::isOfTerm(const roster::DayId& day) const {
  const auto* found = days.find(day);
  return found && found->term == records.id && !found->canceled && found->date <= records.asOf;
}

std::string TermView::schoolName(const roster::SchoolId& school) const {
  const auto* found = schools.find(school);
  return found ? roster::shownAmong(*found, records.schools) : "school not on the list";
}

} // namespace gk::reports
