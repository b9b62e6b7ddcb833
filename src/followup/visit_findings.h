#pragma once

#include "followup/retention_check.h"

#include <set>
#include <string>
#include <vector>

namespace gk::followup {

/// What one visit found that no one may lose by keeping another visit instead.
struct VisitFindings {
  std::set<dentition::Tooth> cavities{}; ///< at the screening, or under a sealant at a recheck
  bool untreatedDecay = false;
  chairside::Urgency urgency = chairside::Urgency::none;
  chairside::UrgentReason reason = chairside::UrgentReason::none; ///< of `urgency`
  bool healthChanged = false;

  void add(const chairside::Seating& seating);
  void add(const chairside::Screening& screening);
  /// `tooth` is the one that the checked sealant is on.
  void add(const RetentionCheck& check, const dentition::Tooth& tooth);
};

/// What `dropped` found and `kept` did not, each in words ("cavity, upper right first molar, 3"):
/// a cavity, more urgent care, untreated decay, a change of health. Empty when nothing is lost.
std::vector<std::string> moreSerious(const VisitFindings& dropped, const VisitFindings& kept,
                                     dentition::Notation notation);

} // namespace gk::followup
