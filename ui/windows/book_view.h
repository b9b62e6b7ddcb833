#pragma once

#include "ui/support/context.h"
#include "ui/support/message.h"

#include <QStringList>
#include <QTimer>
#include <QWidget>

#include <chrono>
#include <memory>
#include <vector>

class QLabel;
class QPushButton;
class QStackedWidget;

namespace gk::ui {

class ChairPage;
class CloseOutPage;
class CoverPage;
class DayBoardPage;
class DeskPage;
class IncidentPage;
class LaptopPage;
class MessageStrip;
class Page;
class ProgramPage;
class ReadinessPage;
class ScanCatcher;
class Speaker;

/// One open logbook: its pages, the strip of messages above them, and the cover before them.
class BookView final : public QWidget {
  Q_OBJECT

 public:
  /// Locks after `idle` without a key or a click.
  BookView(session::Session session, base::Clock& clock, Prompter& prompter,
           std::chrono::milliseconds idle, QWidget* parent);
  ~BookView() override;

  /// Opens the names and goes on where the chair was left. Says so and stays locked otherwise.
  void unlock(const QString& passphrase);
  void lock(const QString& why);
  /// The timer's cues are heard from now on. The speaker outlives this.
  void hearOn(Speaker& speaker);
  /// Says it in the strip of messages until it is dismissed.
  void warn(const QString& words);
  /// The keyboard goes to what is up: the passphrase's line while the names are locked.
  void takeKeys();
  [[nodiscard]] session::Session& session() { return session_; }
  [[nodiscard]] Acting& acting() { return acting_; }

 protected:
  bool eventFilter(QObject* watched, QEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;

 private:
  void layOut();
  void addPage(QWidget* page, const QString& words, Qt::Key key, const QString& name);
  void connectPage(Page* page);
  void turnTo(QWidget* page);
  void toChair(roster::ChildId child, roster::DayId day);
  void leaveChair();
  void leaveIncident(const QString& words);
  void askProgram();
  void letGo();
  void askClock(const QString& question);
  /// The file is gone from under the open book: all it holds goes into a new one.
  void saveElsewhere();
  void begin();
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
  QTimer reading_; ///< what is done in small pieces while no key waits
  // Owned here and not by Qt, so that every page goes before the session.
  std::unique_ptr<QStackedWidget> stack_;
  CoverPage* cover_;
  QWidget* work_;
  QWidget* bar_;
  QStackedWidget* pages_;
  QLabel* who_;
  QLabel* careDate_; ///< when all is written for another date than today's
  QLabel* running_;  ///< the chair's timer while another page is shown
  MessageStrip* strip_;
  DayBoardPage* board_ = nullptr;
  ChairPage* chair_ = nullptr;
  CloseOutPage* closeOut_ = nullptr;
  ReadinessPage* readiness_ = nullptr;
  LaptopPage* laptop_ = nullptr;
  DeskPage* desk_ = nullptr;
  IncidentPage* incident_ = nullptr;
  ProgramPage* program_ = nullptr; ///< only for a book that was made without one
  ScanCatcher* catcher_ = nullptr;
  std::optional<roster::DayId> askedReady_;
  std::optional<QStringList> lotCodes_; ///< until something is written
  std::vector<std::pair<QWidget*, QPushButton*>> buttons_;
  QWidget* cameFrom_ = nullptr;       ///< where to go when the chair is done
  QWidget* beforeIncident_ = nullptr; ///< where to go when the incident is written
};

} // namespace gk::ui
