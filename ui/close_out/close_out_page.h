#pragma once

#include "base/files/files.h"
#include "reports/day/close_out.h"
#include "reports/print/table.h"
#include "ui/lists/report_browser.h"
#include "ui/widgets/page.h"

#include <functional>

class QLabel;
class QPushButton;
class QShortcut;

namespace gk::ui {

/// Can we leave, what blocks, who must be called; and the signatures.
class CloseOutPage final : public Page {
  Q_OBJECT

 public:
  CloseOutPage(Context& context, QWidget* parent);

  /// None: the day that is open.
  void chooseDay(const std::optional<roster::DayId>& day);
  void refresh() override;

 Q_SIGNALS:
  void childChosen(gk::roster::ChildId child, gk::roster::DayId day);
  /// So that a backup is made of itself.
  void daySigned(gk::roster::DayId day);
  /// All that is open, whose own file was moved, so that nothing can be noted in it.
  void savedElsewhere(const QString& path);
  void incidentWanted(std::optional<gk::roster::ChildId> child);

 private:
  /// Lines of one kind, answered together: students without an outcome, or one student's teeth.
  using FixRow = std::vector<std::size_t>; ///< places among the blockers

  void layOut();
  void fold();
  [[nodiscard]] bool wasSeen(const roster::ChildId& child) const;
  [[nodiscard]] reports::Table fixTable(const reports::Table& whole) const;
  /// On the screen alone: who to call, at which number and in which language. A child for each row.
  [[nodiscard]] reports::Table withGuardians(reports::Table whole,
                                             const std::vector<roster::ChildId>& children) const;
  /// Who needs a referral and has none comes first.
  [[nodiscard]] reports::Table referralsToShow(const reports::Table& whole) const;
  [[nodiscard]] std::vector<PartState> steps() const;
  /// Shows what can be done in the part that is chosen; the keys work in every part.
  void showActs(int section);
  void showQuestions();
  void showSheet(const std::vector<reports::Table>& tables);
  [[nodiscard]] std::optional<roster::ChildId> childAt(int section, int row) const;
  /// Says so when the row is no child's.
  [[nodiscard]] std::optional<roster::ChildId> wanted();
  [[nodiscard]] QString nameOf(const roster::ChildId& child) const;
  void fix(std::size_t row);
  void fix(const reports::Blocker& blocker);
  void outcomesOf(const FixRow& row);
  void answer(std::size_t row);
  /// Says it when it was noted.
  bool noted(const base::Result<bool>& result, const QString& words);
  bool countPaper();
  void sayHours();
  void count(std::size_t row);
  void outcome();
  /// False when the person backed out, or it failed.
  bool outcomeOf(const roster::ChildId& child);
  void call();
  void refer();
  void follow(std::size_t row);
  void writeLetters();
  void sign();
  void confirm();
  void save();
  void saveReturns();
  void printReturns();
  void pack();
  void backUp();
  /// A copy of the logbook where the person says, and sealed papers beside it.
  using Beside = std::function<base::Result<base::Path>(session::Snapshot&, const base::Path&)>;
  void writeCopy(const QString& title, const QString& suggestion, Beside beside = {});
  void takeIn();
  void takeIn(const base::Path& from, session::Agreed agreed);
  void sayTaken(const session::Merged& merged);
  void reopen();
  void addLateEntry();

  std::optional<roster::DayId> chosen_;
  std::optional<roster::DayId> day_;
  std::optional<reports::CloseOut> sheet_;
  std::vector<reports::Table> tables_; ///< as they are saved, nothing folded
  std::vector<FixRow> fixes_;
  std::vector<std::size_t> unreferred_; ///< places among the blockers
  QLabel* title_;
  QLabel* equation_;
  QLabel* verdict_;
  ReportBrowser* browser_;
  std::vector<std::pair<QWidget*, std::vector<int>>> acts_; ///< and in which parts each is shown
  QPushButton* sign_ = nullptr;
  QPushButton* outcome_ = nullptr;
  QPushButton* reopen_ = nullptr;
  QPushButton* lateEntry_ = nullptr;
};

} // namespace gk::ui
