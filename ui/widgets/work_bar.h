#pragma once

#include <QFrame>
#include <QPointer>
#include <QTimer>

class QLabel;
class QProgressBar;

namespace gk::ui {

class LongWork;

/// What long work is running, how far it is, and its Cancel. It lies over a line that is kept free
/// anyway, takes no keyboard, and comes only when the work takes a while.
class WorkBar final : public QFrame {
  Q_OBJECT

 public:
  WorkBar(LongWork& work, QWidget* over);

  /// Lies in the right half of this line from now on; of none at the foot.
  void standIn(QWidget* line);

 protected:
  bool eventFilter(QObject* watched, QEvent* event) override;

 private:
  void follow();
  void place();

  LongWork& work_;
  QPointer<QWidget> line_;
  QTimer patience_;
  QLabel* words_;
  QProgressBar* far_;
};

} // namespace gk::ui
