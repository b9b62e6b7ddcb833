#pragma once

#include <QLabel>

namespace gk::ui {

/// One line of words that is read whole in the width it is given: its letters give way.
class KitLine final : public QLabel {
  Q_OBJECT

 public:
  explicit KitLine(QWidget* parent);

  void setText(const QString& words);

 protected:
  void resizeEvent(QResizeEvent* event) override;

 private:
  void fit();
};

} // namespace gk::ui
