#pragma once

#include <QWidget>

#include <vector>

namespace gk::ui {

/// Where one is among steps that are always the same: what is done, what is now, what comes. Its
/// size does not depend on the steps, so that nothing about it moves.
class StepTrack final : public QWidget {
  Q_OBJECT

 public:
  enum class State { done, now, again, later, none }; ///< none: not for this child
  struct Step {
    QString words;
    State state;
    bool operator==(const Step&) const = default;
  };
  /// Words in pills, or circles on a line with words below.
  enum class Shape { pills, circles };

  StepTrack(Shape shape, QWidget* parent);

  void setSteps(std::vector<Step> steps);
  [[nodiscard]] QSize sizeHint() const override;
  [[nodiscard]] QSize minimumSizeHint() const override { return sizeHint(); }
  /// Of its letters, in pixels.
  [[nodiscard]] int smallestDrawn() const;

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  /// The words of all steps fit beside each other; else the one that is now stands alone.
  [[nodiscard]] bool hasRoom() const;
  void paintPill(QPainter& painter, const QRectF& box, const Step& step) const;
  void paintCircles(QPainter& painter) const;
  [[nodiscard]] QFont letters(bool bold) const;

  Shape shape_;
  std::vector<Step> steps_;
};

} // namespace gk::ui
