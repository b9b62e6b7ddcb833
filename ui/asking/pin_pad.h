#pragma once

#include <QString>
#include <QWidget>

class QLabel;

namespace gk::ui {

/// Digits for a PIN, by the keyboard or by keys that a gloved finger meets. What was typed shows as
/// dots. Enter gives it; it is forgotten then.
class PinPad final : public QWidget {
  Q_OBJECT

 public:
  explicit PinPad(QWidget* parent);

  void clear();

 Q_SIGNALS:
  void given(const QString& pin);
  void typed(); ///< something was, so what was said of the last one is over

 protected:
  void keyPressEvent(QKeyEvent* event) override;

 private:
  void put(QChar digit);
  void takeBack();
  void give();
  void showDots();

  QLabel* dots_;
  QString digits_;
};

} // namespace gk::ui
