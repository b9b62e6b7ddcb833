#pragma once

#include "ui/field/field_steps.h"
#include "ui/field/kit_line.h"
#include "ui/visit/chair_panel.h"

namespace gk::ui {

class StepTrack;

/// Keeps a group of teeth dry and takes it from first etch to check, then the next group, until
/// nothing that was chosen is left.
class FieldPanel final : public ChairPanel {
  Q_OBJECT

 public:
  FieldPanel(ChairVisit& visit, QWidget* parent);

  void begin() override;
  void refresh() override;
  bool press(const QKeyEvent& event) override {
    return keys_->press(event) || kitKeys_->press(event);
  }
  std::vector<TileFace> faces() const override;
  void stopChild() override;
  void wet() override;
  bool pedal() override;
  void pedalUp() override { steps_->pedalUp(); }

  /// The step and where it is among the steps: above the timer, which is the page's.
  [[nodiscard]] QWidget* head() const { return head_; }
  /// What is in use besides the lot and the light of the keys, in one line; the page's too.
  [[nodiscard]] KitLine* inUse() const { return inUse_; }
  /// The side that is worked on; none where both are, or none is.
  [[nodiscard]] std::optional<bool> isOnRight() const;

  /// Whether there is a field in hand or a group to begin. Precondition: a visit is on.
  [[nodiscard]] bool hasWork() const;

 Q_SIGNALS:
  void findingsWanted(); ///< back to the screening

 private:
  [[nodiscard]] std::optional<WorkGroup> group() const;
  void showTrack();
  void sayInTimer(const QString& words);
  void showIsolation(const WorkGroup& next);
  void showSteps();
  void showHeld();
  [[nodiscard]] QString heldLine() const;
  [[nodiscard]] std::vector<KeyAction> stepKeys();
  void showKitKeys();
  /// What the step is and of which teeth: those that are due, not all that are kept dry.
  [[nodiscard]] QString stepTitle() const;
  [[nodiscard]] QString guidance() const;
  /// Which teeth the step is for and which stay dry; empty where it is for all of them.
  [[nodiscard]] QString onlySome() const;
  [[nodiscard]] bool isEtched() const;
  [[nodiscard]] QString fluorosisWords() const;
  void isolate();
  void missingGuard();
  void chooseCleaning();
  [[nodiscard]] chairside::Cleaning cleaning() const;
  void changeOrder();

  QWidget* head_;
  QLabel* title_;
  StepTrack* track_;
  QLabel* teeth_;
  QLabel* guide_;
  QLabel* kit_; ///< before the teeth are isolated, when all of it can be chosen
  KitLine* inUse_;
  KeyBar* keys_;
  KeyBar* kitKeys_;
  FieldSteps* steps_;
  WorkOrder order_ = WorkOrder::halves;
  chairside::DryGuardSet guards_ = chairside::DryGuardSet::all();
  std::string guardNote_;
  std::optional<chairside::Cleaning> cleaned_; ///< of these teeth, other than usual
  std::string cleaningNote_;
  bool varnishGone_ = false; ///< a person says that it was cleaned off
};

} // namespace gk::ui
