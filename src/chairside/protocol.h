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

/// The steps lead `Next` in the same order.
constexpr Next asNext(Step step) {
  return static_cast<Next>(step);
}

/// One tooth of a field, as its steps so far leave it.
struct ToothProgress {
  dentition::Tooth tooth;
  dentition::SurfaceSet surfaces;
  Next next;
  bool wet = false; ///< touched since its last good etch: shown until etched again
  EtchReason etchReason = EtchReason::first; ///< why the next etch is asked for
  dentition::SurfaceSet cured{};   ///< surfaces with a complete exposure since the last flow
  bool flowed = false;             ///< this field's sealant is on the tooth; not once it is cleared
  bool holds = false;              ///< cured and then wet at the check: more is being added to it
  bool etchantOn = false;          ///< etched and not rinsed since, whatever came between
  base::Milliseconds etchantFor{}; ///< how long, over the etches since the last rinse
  bool etchedLong = false;         ///< past its limit, and no one has said why yet
  int etches = 0;
  int cures = 0;            ///< exposures that count: complete, of sealant that was not cleared
  int interruptedCures = 0; ///< all of them, for ever
  int wetEvents = 0;
  bool frosty = false;
  std::optional<base::Milliseconds> etched{};
  std::optional<base::Milliseconds> curedShortest{};
  std::optional<kit::LightId> light{};
  StepResult check = StepResult::done; ///< `done` while there was no check
  std::optional<kit::LotId> sealant{}; ///< the lot last flowed, where the step names one
  std::optional<kit::LotId> etchant{}; ///< the lot last etched with, where the step names one
};

/// What the tooth needs next; the rinse also while etchant is on a tooth that is etched again.
constexpr bool isDue(const ToothProgress& tooth, Next step) {
  return tooth.next == step || (step == Next::rinse && tooth.next == Next::etch && tooth.etchantOn);
}

/// While etching past this a person is warned; past `etchLimit` someone says why (common practice,
/// no source).
inline constexpr base::Seconds etchCaution{30};
inline constexpr base::Seconds etchLimit{60};

/// Fails with `ruleTooth` (no tooth, one tooth twice, no surface), `ruleMaterial` (no etchant for a
/// material that needs one), `ruleCredential` (four hands of one person) or `ruleReason` (how the
/// teeth were cleaned is not said; a dry guard or the cleaning left out without a note).
base::Result<base::Done> checkField(const Field& field, kit::MaterialKind material);

/// The steps of one field as a state machine, a pure value rebuilt from its rows.
///   resin:          etch > rinse > dry and frosty > flow > cure (each surface) > check
///   self-cure:      the same, where cure is a wait without a light
///   glass ionomer:  dry > flow > cure (a wait without a light) > check
/// Saliva from the end of etching to the end of cure sends a tooth back to etch, and it will take
/// no cure until then. At the check (sealant placed) it goes back to a shorter etch for adding.
/// An interrupted cure changes nothing but its count: the next one starts from zero. An interrupted
/// etch is etched again. Etchant that is on when a tooth is sent back may be rinsed off there, and
/// is before the tooth is stopped. Every step but a cure is for all the surfaces of its teeth.
class Protocol {
 public:
  /// Precondition: at least one tooth and none twice.
  Protocol(const Field& field, ProtocolRules rules);

  /// Fails with `ruleStep` (out of order, wet tooth, unknown tooth, wrong result for the step, an
  /// etch or rinse short of its least and not accepted with a reason), `ruleCure` (short of
  /// `leastCure`, or of a higher target of its own, and not marked interrupted or accepted with a
  /// reason; a lamp for a self-cure material or none for a light-cure one; no least is known) or
  /// `ruleReason`. `leastCure` is what the light's and the material's makers ask, never what the
  /// run says of itself. Then nothing changed.
  [[nodiscard]] base::Result<base::Done> allows(const StepRun& run, base::Seconds leastCure) const;
  /// What a timer starts is the next step of its teeth. Fails with `ruleStep` or `ruleCure`.
  [[nodiscard]] base::Result<base::Done> allows(const TimerStart& start) const;
  /// Fails with `ruleTooth` unless each tooth is in the field and named once, `ruleStep` where one
  /// is finished.
  [[nodiscard]] base::Result<base::Done> allows(const Wet& wet) const;
  /// Fails with `ruleTooth` (not in the field), `ruleStep` (etchant is on: it is rinsed first).
  [[nodiscard]] base::Result<base::Done> allowsStop(std::span<const dentition::Tooth> teeth) const;

  /// For a run that `allows` let in. Rows read back are not judged again, since the program's times
  /// may have changed since and two laptops may have merged: a tooth that is not at this step stays
  /// as it is.
  void apply(const StepRun& run);
  /// Etchant is on from the moment its clock was started, whatever became of the clock.
  void apply(const TimerStart& start);
  /// Goes by where each tooth stands, not by `wet.stage`. Teeth not in the field and teeth that are
  /// finished are ignored.
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
  /// etchant maker's for a first etch. Not frosty is as wet; after an interrupted etch as at first.
  /// Of several teeth the longest.
  [[nodiscard]] base::Seconds etchTarget(std::span<const dentition::ToothSurfaces> teeth) const;
  [[nodiscard]] base::Seconds rinseTarget() const { return rules_.times.rinse; }

  /// The stage at which something wet touches this tooth now; `duringFlow` is a person's to say.
  [[nodiscard]] WetStage stageOf(const dentition::Tooth& tooth) const;

 private:
  ToothProgress* find(const dentition::Tooth& tooth);
  [[nodiscard]] base::Result<base::Done>
  allowsTeeth(Step step, std::span<const dentition::ToothSurfaces> teeth) const;
  [[nodiscard]] base::Result<base::Done> allowsLamp(const std::optional<kit::LightId>& light) const;
  [[nodiscard]] base::Result<base::Done> allowsTime(const StepRun& run) const;
  [[nodiscard]] base::Result<base::Done> allowsCure(const StepRun& run, base::Seconds least) const;
  [[nodiscard]] base::Result<base::Done> allowsDry(const StepRun& run) const;
  [[nodiscard]] bool hasResult(const StepRun& run) const;
  [[nodiscard]] base::Seconds etchTarget(const ToothProgress& tooth) const;
  [[nodiscard]] Next firstStep() const;
  void applyTo(ToothProgress& tooth, const StepRun& run, dentition::SurfaceSet surfaces) const;
  void etchAgain(ToothProgress& tooth, EtchReason reason) const;

  ProtocolRules rules_;
  bool adding_;
  std::vector<ToothProgress> teeth_;
};

/// The placement that a tooth's progress amounts to, at the check or when it is stopped. Stopped
/// with everything cured but never checked is `notAchieved`: only what was checked counts.
Placement summarize(const Field& field, const ToothProgress& tooth, FieldId fieldId,
                    PlacementType type, base::MemberId placedBy, std::string note);

} // namespace gk::chairside

template <>
inline constexpr auto gk::base::enumNames<gk::chairside::Next> = std::to_array<std::string_view>(
    {"etch", "rinse", "dry", "flow", "cure", "check", "placed", "not achieved", "stopped"});

static_assert(gk::chairside::asNext(gk::chairside::Step::etch) == gk::chairside::Next::etch &&
              gk::chairside::asNext(gk::chairside::Step::check) == gk::chairside::Next::check);
