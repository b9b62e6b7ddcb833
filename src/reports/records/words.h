#pragma once

#include "base/text/text.h"
#include "estimates/survival/display_names.h"
#include "followup/display_names.h"
#include "reports/records/inputs.h"
#include "reports/records/nothing.h"

#include <optional>

namespace gk::reports {

/// part / whole; none when whole is 0 or less than part, so that no rate is made up.
std::optional<double> rateOf(int part, int whole);

/// "53.5" for 0.535; `nothing` without a rate. A rate on fewer than `fewest` carries "unstable".
std::string percent(int part, int whole);

/// "84.3-89.7" for a range of shares.
std::string percentRange(double low, double high);

/// "11 s" or "11.4 s".
std::string secondsWords(base::Milliseconds time);

using base::counted;

/// "upper right first molar, 3; lower left first molar, 19".
std::string teethWords(const std::vector<dentition::Tooth>& teeth, dentition::Notation notation);

/// What a person reads for the value.
template <class E>
std::string named(E value) {
  return std::string(base::displayName(value));
}

} // namespace gk::reports
