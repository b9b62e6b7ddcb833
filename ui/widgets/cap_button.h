#pragma once

#include <QPushButton>

namespace gk::ui {

/// A button that shows its key as a small raised cap, apart from its words: before them, or above
/// them where keys are narrow. `text()` is both, for whoever has the button read aloud.
class CapButton final : public QPushButton {
  Q_OBJECT

 public:
  enum class Cap { before, above };

  explicit CapButton(QWidget* parent);

  /// No cap where `key` is empty.
  void setWords(const QString& key, const QString& words, Cap where = Cap::before);
  [[nodiscard]] const QString& words() const { return words_; }

  [[nodiscard]] QSize sizeHint() const override;
  [[nodiscard]] QSize minimumSizeHint() const override;

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  [[nodiscard]] QSize capSize() const;
  [[nodiscard]] QSize wordsSize() const;
  void paintCap(QPainter& painter, const QRect& box, const QColor& ink) const;

  QString key_;
  QString words_;
  Cap where_ = Cap::before;
};

} // namespace gk::ui
