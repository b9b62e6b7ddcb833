#pragma once

#include "ui/pages/chair_visit.h"

#include <QObject>

#include <tuple>

namespace gk::ui {

/// The steps on one field of teeth: what a pedal, a "frosty" or a "wet" means now, as verbs of the
/// book. The timer that runs here is also in the book, so that a crash leaves it interrupted.
class FieldSteps final : public QObject {
  Q_OBJECT

 public:
  FieldSteps(ChairVisit& visit, QObject* parent);

  /// The field in hand. Precondition: there is one.
  [[nodiscard]] const session::FieldState& field() const;
  [[nodiscard]] chairside::Next step() const { return stepNow(field().protocol); }
  /// Teeth and surfaces that the pedal would start now.
  [[nodiscard]] std::vector<dentition::ToothSurfaces> next() const;
  [[nodiscard]] base::Seconds target() const;
  [[nodiscard]] bool hasLamp() const;
  [[nodiscard]] bool isTogether() const { return together_; }
  /// A timer that the book knows and that runs here no more: interrupted, not cured.
  [[nodiscard]] bool wasInterrupted() const;
  /// This child today with this light, on this laptop since it started: eye protection was reminded
  /// of. Each child wears its own.
  [[nodiscard]] bool hasCured() const { return cured_ == cureNow(); }

  /// Space or the pedal went down. During a cure it does nothing, unless held for a second: then
  /// the run counts as interrupted and a full one begins.
  void pedal();
  void pedalUp() { heldSince_.reset(); }
  /// Seconds from another clock, marked as typed.
  void typeSeconds();
  /// Writes down the interruption that a crash left.
  void noteInterrupted();
  /// Stops a running timer and records it as interrupted. Does nothing when none runs.
  void interrupt(const std::string& reason);
  /// The light went out: interrupted, or short with a reason.
  void lightStopped();
  void frosty();
  void notFrosty();
  void frostyNotSeen();
  void flow();
  void check(chairside::StepResult result);
  void wet();
  void toggleTogether();

 private:
  struct Running {
    chairside::StepRun run; ///< all but its result and time
  };
  using Cured = std::tuple<roster::DayId, roster::ChildId, std::optional<kit::LightId>>;

  [[nodiscard]] Cured cureNow() const {
    return {visit_.file().day.id, visit_.file().child.id, visit_.setup().light};
  }

  [[nodiscard]] chairside::StepRun blank(chairside::Step step,
                                         std::vector<dentition::ToothSurfaces> teeth) const;
  bool enter(const chairside::StepRun& run);
  /// The lot that is carried, when it is of the field's kind; else the field's own.
  [[nodiscard]] kit::LotId sealantLot() const;
  /// Why the light should not be used, in words, unless someone gave a reason; empty when fine.
  [[nodiscard]] QString lightTrouble() const;
  void startCure();
  void startTimer(chairside::Step step, const std::vector<dentition::ToothSurfaces>& teeth);
  /// What the running timer amounts to; it runs no more.
  chairside::StepRun takeRun(chairside::StepResult result, std::string reason);
  void enterEtch(const chairside::StepRun& run);
  void endTimer(chairside::StepResult result, const std::string& reason);
  void endEtch();
  void look();
  void enterTyped(const chairside::StepRun& run);
  bool rinse();
  void dry(const std::vector<dentition::Tooth>& dull);
  void askWet(chairside::WetCause cause);
  void noteWet(const std::vector<dentition::Tooth>& teeth, chairside::WetCause cause);

  ChairVisit& visit_;
  std::optional<Running> running_;
  bool together_ = false; ///< one exposure over all surfaces of a tooth
  std::optional<std::pair<kit::LightId, std::string>> lightReason_; ///< used all the same, why
  std::optional<Cured> cured_; ///< no need to remind of eye protection again until it changes
  std::optional<base::Milliseconds> heldSince_; ///< pressed during a run and not let go yet
};

} // namespace gk::ui
