#include "estimates/shares/interval_policy.h"

#include "base/contract.h"
#include "estimates/numbers/distributions.h"

#include <algorithm>

namespace gk::estimates {
namespace {

/// 1 where each tooth is a cluster of its own.
double planned(const ShareBasis& basis) {
  return std::max(basis.pooled.value_or(1), 1 + (basis.clusterSize - 1) * plannedLikeness);
}

} // namespace

std::optional<PolicyInterval> intervalToRead(const ShareBasis& basis, double level) {
  base::require(basis.teeth > 0, "a share of no teeth");
  if (basis.clusters < 2) return std::nullopt;
  const bool isTooEven = basis.designEffect && *basis.designEffect < 1;
  PolicyInterval out{};
  out.isPlanned = planned(basis) > 1 &&
                  (!basis.designEffect || (isTooEven && basis.clusters < clustersToTrust));
  out.designEffect = out.isPlanned ? planned(basis) : std::max(1.0, basis.designEffect.value_or(1));
  const double tail = (1 + level) / 2;
  const auto clusters = static_cast<double>(basis.clusters);
  const double ratio =
      studentQuantile(tail, std::max(1.0, basis.teeth - 1)) / studentQuantile(tail, clusters - 1);
  out.n = std::min(basis.teeth, basis.teeth / out.designEffect * ratio * ratio);
  const auto range = clopperPearson(basis.share * out.n, out.n, level);
  base::require(range.has_value(), "an interval of a share of some teeth");
  out.range = *range;
  return out;
}

} // namespace gk::estimates
