#pragma once

#include "ui/visit/chair_panel.h"

#include <functional>

class QLabel;

namespace gk::ui {

/// Reads back what was sealed against what is seen in the mouth, then varnish, the referral that
/// the findings ask for, and the outcome.
class FinishPanel final : public ChairPanel {
  Q_OBJECT

 public:
  FinishPanel(ChairVisit& visit, QWidget* parent);

  void begin() override;
  void refresh() override;
  [[nodiscard]] QWidget* mustSee() const override;
  bool press(const QKeyEvent& event) override { return keys_->press(event); }
  std::vector<TileFace> faces() const override;
  void stopChild() override;

 Q_SIGNALS:
  void visitEnded();
  void findingsWanted();

 private:
  [[nodiscard]] chairside::DayOutcome outcome() const;
  using EndVisit = std::function<void(const chairside::DayOutcome&)>;

  [[nodiscard]] bool isSealed() const;
  [[nodiscard]] std::optional<followup::Referral> proposedReferral() const;
  [[nodiscard]] QString referralWords() const;
  void refer(const std::function<void()>& then);
  [[nodiscard]] QString afterCureWords() const;
  void afterCure(bool wiped, chairside::Bite bite, const std::string& note);
  void leaveOut();
  void varnish(session::Confirmed sooner);
  void askVarnish(const chairside::DayOutcome& outcome, const EndVisit& then);
  void changeEnd();
  void end();

  QLabel* title_;
  QLabel* sealed_;
  QLabel* state_;
  KeyBar* keys_;
  std::optional<chairside::DayEnd> end_;
  bool referralLeft_ = false; ///< to the close-out, by choice
};

} // namespace gk::ui
