#pragma once

#include <QLabel>

#include <vector>

namespace gk::ui {

/// How far the day is: a bar, and below it each count with its own sign and word. `text()` is the
/// same for whoever has it read aloud.
class DayBar final : public QLabel {
  Q_OBJECT

 public:
  /// How a part of the bar is drawn, and the sign before its word.
  enum class Fill { strong, cured, dashed, open, sunk };
  struct Part {
    QString words;
    int count;
    Fill fill;
  };

  explicit DayBar(QWidget* parent);

  void setParts(std::vector<Part> parts, const QString& text);
  /// Words alone, where there is no day.
  void say(const QString& words);

  [[nodiscard]] QSize sizeHint() const override;
  [[nodiscard]] QSize minimumSizeHint() const override;
  [[nodiscard]] int heightForWidth(int width) const override;

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  [[nodiscard]] int lineHeight() const;
  [[nodiscard]] int widthOf(const Part& part) const;
  /// Where each part's words stand; the last value is how many lines there are.
  [[nodiscard]] std::pair<std::vector<QPoint>, int> places(int width) const;

  std::vector<Part> parts_;
};

} // namespace gk::ui
