#pragma once

#include <QLabel>

namespace gk::ui {

/// One line of words that is read whole in the width it is given: its letters give way down to 18
/// px, then its words do.
class KitLine final : public QLabel {
  Q_OBJECT

 public:
  explicit KitLine(QWidget* parent);

  /// `brief` leaves out what is as usual.
  void setText(const QString& words, const QString& brief);
  /// Of its letters, in pixels.
  [[nodiscard]] int smallestDrawn() const { return font().pixelSize(); }

 protected:
  void resizeEvent(QResizeEvent* event) override;

 private:
  void fit();

  QString words_;
  QString brief_;
};

} // namespace gk::ui
