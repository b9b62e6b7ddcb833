#pragma once

#include "reports/suppression.h"
#include "reports/term_totals.h"

#include <map>
#include <span>

namespace gk::reports {

/// What is published of a school: children, but for the teeth.
enum class Figure {
  enrolled,
  formsBack,
  consented,
  screened,
  notScreened,
  needing,
  sealed,
  firstMolars,
  secondMolars,
  otherTeeth,
  teeth,
  varnish,
  untreated,
  early,
  urgent
};
/// What is published of the checks: teeth, but for the children.
enum class CheckFigure {
  childrenDue,
  childrenFound,
  due,
  examined,
  assessable,
  whole,
  part,
  lost,
  cannotAssess
};

/// Where each figure of each row stands in a system; the last row is the total.
template <class E>
using CountGrid = std::vector<std::map<E, std::size_t>>;

template <class E>
struct Counts {
  CountSystem system;
  CountGrid<E> grid;
};
using TermCounts = Counts<Figure>;
using CheckCounts = Counts<CheckFigure>;

/// The term's counts by school and in total, with all that a reader knows of how they add up.
/// `earlier` are totals of the same term that were published under the same rule, oldest first:
/// what they showed is out, and what has changed since is a count too.
TermCounts termCounts(const TermTotals& totals, const SuppressionRule& rule,
                      std::span<const TermTotals> earlier = {});
/// The same for the checks of earlier sealants, by placing school.
CheckCounts checkCounts(const TermTotals& totals, const SuppressionRule& rule,
                        std::span<const TermTotals> earlier = {});

} // namespace gk::reports
