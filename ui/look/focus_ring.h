#pragma once

#include <QObject>
#include <QPointer>

class QWidget;

namespace gk::ui {

/// Shows where the keyboard is by one ring about the control, in the color that nothing else has:
/// one for all windows, outside the control, so that no words move.
class FocusRing final : public QObject {
  Q_OBJECT

 public:
  /// Lives with the application. Precondition: there is one.
  static void wear();
  ~FocusRing() override;

  bool eventFilter(QObject* watched, QEvent* event) override;

 private:
  explicit FocusRing(QObject* application);
  void follow(QWidget* now);
  void place();
  void letGo();

  QPointer<QWidget> target_;
  QPointer<QWidget> ring_;           ///< a child of the window that has the keyboard
  QList<QPointer<QWidget>> watched_; ///< what moves the control: it and all that it is in
  bool waits_ = false;
  bool isMoved_ = false; ///< into another parent, which is not watched yet
};

} // namespace gk::ui
