#pragma once

#include "ui/asking/context.h"
#include "ui/support/message.h"

#include <QKeySequence>
#include <QStringList>
#include <QTimer>
#include <QWidget>

#include <chrono>
#include <functional>
#include <memory>
#include <set>
#include <vector>

class QAbstractButton;
class QBoxLayout;
class QLabel;
class QStackedWidget;

namespace gk::ui {

class CalendarPage;
class CapButton;
class ChairPage;
class CloseOutPage;
class CoverPage;
class DayBoardPage;
class DeskPage;
class FormDeskPage;
class IncidentPage;
class HelpOverlay;
class LaptopPage;
class MessageStrip;
class NavRail;
class Page;
class PrintsPage;
struct Person;
class ProgramPage;
class ReadinessPage;
class ScanCatcher;
class Speaker;
class TodayPage;
class TotalsPage;

/// One open logbook: its pages, the strip of messages above them, and the cover before them.
class BookView final : public QWidget {
  Q_OBJECT

 public:
  /// Locks after `idle` without a key or a click.
  BookView(session::Session session, base::Clock& clock, Prompter& prompter, LongWork& work,
           std::chrono::milliseconds idle, QWidget* parent);
  ~BookView() override;

  /// Opens the names and goes on where the chair was left. Says so and stays locked otherwise.
  void unlock(const QString& passphrase, const std::optional<base::MemberId>& who = {});
  /// A PIN opens the names again where it may, else the passphrase.
  void lock(const QString& why);
  /// The timer's cues are heard from now on. The speaker outlives this.
  void hearOn(Speaker& speaker);
  /// Says it in the strip of messages until it is dismissed.
  void warn(const QString& words);
  /// The keyboard goes to what is up: the passphrase's line while the names are locked.
  void takeKeys();
  [[nodiscard]] session::Session& session() { return session_; }
  [[nodiscard]] Acting& acting() { return acting_; }
  /// The line of messages, beside which long work is shown.
  [[nodiscard]] QWidget* messageLine() const;
  /// Makes the backup that is due on closing, and asks what to do where it cannot be made. `close`
  /// is called when the book may close, at once where nothing is due.
  void beforeClosing(const std::function<void()>& close);

 Q_SIGNALS:
  void restoreWanted();

 protected:
  bool eventFilter(QObject* watched, QEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;

 private:
  void layOut();
  void layOutPlaces();
  /// `home`: the place on the rail that the page belongs to, where it is not on the rail itself.
  void addPage(QWidget* page, QAbstractButton* button, const QKeySequence& key,
               QAbstractButton* home = nullptr);
  QAbstractButton* addKey(QAbstractButton* button, const QKeySequence& key);
  /// "?" where no words are typed, and Shift+F1 anywhere.
  [[nodiscard]] bool asksForHelp(const QObject& watched, const QKeyEvent& key) const;
  void showHelp();
  /// The chair has the whole width while a child is in it.
  void showRail();
  void connectPage(Page* page);
  void turnTo(QWidget* page);
  void toChair(roster::ChildId child, roster::DayId day);
  void leaveChair();
  void leaveIncident(const QString& words);
  void askProgram();
  /// Covers the pages while long work has the book.
  void followWork();
  void backUpSigned(roster::DayId day);
  void askAtClosing(const QString& why, const std::function<void()>& close);
  void letGo();
  void askClock(const QString& question);
  /// The file is gone from under the open book: all it holds goes into a new one, beside the
  /// window; `then` once that is there and verified.
  void saveElsewhere(const std::function<void()>& then = {});
  void tellSaved(const QString& path);
  /// Said within a second, whatever is done meanwhile, and once.
  void noticeMoved();
  void askMovedAtClosing(const std::function<void()>& close);
  void begin();
  /// The names are open by the passphrase: who is at the keyboard is asked where anyone has a PIN.
  void enter();
  void signInBy(base::MemberId who, const QString& pin);
  /// What she has not confirmed of earlier days, once.
  void offerToConfirm(base::MemberId who, const session::OwnPin& own);
  [[nodiscard]] std::vector<Person> people(bool withPinAlone);
  [[nodiscard]] std::vector<Person> openers();
  /// After a while without a key: the names hide, and while teeth are open every key of the chair
  /// works on; once nothing is open the lock follows.
  void rest();
  [[nodiscard]] static QString lockedIdle();
  void beat();
  void goOn();
  void readOn();
  void toggleHidden();
  [[nodiscard]] QString runningTimer() const;
  void showRunning();
  void showWho();
  void scanned(const QString& code);
  /// The numbers of the lots, as they are scanned.
  [[nodiscard]] const QStringList& lotCodes();
  void showCareDate();
  /// Asks once a day, before its first child, when the morning's check is not done.
  bool mayBeginDay(roster::DayId day);

  session::Session session_;
  base::Subscription changes_;
  base::Subscription acted_; ///< what went well settles the strip
  Acting acting_;
  Context context_;
  QTimer idle_;
  QTimer beat_;    ///< has the laptop slept, is the last tooth closed, is the file there
  QTimer reading_; ///< what is done in small pieces while no key waits
  // Owned here and not by Qt, so that every page goes before the session.
  std::unique_ptr<QStackedWidget> stack_;
  CoverPage* cover_;
  QWidget* work_;
  NavRail* rail_;
  QStackedWidget* pages_;
  QWidget* top_ = nullptr;                           ///< the page's head, what runs, and who works
  std::vector<std::pair<QWidget*, QWidget*>> heads_; ///< of each page
  std::vector<std::pair<QWidget*, QString>> names_;
  CapButton* who_;   ///< who works; and the way to choose it
  QLabel* careDate_; ///< when all is written for another date than today's
  QLabel* running_;  ///< the chair's timer while another page is shown
  MessageStrip* strip_;
  DayBoardPage* board_ = nullptr;
  ChairPage* chair_ = nullptr;
  CloseOutPage* closeOut_ = nullptr;
  ReadinessPage* readiness_ = nullptr;
  LaptopPage* laptop_ = nullptr;
  DeskPage* desk_ = nullptr;
  FormDeskPage* forms_ = nullptr;
  PrintsPage* prints_ = nullptr;
  CalendarPage* calendar_ = nullptr;
  IncidentPage* incident_ = nullptr;
  TodayPage* today_ = nullptr;
  TotalsPage* totals_ = nullptr;
  ProgramPage* program_ = nullptr; ///< only for a book that was made without one
  ScanCatcher* catcher_ = nullptr;
  HelpOverlay* help_ = nullptr;
  QWidget* wait_ = nullptr; ///< while long work has the book
  QWidget* beforeWait_ = nullptr;
  std::optional<QString> lockLater_; ///< when the work that has the book is over
  bool namesHidden_ = false;         ///< the chair goes on without them
  bool isMovedTold_ = false;
  bool isSaving_ = false;         ///< under a new name
  bool isSavedElsewhere_ = false; ///< nothing is written to it since
  std::function<void()> afterSaved_;
  std::set<base::MemberId> offered_;
  std::optional<roster::DayId> askedReady_;
  std::optional<QStringList> lotCodes_;                        ///< until something is written
  std::vector<std::pair<QWidget*, QAbstractButton*>> buttons_; ///< of the rail, that is lit
  QWidget* cameFrom_ = nullptr;       ///< where to go when the chair is done
  QWidget* beforeIncident_ = nullptr; ///< where to go when the incident is written
};

} // namespace gk::ui
