#include "reports/sheets/plan_forecast.h"

#include "estimates/shares/interval_policy.h"

#include <algorithm>
#include <cmath>

namespace gk::reports {

namespace {

int roundedUp(double value) {
  // Fractions of a tooth that come from dividing and multiplying alone are none.
  return static_cast<int>(std::ceil(value - 1e-9));
}

} // namespace

std::optional<double> PastCare::consentShare() const {
  if (enrolled <= 0) return std::nullopt;
  return std::min(1.0, static_cast<double>(consentedOfEnrolled) / enrolled);
}

PastCare pastCare(std::span<const TermTotals> terms) {
  PastCare past;
  for (const auto& term : terms) {
    past.consented += term.total.consented;
    past.screened += term.total.screened;
    past.needing += term.total.needing;
    past.sealed += term.total.sealedInNeed();
    past.sealedInAll += term.total.sealed;
    past.teeth += term.total.teeth();
    past.days += term.total.days;
    for (const auto& school : term.schools) {
      if (school.consented > 0) past.groups.push_back(school.consented);
      if (!school.enrolled) continue;
      past.enrolled += *school.enrolled;
      past.consentedOfEnrolled += school.consented;
    }
  }
  return past;
}

DayForecast forecast(const PastCare& past, int children) {
  DayForecast made{.children = children};
  if (past.days > 0) made.childrenPerDay = static_cast<double>(past.screened) / past.days;
  if (past.consented == 0) return made;
  const double each = static_cast<double>(children) / past.consented;
  made.screened = each * past.screened;
  made.needing = each * past.needing;
  made.sealed = each * past.sealed;
  const double teethEach =
      past.sealedInAll > 0 ? static_cast<double>(past.teeth) / past.sealedInAll : 0;
  made.teeth = each * past.sealed * teethEach;
  if (past.sealed == 0) return made;
  double squares = 0;
  double sum = 0;
  for (const auto group : past.groups) {
    squares += static_cast<double>(group) * group;
    sum += group;
  }
  if (sum <= 0) return made;
  const auto range = estimates::intervalToRead(
      {.share = std::min(1.0, static_cast<double>(past.sealed) / past.consented),
       .teeth = static_cast<double>(past.consented),
       .clusters = past.groups.size(),
       .clusterSize = squares / sum,
       .designEffect = std::nullopt});
  if (!range) return made;
  made.teethRange = estimates::Interval{range->range.low * children * teethEach,
                                        range->range.high * children * teethEach};
  return made;
}

DaySupplies supplies(const DayForecast& forecast) {
  const double teeth = forecast.teethRange ? forecast.teethRange->high : forecast.teeth.value_or(0);
  constexpr double tenthMore = 1.1;
  return {.sealantDoses = roundedUp(teeth * tenthMore),
          .varnishDoses = forecast.children,
          .isolationSets = 2 * roundedUp(forecast.sealed.value_or(0)),
          .glovePairs = 2 * forecast.children,
          .mirrors = forecast.children};
}

} // namespace gk::reports
