#pragma once

#include "chairside/placement.h"

#include <map>
#include <span>

namespace gk::chairside {

/// What the protocol must know about the field's material and the program's times.
struct ProtocolRules {
  roster::StepTimes times;
  kit::MaterialKind material;
  base::Seconds makersEtch{}; ///< the etchant maker's least
};

/// The next thing to do for a tooth.
enum class Next { etch, rinse, dry, flow, cure, check, placed, notAchieved, stopped };

/// One tooth of a field, as its steps so far leave it.
struct ToothProgress {
  dentition::Tooth tooth;
  dentition::SurfaceSet surfaces;
  Next next;
  bool wet = false;                 ///< touched since its last good etch: shown until etched again
  EtchReason etchReason = EtchReason::first; ///< why the next etch is asked for
  dentition::SurfaceSet cured{};    ///< surfaces with a complete exposure since the last flow
  bool flowed = false;              ///< sealant has been on the tooth
  int etches = 0;
  int cures = 0;
  int interruptedCures = 0;
  int wetEvents = 0;
  bool frosty = false;
  std::optional<base::Milliseconds> etched{};
  std::optional<base::Milliseconds> curedShortest{};
  std::optional<kit::LightId> light{};
  StepResult check = StepResult::done;
};

/// The steps of one field as a state machine, a pure value rebuilt from its rows.
///   resin:          etch > rinse > dry and frosty > flow > cure (each surface) > check
///   self-cure:      the same, where cure is a wait without a light
///   glass ionomer:  dry > flow > cure (a wait without a light) > check
/// Saliva from the end of etching to the end of cure sends a tooth back to etch, and it will take
/// no cure until then. At the check (sealant placed) it goes back to a shorter etch for adding.
/// An interrupted cure changes nothing but its count: the next one starts from zero.
class Protocol {
 public:
  Protocol(const Field& field, ProtocolRules rules);

  /// Fails with `ruleStep` (out of order, wet tooth, unknown tooth, wrong result for the step),
  /// `ruleCure` (short of the target and not marked interrupted or accepted with a reason; a lamp
  /// for a self-cure material or none for a light-cure one) or `ruleReason`. Then nothing changed.
  [[nodiscard]] base::Result<base::Done> allows(const StepRun& run) const;

  /// Precondition: allows(run).
  void apply(const StepRun& run);
  /// Teeth not in the field are ignored.
  void apply(const Wet& wet);
  /// These teeth go no further (refused, ran out of time).
  void stop(std::span<const dentition::Tooth> teeth);

  [[nodiscard]] const std::vector<ToothProgress>& teeth() const { return teeth_; }
  [[nodiscard]] const ToothProgress* find(const dentition::Tooth& tooth) const;

  /// The step that the most backward tooth still needs; `placed` when nothing is left to do.
  [[nodiscard]] Next next() const;
  /// The teeth that need that step, with the surfaces it is for.
  [[nodiscard]] std::vector<dentition::ToothSurfaces> due(Next step) const;

  /// The least etch for these teeth now, and why: 20 s at first and when wet before the sealant,
  /// 10 s when adding to one already placed, each by the program's times and never under the
  /// etchant maker's for a first etch.
  [[nodiscard]] base::Seconds etchTarget(std::span<const dentition::ToothSurfaces> teeth) const;
  [[nodiscard]] base::Seconds rinseTarget() const { return rules_.times.rinse; }

  /// The stage at which something wet touches this tooth now.
  [[nodiscard]] WetStage stageOf(const dentition::Tooth& tooth) const;

 private:
  ToothProgress* find(const dentition::Tooth& tooth);

  ProtocolRules rules_;
  bool adding_;
  std::vector<ToothProgress> teeth_;
};

/// The placement that a tooth's progress amounts to, at the check or when it is stopped.
Placement summarize(const Field& field, const ToothProgress& tooth, FieldId fieldId,
                    PlacementType type, base::MemberId placedBy, std::string note);

} // namespace gk::chairside

template <>
inline constexpr auto gk::base::enumNames<gk::chairside::Next> = std::to_array<std::string_view>(
    {"etch", "rinse", "dry", "flow", "cure", "check", "placed", "not achieved", "stopped"});
