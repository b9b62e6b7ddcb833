#pragma once

#include "dentition/tooth.h"

#include <optional>

namespace gk::dentition {

enum class Sex { female, male, other, notStated };

/// When a permanent molar comes through, in years. Only ever a question, never a bar.
struct EruptionWindow {
  double earliest;
  double mean;
  double latest;
};

/// First and second permanent molars: Danish cohort as quoted in docs/methods.md (first molars:
/// girls 6.1, 5y3m-7y8m; boys 6.3, 5y2m-7y10m; second molars: girls 11.3, 8y11m-14y4m; boys 12.0,
/// 9y11m-13y11m). For other or unstated sex the wider of the two. Nothing for other teeth.
std::optional<EruptionWindow> eruptionWindow(const Tooth& tooth, Sex sex);

/// A question to ask when a tooth is said to be up at an age outside its window, in words that
/// name the tooth; empty when nothing is odd.
std::string eruptionQuestion(const Tooth& tooth, Sex sex, double ageYears);

} // namespace gk::dentition
