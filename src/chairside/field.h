#pragma once

#include "chairside/screening.h"
#include "kit/material.h"

namespace gk::chairside {

using FieldId = base::Id<struct FieldTag>;
using TimerId = base::Id<struct TimerTag>;
using StepId = base::Id<struct StepTag>;
using WetId = base::Id<struct WetTag>;

enum class Isolation {
  cottonRolls,
  rollsWithHolders,
  cheekPads,
  rollsAndCheekPads,
  rubberDam,
  dryFieldKit,
  suctionBiteBlock,
  singleTooth,
  retractor,
  other
};

/// What keeps the tooth dry, each confirmed before the first etch (common practice, no source).
enum class DryGuard { tongueHeldOff, cheekHeldOff, noGloveTouches, absorbentBothSides };
using DryGuardSet = base::EnumSet<DryGuard>;

} // namespace gk::chairside

// Ahead of its use in Field's initializer.
template <>
inline constexpr auto gk::base::enumNames<gk::chairside::DryGuard> =
    std::to_array<std::string_view>({"tongue held off", "cheek held off", "no glove touches",
                                     "absorbent on both sides"});

namespace gk::chairside {

/// Who holds what back; it differs by corner of the mouth and may predict what is lost.
enum class Holder { device, operatorHand, assistantHand, nobody };

/// With what the grooves were cleaned before the etch.
enum class Cleaning { notRecorded, toothbrush, handpieceBrush, gauze, other, notCleaned };

/// A group of teeth kept dry together, usually a half mouth: the unit of etching and drying.
struct Field {
  using Key = FieldId;
  roster::ChildId child;
  roster::DayId day;
  std::vector<dentition::ToothSurfaces> teeth; ///< at least one, no tooth twice
  Isolation isolation;
  DryGuardSet guards = DryGuardSet::all();
  Holder cheek = Holder::device;
  Holder tongue = Holder::device;
  bool fourHanded = true;
  std::optional<base::MemberId> assistant;
  kit::LotId sealant;
  std::optional<kit::LotId> etchant; ///< needed unless the material is a glass ionomer
  bool adding = false;               ///< to a sealant placed at this visit: shorter re-etch
  std::string note; ///< which guard could not be had, why nothing was cleaned, or with what
  Cleaning cleaned = Cleaning::notRecorded; ///< so only in rows from before it was asked
  bool operator==(const Field&) const = default;
};

enum class Step { etch, rinse, dry, flow, cure, check };

/// What came of a step. `interrupted` cures stay in the record and are never added up.
enum class StepResult {
  done,
  interrupted,
  shortAccepted, ///< under the target, taken with a clinician's reason
  frosty,        ///< dry: dull and frosty
  notFrosty,
  frostyNotSeen, ///< dry: went on without, with a clinician's reason
  passed,
  addedThenPassed,
  redoneThenPassed,
  notAchieved
};

enum class TimeSource { none, timer, typed };
enum class EtchReason { first, wetBeforeSealant, wetWhenAdding, notFrosty, incompleteEarlier };

/// Written when a timer starts, so that a crash leaves "was running: interrupted".
struct TimerStart {
  using Key = TimerId;
  FieldId field;
  Step step;
  std::vector<dentition::ToothSurfaces> teeth;
  base::Seconds target;
  std::optional<kit::LightId> light;
  bool operator==(const TimerStart&) const = default;
};

/// One step that was done, on these teeth, for so long.
struct StepRun {
  using Key = StepId;
  FieldId field;
  Step step;
  std::vector<dentition::ToothSurfaces> teeth; ///< a cure: one exposure over these surfaces
  StepResult result = StepResult::done;
  std::optional<base::Milliseconds> lasted; ///< none where nothing was timed
  std::optional<base::Seconds> target;      ///< what was asked for when it ran
  TimeSource source = TimeSource::none;
  std::optional<TimerId> timer;
  std::optional<kit::LightId> light; ///< cures with a lamp
  std::optional<kit::LotId> lot;     ///< etchant or sealant used in this step
  EtchReason etchReason = EtchReason::first;
  std::string reason; ///< why short, why not frosty, why interrupted
  bool operator==(const StepRun&) const = default;
};

enum class WetStage { beforeEtch, afterEtch, afterFrosty, duringFlow, beforeCureEnds, atCheck };
enum class WetCause { saliva, blood, tongue, coughOrGag, rollSlipped, airLine, childMoved, other };

/// Something wet touched these teeth.
struct Wet {
  using Key = WetId;
  FieldId field;
  std::vector<dentition::Tooth> teeth; ///< only those that a person says were touched
  WetStage stage;
  WetCause cause = WetCause::saliva;
  std::string note;
  bool operator==(const Wet&) const = default;
};

} // namespace gk::chairside

template <>
inline constexpr auto gk::base::enumNames<gk::chairside::Isolation> =
    std::to_array<std::string_view>({"cotton rolls", "cotton rolls with holders", "cheek pads",
                                     "cotton rolls and cheek pads", "rubber dam", "dry field kit",
                                     "suction bite block", "single tooth", "retractor", "other"});
template <>
inline constexpr auto gk::base::enumNames<gk::chairside::Holder> =
    std::to_array<std::string_view>({"device", "operator", "assistant", "nobody"});
template <>
inline constexpr auto gk::base::enumNames<gk::chairside::Cleaning> =
    std::to_array<std::string_view>({"not recorded", "dry toothbrush", "handpiece brush", "gauze",
                                     "other", "not cleaned"});
template <>
inline constexpr auto gk::base::enumNames<gk::chairside::Step> =
    std::to_array<std::string_view>({"etch", "rinse", "dry", "flow", "cure", "check"});
template <>
inline constexpr auto gk::base::enumNames<gk::chairside::StepResult> =
    std::to_array<std::string_view>({"done", "interrupted", "short accepted", "frosty",
                                     "not frosty", "frosty not seen", "passed", "added then passed",
                                     "redone then passed", "not achieved"});
template <>
inline constexpr auto gk::base::enumNames<gk::chairside::TimeSource> =
    std::to_array<std::string_view>({"none", "timer", "typed"});
template <>
inline constexpr auto gk::base::enumNames<gk::chairside::EtchReason> =
    std::to_array<std::string_view>({"first", "wet before sealant", "wet when adding", "not frosty",
                                     "incomplete earlier"});
template <>
inline constexpr auto gk::base::enumNames<gk::chairside::WetStage> =
    std::to_array<std::string_view>({"before etch", "after etch", "after frosty", "during flow",
                                     "before cure ends", "at check"});
template <>
inline constexpr auto gk::base::enumNames<gk::chairside::WetCause> =
    std::to_array<std::string_view>({"saliva", "blood", "tongue", "cough or gag", "roll slipped",
                                     "air line", "child moved", "other"});
