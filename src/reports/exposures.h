#pragma once

#include "estimates/attack_rate.h"
#include "reports/inputs.h"

#include <map>

namespace gk::reports {

/// Never-sealed first permanent molars and their time in the mouth, from the first screening of
/// each child in the term: from the mean eruption age by sex (default 6.2 years) to the approximate
/// age on the day, affected when cavitated, restored or crowned anywhere.
struct ExposureRows {
  std::map<roster::SchoolId, std::vector<estimates::Exposure>> schools; ///< that screened them
  int everSealedLeftOut = 0; ///< first molars that someone has sealed, by the finding or our book
  int notSeenLeftOut = 0;    ///< not up, not looked at

  [[nodiscard]] std::vector<estimates::Exposure> all() const;
};

ExposureRows exposuresOf(const TermRecords& records);

} // namespace gk::reports
