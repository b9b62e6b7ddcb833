#include "followup/visit_findings.h"

#include "followup/display_names.h"

namespace gk::followup {

using chairside::Urgency;

void VisitFindings::add(const chairside::Seating& seating) {
  healthChanged = healthChanged || !seating.historyUnchanged;
}

void VisitFindings::add(const chairside::Screening& screening) {
  for (const auto& finding : screening.teeth)
    if (finding.hasAny(chairside::Condition::cavitated)) cavities.insert(finding.tooth);
  untreatedDecay = untreatedDecay || screening.untreatedDecay == chairside::Tri::yes;
  if (screening.urgency <= urgency) return;
  urgency = screening.urgency;
  reason = screening.urgentReason;
}

void VisitFindings::add(const RetentionCheck& check, const dentition::Tooth& tooth) {
  if (check.health == ToothHealth::cavitated) cavities.insert(tooth);
}

std::vector<std::string> moreSerious(const VisitFindings& dropped, const VisitFindings& kept,
                                     dentition::Notation notation) {
  std::vector<std::string> words;
  for (const auto& tooth : dropped.cavities)
    if (!kept.cavities.contains(tooth)) words.push_back("cavity, " + tooth.shown(notation));
  if (dropped.urgency > kept.urgency) {
    const bool isUrgent = dropped.urgency == Urgency::urgent;
    words.push_back(isUrgent ? "urgent care, " + std::string(base::displayName(dropped.reason))
                             : "early care");
  }
  if (dropped.untreatedDecay && !kept.untreatedDecay) words.emplace_back("untreated decay");
  if (dropped.healthChanged && !kept.healthChanged) words.emplace_back("a health change");
  return words;
}

} // namespace gk::followup
