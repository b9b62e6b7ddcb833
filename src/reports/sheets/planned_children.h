#pragma once

#include "reports/sheets/plan_forecast.h"

namespace gk::reports {

/// What is known of a school whose days are planned.
struct SchoolAhead {
  int yes = 0;      ///< forms that say yes, of students not seen this term
  int back = 0;     ///< forms that are back, whatever they say
  int students = 0; ///< enrolled, as was said for the term, else in the logbook
  int seen = 0;     ///< screened or checked this term
};

struct ChildrenAhead {
  int children = 0;
  /// The share of those enrolled who consented in earlier terms, where it is counted on: the forms
  /// are not back.
  std::optional<double> consentShare{};
  bool isUnknown = false; ///< no forms, and no earlier term either
};

/// Who is still to be seen at the school. While fewer than one form in `formsTell` is back (ours,
/// no source), the forms say nothing yet: then enrolled x the earlier share, less those seen.
ChildrenAhead childrenAhead(const SchoolAhead& school, const PastCare& past);
constexpr int formsTell = 10;

/// What falls to the day at that place of so many, from 0: all days together are all children.
/// Precondition: 0 <= place < days.
int shareOfDay(int children, int days, int place);

} // namespace gk::reports
