#include "estimates/numbers/percentile.h"

#include "base/contract.h"

#include <cmath>
#include <cstddef>

namespace gk::estimates {

double percentile(const std::vector<double>& sorted, double p) {
  base::require(!sorted.empty() && p >= 0 && p <= 1, "percentile out of range");
  const double place = p * static_cast<double>(sorted.size() - 1);
  const auto index = static_cast<std::size_t>(place);
  if (index + 1 >= sorted.size()) return sorted.back();
  const double part = place - static_cast<double>(index);
  const double lower = sorted[index];
  const double upper = sorted[index + 1];
  if (part == 0 || lower == upper) return lower;
  if (std::isinf(lower)) return lower;
  return lower + part * (upper - lower);
}

} // namespace gk::estimates
