#pragma once

#include "ui/pages/chair_panel.h"

class QLabel;

namespace gk::ui {

/// Reads back what was sealed against what is seen in the mouth, then varnish and the outcome.
class FinishPanel final : public ChairPanel {
  Q_OBJECT

 public:
  FinishPanel(ChairVisit& visit, QWidget* parent);

  void begin() override;
  void refresh() override;
  bool press(const QKeyEvent& event) override { return keys_->press(event); }
  std::vector<TileFace> faces() const override;
  void stopChild() override;

 Q_SIGNALS:
  void visitEnded();
  void findingsWanted();

 private:
  [[nodiscard]] chairside::DayOutcome outcome() const;
  void varnish(session::Confirmed sooner);
  void changeEnd();
  void end();

  QLabel* title_;
  QLabel* sealed_;
  QLabel* state_;
  KeyBar* keys_;
  bool wiped_ = false; ///< a reminder, not a record
  std::optional<chairside::DayEnd> end_;
};

} // namespace gk::ui
