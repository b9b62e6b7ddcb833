#pragma once

#include "estimates/attack_rate/attack_rate_age.h"
#include "estimates/attack_rate/attack_rate_profile.h"
#include "estimates/attack_rate/attack_rate_schools.h"
#include "reports/decay/prevention.h"

namespace gk::reports {

/// The yearly attack rate school by school, as seen and drawn towards the program's, and whether
/// one rate fits every age.
struct AttackBySchool {
  std::vector<std::string> schools;            ///< by name, as `rates` has them
  std::optional<estimates::SchoolRates> rates; ///< none without a molar with enough exposure
  std::optional<estimates::RiskByAge> age;
  std::optional<estimates::AttackRateProfile> profile; ///< of the whole term
  AttackRateReport all{}; ///< of the whole term, and what it leaves out
};

AttackBySchool attackBySchool(const TermView& view);

} // namespace gk::reports
