#pragma once

#include "estimates/attack_rate/attack_rate.h"

#include <span>
#include <vector>

namespace gk::estimates {

enum class MolarSex { female, male, notStated };
enum class MolarArch { upper, lower };

/// Years of age at which first permanent molars erupt. Defaults: Ekstrand, Christiansen and
/// Christiansen 2003 (Caries Res 37:303-9, Danish cohort): girls 6.1, boys 6.3, the arches
/// together. Lower first molars come through a little before upper ones in most populations; enter
/// a table by arch where you trust one. Unstated sex takes the mean of the two.
struct EruptionAges {
  double girlsUpper = 6.1;
  double girlsLower = 6.1;
  double boysUpper = 6.3;
  double boysLower = 6.3;

  [[nodiscard]] double of(MolarSex sex, MolarArch arch) const;
};

/// One never-sealed first permanent molar at the screening.
struct ScreenedMolar {
  double age; ///< of the child, years
  MolarSex sex;
  MolarArch arch;
  bool isAffected; ///< decayed, filled, or extracted for decay
  std::size_t child;
};

/// Rows of children and times in the mouth, in the order of the molars; those of one child that
/// come together are joined. Fails with
/// `estimateInput` for an age outside 0 to 120, naming the molar by its place from 1, and for an
/// eruption age outside 4 to 12.
base::Result<std::vector<Exposure>> exposures(std::span<const ScreenedMolar> molars,
                                              const EruptionAges& ages = {});

} // namespace gk::estimates
