#pragma once

#include "ui/keys/icons.h"

#include <QPushButton>

#include <optional>

namespace gk::ui {

/// A button that shows its key as a small raised cap, apart from its words. `text()` is all of it,
/// for whoever has the button read aloud. Its "look" is a property that the sheet reads: "main",
/// "alarm" (stop), "filled" (contaminated), "ask", "quiet" (no line) or none.
class CapButton final : public QPushButton {
  Q_OBJECT

 public:
  /// Where the cap stands. Above where keys are narrow; after where a chip says a state.
  enum class Cap { before, above, after };

  explicit CapButton(QWidget* parent);

  /// No cap where `key` is empty.
  void setWords(const QString& key, const QString& words, Cap where = Cap::before);
  /// A second line, such as what is used now; empty for none.
  void setSub(const QString& sub);
  [[nodiscard]] const QString& sub() const { return sub_; }
  void setSign(std::optional<Icon> sign);
  /// Whether the words may take two lines where the place is narrow.
  void setWraps(bool wraps);
  [[nodiscard]] const QString& words() const { return words_; }
  [[nodiscard]] const QString& key() const { return key_; }

  [[nodiscard]] QSize sizeHint() const override;
  [[nodiscard]] QSize minimumSizeHint() const override;
  /// The least width at which the words stand in one line.
  [[nodiscard]] int wholeWidth() const;
  /// What the words need in that width.
  [[nodiscard]] int heightIn(int width) const;
  /// Whether all of the words have room in the size it has now.
  [[nodiscard]] bool hasRoom() const;

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  [[nodiscard]] QFont capFont() const;
  [[nodiscard]] QFont subFont() const;
  [[nodiscard]] QSize capSize() const;
  [[nodiscard]] int signSize() const;
  /// The words as they are broken in that width.
  [[nodiscard]] QStringList lines(int width) const;
  [[nodiscard]] QSize wordsSize(const QStringList& lines) const;
  [[nodiscard]] QSize outerSize(const QSize& inner) const;
  [[nodiscard]] QSize innerSize(const QStringList& lines) const;
  /// What is left for the words of that width.
  [[nodiscard]] int roomIn(int width) const;
  [[nodiscard]] QRect contents() const;
  [[nodiscard]] QColor ink() const;
  void paintCap(QPainter& painter, const QRect& box, const QColor& ink) const;
  void paintWords(QPainter& painter, const QRect& box, const QColor& ink) const;
  void showText();

  QString key_;
  QString words_;
  QString sub_;
  std::optional<Icon> sign_;
  Cap where_ = Cap::before;
  bool wraps_ = false;
};

} // namespace gk::ui
