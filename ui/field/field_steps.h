#pragma once

#include "ui/visit/chair_visit.h"

#include <QObject>

#include <functional>
#include <tuple>

namespace gk::ui {

/// What a timer is for, in two lines at most: one or two teeth by name, the surfaces of one alone;
/// more by number.
QString timedTeeth(const std::vector<dentition::ToothSurfaces>& teeth, bool withSurfaces,
                   dentition::Notation notation);

/// The steps on one field of teeth: what a pedal, a "frosty" or a "wet" means now, as one act of
/// the book. The timer that runs here is also in the book, so that a crash leaves it interrupted.
class FieldSteps final : public QObject {
  Q_OBJECT

 public:
  using Runs = std::vector<chairside::StepRun>;

  FieldSteps(ChairVisit& visit, QObject* parent);

  /// Another child sat down: what was set for the one before ends.
  void begin();

  /// The field in hand. Precondition: there is one.
  [[nodiscard]] const session::FieldState& field() const;
  [[nodiscard]] chairside::Next step() const { return stepNow(field().protocol); }
  /// Teeth and surfaces that the pedal would start now.
  [[nodiscard]] std::vector<dentition::ToothSurfaces> next() const;
  [[nodiscard]] base::Seconds target() const;
  [[nodiscard]] bool hasLamp() const;
  [[nodiscard]] bool isTogether() const { return together_; }
  [[nodiscard]] bool isRinsing() const { return runs(chairside::Step::rinse); }
  /// A timer that the book knows and that runs here no more: interrupted, not cured. A rinse is
  /// begun once more instead.
  [[nodiscard]] bool wasInterrupted() const;
  /// This child today with this light, on this laptop since it started: eye protection was reminded
  /// of. Each child wears its own.
  [[nodiscard]] bool hasCured() const { return cured_ == cureNow(); }
  /// That the etch runs too long; empty while it does not.
  [[nodiscard]] QString caution() const;
  /// Etchant lies on a tooth, or is being put on.
  [[nodiscard]] bool etchantIsOn() const;

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
  /// Stops a running timer; what it amounts to is for the caller to write.
  Runs halt(const std::string& reason);
  /// The child is stopped with etchant on: the etch ends, the rinse clock runs, and `then` gets the
  /// rinse once someone says that it is off, or could not be got off.
  void rinseNow(const std::string& reason, const std::function<void(const Runs&)>& then);
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
  using Teeth = std::vector<dentition::ToothSurfaces>;

  [[nodiscard]] Cured cureNow() const {
    return {visit_.file().day.id, visit_.file().child.id, visit_.setup().light};
  }
  [[nodiscard]] bool runs(chairside::Step step) const {
    return running_ && running_->run.step == step;
  }

  [[nodiscard]] chairside::StepRun blank(chairside::Step step, Teeth teeth) const;
  /// The field as these runs would leave it.
  [[nodiscard]] chairside::Protocol after(const Runs& runs) const;
  bool enter(const session::ChairWork& work);
  bool enter(const chairside::StepRun& run) { return enter({.steps = {run}}); }
  /// The lot that is carried, when it is of the field's kind; else the field's own.
  [[nodiscard]] kit::LotId sealantLot() const;
  /// Why the light should not be used, in words, unless someone gave a reason; empty when fine.
  [[nodiscard]] QString lightTrouble() const;
  [[nodiscard]] base::Seconds cureTarget(const chairside::Protocol& protocol) const;
  [[nodiscard]] Runs flowed() const;
  /// `ended` was cut short by the same key.
  void startCure(const Runs& ended);
  /// `before` was done by the same key.
  void startTimer(chairside::Step step, const Teeth& teeth, base::Seconds target,
                  const Runs& before = {});
  /// What the running timer amounts to; it runs no more.
  chairside::StepRun takeRun(chairside::StepResult result, std::string reason);
  [[nodiscard]] Runs byReason(const chairside::StepRun& etch) const;
  void endCure(chairside::StepResult result, const std::string& reason);
  void endEtch(chairside::StepResult result, const std::string& reason);
  void askEtch();
  void reached();
  void look();
  void enterTyped(const Runs& before, const chairside::StepRun& run);
  void whenRinsed(const std::function<void(const Runs&)>& then);
  void dry(const std::vector<dentition::Tooth>& dull, const Runs& rinsed);
  void enterDry(Runs runs);
  void askWet(chairside::WetCause cause);
  void noteWet(const std::vector<dentition::Tooth>& teeth, chairside::WetCause cause);

  ChairVisit& visit_;
  std::optional<Running> running_;
  bool together_ = false;   ///< one exposure over all surfaces of a tooth, for this child
  bool rinseAsked_ = false; ///< the rinse ends when a person says so, not by itself
  std::optional<std::pair<kit::LightId, std::string>> lightReason_; ///< used all the same, why
  std::optional<Cured> cured_; ///< no need to remind of eye protection again until it changes
  std::optional<base::Milliseconds> heldSince_; ///< pressed during a run and not let go yet
};

} // namespace gk::ui
