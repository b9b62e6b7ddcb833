#pragma once

#include "chairside/placement.h"

namespace gk::followup {

using CheckId = base::Id<struct CheckTag>;

enum class CheckKind {
  shortTermSample,
  shortTermTriggered,
  longTerm,
  opportunistic,
  reportedLoss ///< made because the sealant was said to be missing, at whatever age
};
enum class Held { notSealed, whole, part, lost, cannotAssess };
enum class CannotAssess {
  none,
  restoredOver,
  crowned,
  extracted,
  shed,
  banded,
  coveredByGum,
  childUnable,
  recordDoubtful
};
enum class ToothHealth { sound, earlyLesion, cavitated, restored };
enum class LiftTest { notDone, held, lifted };
enum class CheckAction { none, repairToday, resealToday, repairNext, refer, watch };

/// A look at an earlier placement: a new record about it that never edits it.
struct RetentionCheck {
  using Key = CheckId;
  chairside::PlacementId placement;
  roster::ChildId child;
  roster::DayId day;
  CheckKind kind;
  bool blinded = false; ///< the checker did not know who placed it
  Held occlusal = Held::notSealed;
  Held buccal = Held::notSealed;
  Held lingual = Held::notSealed;
  CannotAssess why = CannotAssess::none;
  ToothHealth health = ToothHealth::sound;
  LiftTest lift = LiftTest::notDone;
  CheckAction action = CheckAction::none;
  std::string note;
  bool operator==(const RetentionCheck&) const = default;

  /// The worst surface that can be judged; cannotAssess when none can.
  [[nodiscard]] Held tooth() const;

  /// The tooth as retention counts it: as `tooth`, but what lifts off is lost, and so is the
  /// sealant of a surface that was filled since (docs/methods.md, 1). For figures; a letter says
  /// `tooth`.
  [[nodiscard]] Held asCounted() const;
};

/// Fails with `ruleCheck`:
/// - another child's placement, no sealant, a check before it or, short-term, in its window (that
/// of
///   a reported loss is of any age);
/// - a triggered check without its reason; a result for an unsealed surface, none for a sealed one;
/// - cannot-assess without a reason or a reason without it; a tooth that is crowned or gone with a
///   surface judged; a filling or crown over the sealant on a tooth not called restored; a
///   permanent tooth shed;
/// - a lift test with nothing left to lift; a part repaired before the lift test, or after it
///   lifted: that is a reseal, or left for later or for a dentist (Maryland Mighty Tooth, 3.6);
/// - a reseal where all is held, a repair with no part, either on a cavitated tooth.
base::Result<base::Done> checkRetention(const RetentionCheck& check,
                                        const chairside::Placement& placement, base::Date placedOn,
                                        base::Date checkedOn);

/// 9 to 15 months after placement counts as the one-year check (docs/methods.md), editable.
struct Window {
  int fromMonths = 9;
  int untilMonths = 15;
};
bool isWithin(const Window& window, base::Date placedOn, base::Date checkedOn);

} // namespace gk::followup

template <>
inline constexpr auto gk::base::enumNames<gk::followup::CheckKind> =
    std::to_array<std::string_view>({"short-term sample", "short-term triggered", "long-term",
                                     "opportunistic", "reported loss"});
template <>
inline constexpr auto gk::base::enumNames<gk::followup::Held> =
    std::to_array<std::string_view>({"not sealed", "whole", "part", "lost", "cannot assess"});
template <>
inline constexpr auto gk::base::enumNames<gk::followup::CannotAssess> =
    std::to_array<std::string_view>({"none", "restored over", "crowned", "extracted", "shed",
                                     "banded", "covered by gum", "child unable",
                                     "record doubtful"});
template <>
inline constexpr auto gk::base::enumNames<gk::followup::ToothHealth> =
    std::to_array<std::string_view>({"sound", "early lesion", "cavitated", "restored"});
template <>
inline constexpr auto gk::base::enumNames<gk::followup::LiftTest> =
    std::to_array<std::string_view>({"not done", "held", "lifted"});
template <>
inline constexpr auto gk::base::enumNames<gk::followup::CheckAction> =
    std::to_array<std::string_view>({"none", "repair today", "reseal today", "repair next visit",
                                     "refer", "watch"});
