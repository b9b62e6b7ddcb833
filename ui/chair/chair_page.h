#pragma once

#include "ui/keys/key_bar.h"
#include "ui/visit/chair_visit.h"

#include <QWidget>

#include <functional>

class QLabel;
class QLineEdit;
class QScrollArea;
class QStackedWidget;

namespace gk::ui {

class ChairPanel;
class FieldPanel;
class FinishPanel;
class IdentityPanel;
class IdentityView;
class RecheckPanel;
class ScreeningPanel;
class StepTrack;

/// One child at a time, from identity to outcome, by keyboard alone. What is shown comes back from
/// the book after each act, so a visit goes on where it was after a crash or a park.
class ChairPage final : public QWidget {
  Q_OBJECT

 public:
  ChairPage(Context& context, QWidget* parent = nullptr);

  /// The day whose children are taken by number. No one is in the chair then.
  void openDay(roster::DayId day);
  /// Asks who this is; after that a child who was parked goes on where the visit stood. False when
  /// the child cannot be read, a timer runs for another one, or the one in the chair is to stay;
  /// then nothing changed.
  bool take(roster::ChildId child, roster::DayId day) { return begin(child, day, true); }
  /// After a start: the child who was in the chair, if any.
  bool resume(roster::DayId day);
  /// The child leaves the chair for now. False while a timer runs.
  bool park();

  /// Asked before the first child of a day is taken; false takes no one.
  void beforeFirst(std::function<bool(roster::DayId)> ask) { beforeFirst_ = std::move(ask); }
  /// A code was scanned: a child's slip, or a lot, which is changed after one confirm. Anything
  /// else is said plainly and changes nothing.
  void scanned(const QString& code);

  [[nodiscard]] bool isOccupied() const { return visit_->isOn(); }
  [[nodiscard]] std::optional<roster::ChildId> occupant() const;
  [[nodiscard]] bool isTiming() const { return timer_->isRunning(); }
  /// A timer runs, or teeth are isolated that are not finished.
  [[nodiscard]] bool isCareOpen() const;

 Q_SIGNALS:
  /// Finished, parked or sent away: the chair is empty.
  void finished();

 protected:
  void keyPressEvent(QKeyEvent* event) override;
  void keyReleaseEvent(QKeyEvent* event) override;
  bool focusNextPrevChild(bool) override { return false; } // Tab is "next tooth"
  void focusInEvent(QFocusEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;
  bool eventFilter(QObject* watched, QEvent* event) override;

 private:
  QWidget* buildHeader();
  QWidget* buildNeutral();
  QWidget* buildWork();
  void connectPanels();
  void shareWidth();
  void placeStrip();
  void showTrack();
  /// What large letters push out of sight comes back with Ctrl and an arrow.
  bool scrollBy(const QKeyEvent& event);
  [[nodiscard]] std::vector<KeyAction> alwaysKeys();
  [[nodiscard]] std::optional<session::Place> placeOf(roster::ChildId child, roster::DayId day);

  [[nodiscard]] bool mayLeave();
  void goOn();
  void refresh();
  void showPanel(ChairPanel& panel);
  void emptyChair();
  void lookUp();
  void takeSide();
  void scannedChild(roster::ChildId child, const std::string& number, const QString& code);
  void scannedOther(const QString& code, bool isNumber);
  void askToChange(roster::ChildId child, const std::string& number);
  [[nodiscard]] bool isPedalKey(const QKeyEvent& event) const;
  void undo();
  void takeBack(const std::string& why);
  void redo();
  void showAfterUndo(roster::ChildId child);
  [[nodiscard]] session::UndoAt here() const;
  void nextTooth();
  void toggleWho();
  void toggleHidden();
  /// Who sits down is asked who it is, also one who was parked.
  bool begin(roster::ChildId child, roster::DayId day, bool asksWho);
  void bringInSight();
  void showTimer();
  void showHeader();
  void fitFlags();
  void makeRoomToAsk();
  void endAsking();

  Context& context_;
  QLabel* header_;
  QLabel* placeWords_; ///< room and number
  QLabel* flags_;
  QLabel* acting_;
  QStackedWidget* outer_;
  QWidget* headerRow_;
  StepTrack* track_;
  QWidget* trackRow_;
  QLineEdit* number_;
  QWidget* right_;
  QWidget* leftSide_;
  QScrollArea* whoScroll_; ///< about the identity panel
  QStackedWidget* left_;
  QStackedWidget* panels_;
  QLabel* hiddenWords_;
  MouthMap* map_;
  TimerView* timer_;
  AskBar* ask_;
  MessageStrip* strip_;
  KeyBar* always_;
  ChairVisit* visit_;
  IdentityView* who_;
  QWidget* blank_;
  IdentityPanel* identity_;
  ScreeningPanel* screening_;
  RecheckPanel* recheck_;
  FieldPanel* field_;
  FinishPanel* finish_;
  QWidget* neutral_;
  QWidget* work_;
  std::function<bool(roster::DayId)> beforeFirst_;
  ChairPanel* panel_ = nullptr;
  std::optional<roster::DayId> day_;
  bool seated_ = false;
  bool wasFlagged_ = false; ///< the key for it keeps its place when it is decided
  bool editing_ = false;    ///< back at the findings by wish
  bool hidden_ = false;
  bool busy_ = false; ///< showing; a selection made meanwhile is shown with it
};

} // namespace gk::ui
