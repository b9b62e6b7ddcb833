#include "followup/retention_check.h"

#include "base/text/text.h"
#include "followup/display_names.h"

#include <algorithm>

namespace gk::followup {

using base::Done;
using base::Error;
using base::ErrorCode;
using base::Result;
using dentition::Surface;

namespace {

constexpr std::array surfaces{Surface::occlusal, Surface::buccalPit, Surface::lingualGroove};

Error refused(std::string why) {
  return {ErrorCode::ruleCheck, std::move(why)};
}

std::array<Held, 3> results(const RetentionCheck& check) {
  return {check.occlusal, check.buccal, check.lingual};
}

bool any(const RetentionCheck& check, Held held) {
  return std::ranges::count(results(check), held) > 0;
}

bool isJudged(Held held) {
  return held == Held::whole || held == Held::part || held == Held::lost;
}

bool isGoneOrCrowned(CannotAssess why) {
  return why == CannotAssess::crowned || why == CannotAssess::extracted ||
         why == CannotAssess::shed;
}

Result<Done> checkSubject(const RetentionCheck& check, const chairside::Placement& placement,
                          base::Date placedOn, base::Date checkedOn) {
  if (check.child != placement.child) return refused("the placement is another child's");
  if (placement.attempt != chairside::Attempt::complete)
    return refused("that attempt was not completed, so there is no sealant to check");
  if (checkedOn < placedOn)
    return refused("checked on " + checkedOn.words() + ", before it was placed on " +
                   placedOn.words());
  return Done{};
}

Result<Done> checkSurfaces(const RetentionCheck& check, const chairside::Placement& placement) {
  const auto held = results(check);
  for (std::size_t i = 0; i < surfaces.size(); ++i) {
    const bool sealed = placement.surfaces.has(surfaces.at(i));
    const auto where =
        placement.tooth.words() + ", " + std::string(base::displayName(surfaces.at(i)));
    if (!sealed && held.at(i) != Held::notSealed)
      return refused(where +
                     ": not sealed by that placement, or sealed again since; check the sealant "
                     "that is on it");
    if (sealed && held.at(i) == Held::notSealed)
      return refused(where + ": sealed, so it needs a result; not assessable is one");
  }
  return Done{};
}

Result<Done> checkReason(const RetentionCheck& check, const chairside::Placement& placement) {
  const bool unseen = any(check, Held::cannotAssess);
  if (unseen && check.why == CannotAssess::none) return refused("say why it cannot be assessed");
  if (!unseen && check.why != CannotAssess::none)
    return refused("every surface was assessed, so there is no reason to give for not doing it");
  if (isGoneOrCrowned(check.why) && std::ranges::any_of(results(check), isJudged))
    return refused("the tooth is " + std::string(base::displayName(check.why)) +
                   ", so no surface can be assessed");
  const bool covered =
      check.why == CannotAssess::restoredOver || check.why == CannotAssess::crowned;
  if (covered && check.health != ToothHealth::restored)
    return refused("filled or crowned since, so the tooth's health is restored");
  if (check.why == CannotAssess::shed && !placement.tooth.isPrimary())
    return refused("only primary teeth exfoliate; a permanent tooth was extracted");
  return Done{};
}

/// In the window a loss that prompted a look would count and what held would not, were it not the
/// one-year check. A look because a loss was reported is of a kind that no figure rests on.
Result<Done> checkKind(const RetentionCheck& check, base::Date placedOn, base::Date checkedOn) {
  const bool isShortTerm =
      check.kind == CheckKind::shortTermSample || check.kind == CheckKind::shortTermTriggered;
  if (isShortTerm && isWithin({}, placedOn, checkedOn))
    return refused("placed on " + placedOn.words() +
                   ", so this is the one-year check, unless a loss was reported");
  if (check.kind == CheckKind::shortTermTriggered && base::isBlank(check.note))
    return refused("a triggered check says what prompted it, such as a new material or a faulty "
                   "light");
  return Done{};
}

Result<Done> checkAction(const RetentionCheck& check) {
  const bool part = any(check, Held::part);
  const bool lost = any(check, Held::lost);
  const bool lifted = check.lift == LiftTest::lifted;
  if (check.lift != LiftTest::notDone && !part && !any(check, Held::whole))
    return refused("no sealant is left to lift");
  if (lifted && check.action == CheckAction::repairToday)
    return refused("the remaining sealant lifts off, so it is a reseal and not a repair");
  if (lifted && check.action == CheckAction::none)
    return refused("the remaining sealant lifts off: reseal it, or say who will and when");

  const bool repair = check.action == CheckAction::repairToday;
  const bool reseal = check.action == CheckAction::resealToday;
  if (check.health == ToothHealth::cavitated && (repair || reseal))
    return refused("a cavitated tooth is not sealed; refer it");
  if (repair && !part)
    return refused("a repair adds to a partially retained sealant; a missing one is resealed");
  if (repair && check.lift == LiftTest::notDone)
    return refused(
        "before a repair, try to lift the remaining sealant; one that lifts is resealed");
  if (reseal && !lost && !lifted)
    return refused("a reseal replaces a sealant that is missing or lifts off; this one holds");
  if (check.action == CheckAction::repairNext && !part && !lost && !lifted)
    return refused("nothing is missing, so there is nothing to repair next visit");
  return Done{};
}

} // namespace

Held RetentionCheck::tooth() const {
  Held worst = Held::cannotAssess;
  for (Held held : results(*this)) // whole, part and lost stand in this order
    if (isJudged(held) && (worst == Held::cannotAssess || held > worst)) worst = held;
  return worst;
}

Held RetentionCheck::asCounted() const {
  const bool filled = why == CannotAssess::restoredOver && any(*this, Held::cannotAssess);
  return lift == LiftTest::lifted || filled ? Held::lost : tooth();
}

Result<Done> checkRetention(const RetentionCheck& check, const chairside::Placement& placement,
                            base::Date placedOn, base::Date checkedOn) {
  return checkSubject(check, placement, placedOn, checkedOn)
      .and_then([&](Done) { return checkSurfaces(check, placement); })
      .and_then([&](Done) { return checkReason(check, placement); })
      .and_then([&](Done) { return checkKind(check, placedOn, checkedOn); })
      .and_then([&](Done) { return checkAction(check); });
}

bool isWithin(const Window& window, base::Date placedOn, base::Date checkedOn) {
  return placedOn.plusMonths(window.fromMonths) <= checkedOn &&
         checkedOn <= placedOn.plusMonths(window.untilMonths);
}

} // namespace gk::followup
