#pragma once

#include "chairside/field.h"

namespace gk::chairside {

using PlacementId = base::Id<struct PlacementTag>;
using VarnishId = base::Id<struct VarnishTag>;
using OutcomeId = base::Id<struct OutcomeTag>;

/// `fresh` is a first sealant on the surfaces; a reseal replaces one that was lost or lifted; a
/// repair adds to one that holds; interim is glass ionomer to be replaced.
enum class PlacementType { fresh, repair, reseal, interim, replacesInterim };
enum class Attempt { complete, stoppedBeforeSealant, stoppedBeforeCure, notAchieved };

/// One sealant on one tooth at one visit: the summary of what the steps of its field recorded.
/// Only `complete` counts as sealed. A retention check never changes it.
struct Placement {
  using Key = PlacementId;
  roster::ChildId child;
  roster::DayId day;
  FieldId field;
  dentition::Tooth tooth;
  dentition::SurfaceSet surfaces;
  PlacementType type;
  Attempt attempt;
  base::MemberId placedBy; ///< per tooth: two operators may finish one child
  std::optional<base::MemberId> assistant;
  Isolation isolation;
  bool fourHanded;
  kit::LotId sealant;
  std::optional<kit::LotId> etchant;
  std::optional<kit::LightId> light;        ///< of the last complete cure; none for self-cure
  std::optional<base::Milliseconds> etched; ///< the last etch
  std::optional<base::Milliseconds> cured;  ///< the shortest complete exposure that counts
  int cures = 0;                            ///< complete exposures
  int interruptedCures = 0;
  int wetEvents = 0;
  int etches = 0;
  bool frosty = false;
  StepResult check = StepResult::passed; ///< `notAchieved` when it was stopped before the check
  std::string note;                      ///< why stopped, why a step was short
  bool operator==(const Placement&) const = default;
};

/// Counts as a sealant of this program: complete and not a repair or an interim cover.
bool countsAsSealant(const Placement& placement);

/// Varnish comes after sealants, since nothing bonds through it. Fails with `ruleVarnish` naming a
/// tooth that was chosen for treatment and has no placement, finished or stopped, on the day.
base::Result<base::Done> checkVarnishOrder(const Screening& screening,
                                           std::span<const Placement> ofTheDay);

struct Varnish {
  using Key = VarnishId;
  roster::ChildId child;
  roster::DayId day;
  kit::LotId lot;
  bool operator==(const Varnish&) const = default;
};

/// How a child's day ended. Every consented child gets one.
enum class DayEnd {
  sealedComplete,
  sealedUnfinished,
  screenedNoneNeeded,
  screenedNotTreated,
  recheckOnly,
  absent,
  declined,
  leftSchool,
  withdrawn,
  onHold,
  notReached
};

struct DayOutcome {
  using Key = OutcomeId;
  roster::ChildId child;
  roster::DayId day;
  DayEnd end;
  std::string reason;           ///< needed for screenedNotTreated, sealedUnfinished
  std::string varnishSkipped{}; ///< why a varnish that the form allows was left out
  bool operator==(const DayOutcome&) const = default;
};

} // namespace gk::chairside

template <>
inline constexpr auto gk::base::enumNames<gk::chairside::PlacementType> =
    std::to_array<std::string_view>({"new", "repair", "reseal", "interim", "replaces interim"});
template <>
inline constexpr auto gk::base::enumNames<gk::chairside::Attempt> = std::to_array<std::string_view>(
    {"complete", "stopped before sealant", "stopped before cure", "not achieved"});
template <>
inline constexpr auto gk::base::enumNames<gk::chairside::DayEnd> = std::to_array<std::string_view>(
    {"sealed, complete", "sealed, unfinished", "screened, none needed", "screened, not treated",
     "recheck only", "absent", "declined", "left school", "withdrawn", "on hold", "not reached"});
