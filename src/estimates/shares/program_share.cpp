#include "estimates/shares/program_share.h"

#include <algorithm>

namespace gk::estimates {
namespace {

double plannedEffect(std::span<const Cluster> schools) {
  double teeth = 0;
  double squares = 0;
  for (const auto& school : schools) {
    teeth += school.examined;
    squares += school.examined * school.examined;
  }
  return teeth > 0 ? 1 + (squares / teeth - 1) * plannedLikeness : 1;
}

} // namespace

ProgramUnits programUnits(std::size_t schools) {
  if (schools < 2) return ProgramUnits::children;
  return schools < fewestSchools ? ProgramUnits::childrenPlanned : ProgramUnits::schools;
}

std::optional<double> foundDesignEffect(const RetentionEstimate& estimate) {
  const double p = estimate.estimate;
  if (!estimate.variance || p <= 0 || p >= 1) return std::nullopt;
  return estimate.teeth * *estimate.variance / (p * (1 - p));
}

base::Result<RetentionEstimate> programShare(std::span<const Cluster> children,
                                             std::span<const Cluster> schools, ProgramUnits units,
                                             double level, std::optional<double> pooled) {
  auto byChild = retention(children, level, pooled);
  if (!byChild || units == ProgramUnits::children) return byChild;
  auto bySchool = retention(schools, level, pooled);
  if (!bySchool) return bySchool;
  const auto found = foundDesignEffect(*byChild);
  const auto between = foundDesignEffect(*bySchool);
  if (units == ProgramUnits::childrenPlanned) {
    const double seen = std::max(found.value_or(0), between.value_or(0));
    const double planned = plannedEffect(schools);
    auto out = retention(children, level, pooled, std::max(seen, planned));
    if (out && out->toRead && planned > seen) out->toRead->isPlanned = true;
    return out;
  }
  if (bySchool->clusters >= fewestClusters) return bySchool;
  return retention(schools, level, pooled, found.value_or(0));
}

} // namespace gk::estimates
