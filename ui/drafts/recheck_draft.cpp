#include "ui/drafts/recheck_draft.h"

#include "base/contract.h"

#include <algorithm>

namespace gk::ui {

using dentition::Surface;
using followup::CannotAssess;
using followup::CheckAction;
using followup::CheckKind;
using followup::Held;
using followup::LiftTest;
using followup::ToothHealth;

std::vector<session::EarlierPlacement>
toRecheck(const std::vector<session::EarlierPlacement>& earlier, roster::DayId today) {
  std::vector<session::EarlierPlacement> open;
  for (const auto& one : earlier) {
    const bool isRepair = one.placement.value.type == chairside::PlacementType::repair;
    const bool isDone = one.newest && one.newest->value.day == today;
    if (!isRepair && !isDone && !one.left.isEmpty()) open.push_back(one);
  }
  return open;
}

std::optional<Surface> RecheckDraft::surface() const {
  for (Surface surface : earlier_.left.values())
    if (held(surface) == Held::notSealed) return surface;
  return std::nullopt;
}

Held RecheckDraft::held(Surface surface) const {
  for (const auto& [answered, found] : answers_)
    if (answered == surface) return found;
  return Held::notSealed;
}

bool RecheckDraft::hasAny(Held held) const {
  return std::ranges::any_of(answers_, [&](const auto& answer) { return answer.second == held; });
}

void RecheckDraft::answer(Held held) {
  if (const auto now = surface()) answers_.emplace_back(*now, held);
}

void RecheckDraft::restIsWhole() {
  while (surface())
    answer(Held::whole);
}

bool RecheckDraft::wantsWhy() const {
  return hasAny(Held::cannotAssess) && why_ == CannotAssess::none;
}

bool RecheckDraft::wantsLift() const {
  return hasAny(Held::part) && lift_ == LiftTest::notDone;
}

CheckAction RecheckDraft::proposed() const {
  if (health_ == ToothHealth::cavitated) return CheckAction::refer;
  if (hasAny(Held::lost) || lift_ == LiftTest::lifted) return CheckAction::resealToday;
  if (hasAny(Held::part) && lift_ == LiftTest::held) return CheckAction::repairToday;
  return hasAny(Held::part) ? CheckAction::watch : CheckAction::none;
}

void RecheckDraft::changeAction() {
  const auto now = action_.value_or(proposed());
  const auto count = base::enumCount<CheckAction>;
  action_ = static_cast<CheckAction>((static_cast<std::size_t>(now) + 1) % count);
}

void RecheckDraft::setKind(std::optional<CheckKind> kind, std::string prompt) {
  kind_ = kind;
  note_ = std::move(prompt);
}

followup::RetentionCheck RecheckDraft::build(roster::ChildId child, roster::DayId day,
                                             base::Date on) const {
  base::require(isComplete(), "an unfinished check");
  const bool isYearCheck = followup::isWithin({}, earlier_.placedOn, on);
  return {.placement = earlier_.placement.id,
          .child = child,
          .day = day,
          .kind = kind_.value_or(isYearCheck ? CheckKind::longTerm : CheckKind::opportunistic),
          .occlusal = held(Surface::occlusal),
          .buccal = held(Surface::buccalPit),
          .lingual = held(Surface::lingualGroove),
          .why = why_,
          .health = health_,
          .lift = lift_,
          .action = action_.value_or(proposed()),
          .note = note_};
}

} // namespace gk::ui
