#include "estimates/numbers/holm.h"

#include "estimates/numbers/checks.h"

#include <algorithm>
#include <numeric>
#include <string>

namespace gk::estimates {

base::Result<std::vector<double>> holmAdjusted(std::span<const double> p) {
  for (std::size_t i = 0; i < p.size(); ++i)
    if (auto checked = checkShare("P-value " + std::to_string(i + 1), p[i]); !checked)
      return checked.error();
  std::vector<std::size_t> order(p.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(),
                   [&p](std::size_t a, std::size_t b) { return p[a] < p[b]; });
  std::vector<double> adjusted(p.size());
  double highest = 0;
  for (std::size_t rank = 0; rank < order.size(); ++rank) {
    const double left = static_cast<double>(p.size() - rank);
    highest = std::max(highest, std::min(1.0, left * p[order[rank]]));
    adjusted[order[rank]] = highest;
  }
  return adjusted;
}

} // namespace gk::estimates
