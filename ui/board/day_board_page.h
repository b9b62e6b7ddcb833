#pragma once

#include "ui/models/board_model.h"
#include "ui/widgets/page.h"

class QLabel;
class QLineEdit;
class QPushButton;
class QStackedWidget;
class QTableView;

namespace gk::ui {

class AuthorizationForm;
class BoardCard;
class CapButton;
class DayBar;
class LateForm;
class OpenDayForm;
class RunnersPage;

/// Who is waiting, in the chair, done. Type or scan a number, Enter takes the child to the chair.
class DayBoardPage final : public Page {
  Q_OBJECT

 public:
  DayBoardPage(Context& context, QWidget* parent);

  void refresh() override;
  /// The day shown: the one chosen, else the one that is open; none when there is none.
  [[nodiscard]] const std::optional<base::Recorded<roster::ClinicDay>>& day() const { return day_; }
  void chooseDay(roster::DayId day);
  /// At the first child who waits.
  void pointAtNext();
  /// Where numbers, names and codes are typed.
  [[nodiscard]] QLineEdit* searchLine() const { return search_; }
  /// Says how far the equipment check is; the window turns to it.
  [[nodiscard]] CapButton* checkKey() const { return check_; }

 Q_SIGNALS:
  void childChosen(gk::roster::ChildId child, gk::roster::DayId day);

 protected:
  bool eventFilter(QObject* watched, QEvent* event) override;

 private:
  void layOut();
  void readDay();
  void showReadiness(bool closed);
  void showMissing();
  void showBackup();
  void restore(const std::optional<roster::ChildId>& child);
  void take();
  void takeFromBook(const QString& wanted);
  /// By number or name in the whole logbook; says so when no one fits.
  std::optional<roster::ChildId> findInBook(const QString& text, QString question);
  void showVisits();
  void showPace(const std::vector<session::BoardLine>& lines);
  void fitPace();
  void fitTable();
  void askForDay();
  void cancelDay();
  void lateForm();
  void runnersList();
  void enterExam();
  void fromPaper();
  void note(chairside::DayEnd end);
  void withdraw();
  void undo();
  void redo();
  /// What undo may take back here; says why nothing.
  std::optional<session::UndoAt> here();
  base::By by();
  [[nodiscard]] std::optional<session::BoardLine> current() const;
  /// Says so when no child is chosen.
  [[nodiscard]] std::optional<session::BoardLine> wanted();

  std::optional<roster::DayId> chosen_;
  std::optional<base::Recorded<roster::ClinicDay>> day_;
  QStackedWidget* stack_;
  OpenDayForm* openDay_;
  LateForm* late_;
  RunnersPage* runners_;
  AuthorizationForm* dentist_;
  QLabel* title_;
  QLabel* date_;
  CapButton* check_;
  QLabel* pace_;  ///< and when the day ends at it
  QLabel* ready_; ///< what is missing for a first day
  DayBar* counts_;
  QLabel* backup_;
  QLineEdit* search_;
  QTableView* table_;
  BoardCard* card_;
  QPushButton* byDentist_ = nullptr; ///< only where the program waits for a dentist
  BoardModel* model_;
};

} // namespace gk::ui
