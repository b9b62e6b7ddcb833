#pragma once

#include "base/identity/id.h"

#include <QTimer>
#include <QWidget>

#include <functional>
#include <optional>
#include <vector>

class QLabel;
class QLineEdit;
class QPushButton;

namespace gk::ui {

class PinPad;

/// Someone of the team, as the cover offers her. No child is ever named there.
struct Person {
  base::MemberId id;
  QString words; ///< "Odile Fernsby, hygienist"
  bool hasPin;
};

/// Stands before the pages while the names are locked or the screen is hidden. It shows nothing of
/// any child; a timer that runs behind it stays in sight.
class CoverPage final : public QWidget {
  Q_OBJECT

 public:
  /// `timer` gives the numerals of the running timer, empty when none runs.
  CoverPage(std::function<QString()> timer, QWidget* parent);

  /// The passphrase opens: the logbook's, or one of `openers`' own, who may say who she is; then
  /// hers alone is tried.
  void lock(const QString& why, std::vector<Person> openers = {});
  /// The PIN of one of them opens; `who` is offered first. Precondition: at least one.
  void lockByPin(const QString& why, std::vector<Person> people,
                 const std::optional<base::MemberId>& who);
  /// Who is at the keyboard, from now on. Precondition: at least one.
  void askWho(std::vector<Person> people, const std::optional<base::MemberId>& who);
  void hideScreen();
  /// What went wrong with what was typed.
  void refuse(const QString& words);
  [[nodiscard]] bool isLock() const { return lock_; }

 Q_SIGNALS:
  /// `who` where someone said whose it is.
  void passphraseGiven(const QString& passphrase, const std::optional<gk::base::MemberId>& who);
  /// Empty for one who has none.
  void pinGiven(gk::base::MemberId who, const QString& pin);
  void passphraseWanted();

 protected:
  void showEvent(QShowEvent* event) override;
  void hideEvent(QHideEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;

 private:
  enum class Asks { nothing, passphrase, pin };

  void ask(Asks what, const QString& title);
  void offer(std::vector<Person> people, const std::optional<base::MemberId>& who);
  void step(std::size_t by);
  void showPerson();
  void showOpener();
  [[nodiscard]] std::optional<base::MemberId> opener() const;
  void readTimer();

  std::function<QString()> timer_;
  QTimer pulse_;
  QLabel* title_;
  QLabel* numerals_;
  QLineEdit* passphrase_;
  QLabel* person_;
  QPushButton* another_;
  QPushButton* enter_;
  PinPad* pad_;
  QPushButton* otherwise_;
  QLabel* trouble_;
  std::vector<Person> people_;
  std::size_t chosen_ = 0; ///< with the passphrase, 0 is no one and 1 the first of them
  bool lock_ = true;
};

} // namespace gk::ui
