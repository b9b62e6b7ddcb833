#pragma once

#include "estimates/attack_rate/attack_rate_age.h"
#include "reports/decay/prevention.h"

#include <span>
#include <string>

namespace gk::reports {

/// Sentences beside figures, each made from the condition that makes it true.

/// A unit drawn towards the whole: how many teeth it has, and the weight of its own figure.
struct DrawnUnit {
  double teeth;
  double ownWeight; ///< 0 to 1
};

/// What decides how far each was drawn. `what` is "teeth" or "molars". Empty under two units.
std::string drawnWords(std::span<const DrawnUnit> units, std::string_view what);

/// Why no school's figure is adjusted: too few of them.
std::string notAdjustedWords();
/// Where the figures do not show that schools differ.
std::string noDifferenceWords();

/// What a person reads for the input.
std::string inputWords(estimates::ScenarioInput input);
/// Which inputs the low and the high scenario move, and which stay.
std::string endsWords(const estimates::Scenarios& scenarios, const estimates::AvertedInputs& base);

/// Whether a figure that a person set stands in the place of a measured one.
bool isAssumed(const WhatIf& whatIf);
/// "as measured" or "with your figures".
std::string baseWords(const WhatIf& whatIf);

/// The share prevented at two years under these inputs against the median of the reviews. Empty
/// where there is nothing to prevent.
std::string reviewWords(const estimates::AvertedInputs& inputs);

/// The rates by time in the mouth, where there are two bands or more, and why no verdict is given.
std::string ageWords(const estimates::RiskByAge& age);

} // namespace gk::reports
