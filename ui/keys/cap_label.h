#pragma once

#include <QLabel>

namespace gk::ui {

/// The words beside a field and the key that leads into it, drawn as a cap: of "Term Alt+&M" the
/// label draws [Alt+M] Term. The text stays what it is, so that the key works and is read aloud.
class CapLabel final : public QLabel {
  Q_OBJECT

 public:
  CapLabel(const QString& words, QWidget* parent);

  [[nodiscard]] QSize sizeHint() const override;
  [[nodiscard]] QSize minimumSizeHint() const override { return sizeHint(); }

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  [[nodiscard]] QString words() const;
  [[nodiscard]] QString key() const;
  [[nodiscard]] QFont capFont() const;
  [[nodiscard]] QSize capSize() const;
};

} // namespace gk::ui
