#include "estimates/shares/proportion.h"

#include "estimates/numbers/checks.h"
#include "estimates/numbers/distributions.h"

#include <algorithm>
#include <cmath>

namespace gk::estimates {

base::Result<double> share(double part, double whole) {
  if (auto checked = checkCount("The part", part); !checked) return checked.error();
  if (auto checked = checkCount("The whole", whole); !checked) return checked.error();
  if (whole == 0) return refused("The whole is 0, so there is no share to state; examine some.");
  if (part > whole)
    return refused("The part " + shown(part) + " is more than the whole " + shown(whole) +
                   "; correct one of them.");
  return part / whole;
}

base::Result<Interval> wilson(double successes, double n, double level) {
  const auto p = share(successes, n);
  if (!p) return p.error();
  if (auto checked = checkLevel(level); !checked) return checked.error();
  const double z = normalQuantile((1 + level) / 2);
  const double z2 = z * z;
  const double center = (*p + z2 / (2 * n)) / (1 + z2 / n);
  const double half = z / (1 + z2 / n) * std::sqrt(*p * (1 - *p) / n + z2 / (4 * n * n));
  // At the ends the limit is exactly 0 or 1; rounding must not move it.
  return Interval{successes == 0 ? 0 : std::max(0.0, center - half),
                  successes == n ? 1 : std::min(1.0, center + half)};
}

base::Result<Interval> clopperPearson(double successes, double n, double level) {
  const auto p = share(successes, n);
  if (!p) return p.error();
  if (auto checked = checkLevel(level); !checked) return checked.error();
  const double tail = (1 - level) / 2;
  const double failures = n - successes;
  return Interval{successes == 0 ? 0 : betaQuantile(successes, failures + 1, tail),
                  failures == 0 ? 1 : betaQuantile(successes + 1, failures, 1 - tail)};
}

} // namespace gk::estimates
