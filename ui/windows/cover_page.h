#pragma once

#include <QTimer>
#include <QWidget>

#include <functional>

class QLabel;
class QLineEdit;

namespace gk::ui {

/// Stands before the pages while the names are locked or the screen is hidden. It shows nothing of
/// any child; a timer that runs behind it stays in sight.
class CoverPage final : public QWidget {
  Q_OBJECT

 public:
  /// `timer` gives the numerals of the running timer, empty when none runs.
  CoverPage(std::function<QString()> timer, QWidget* parent);

  void lock(const QString& why);
  void hideScreen();
  /// What went wrong with the passphrase.
  void refuse(const QString& words);
  [[nodiscard]] bool isLock() const { return lock_; }

 Q_SIGNALS:
  void passphraseGiven(const QString& passphrase);

 protected:
  void showEvent(QShowEvent* event) override;
  void hideEvent(QHideEvent* event) override;

 private:
  void readTimer();

  std::function<QString()> timer_;
  QTimer pulse_;
  QLabel* title_;
  QLabel* numerals_;
  QLineEdit* passphrase_;
  QLabel* trouble_;
  bool lock_ = true;
};

} // namespace gk::ui
