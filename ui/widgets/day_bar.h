#pragma once

#include <QLabel>

#include <vector>

class QPainter;

namespace gk::ui {

/// How far the day is: a bar, and below it each count with its own sign and word. Large letters
/// leave the bar and counts of zero no room, and the note of the pace stands behind the counts.
/// `text()` has all counts, for whoever has it read aloud.
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
  /// The pace of the day; drawn where letters are large, else its own line says it.
  void setNote(const QString& words);
  /// Whether letters are so large.
  [[nodiscard]] static bool isCondensed();

  [[nodiscard]] QSize sizeHint() const override;
  [[nodiscard]] QSize minimumSizeHint() const override;
  [[nodiscard]] int heightForWidth(int width) const override;

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  [[nodiscard]] int lineHeight() const;
  [[nodiscard]] int widthOf(const Part& part) const;
  /// The bar, and what is between it and the counts.
  [[nodiscard]] int barRoom() const;
  /// The parts that are counted below the bar.
  [[nodiscard]] std::vector<Part> counted() const;
  /// Where each part's words stand, last of all the note; and how many lines there are.
  [[nodiscard]] std::pair<std::vector<QPoint>, int> places(int width) const;
  [[nodiscard]] bool drawsNote() const;
  void fitNote();
  void paintBar(QPainter& painter) const;

  std::vector<Part> parts_;
  QString note_;
};

} // namespace gk::ui
