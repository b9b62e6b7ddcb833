#pragma once

#include "reports/print/table.h"
#include "reports/report.h"
#include "session/reporting/year_records.h"
#include "ui/widgets/page.h"

#include <functional>
#include <memory>

namespace gk::session {
class Snapshot;
}

class QCheckBox;
class QComboBox;
class QLabel;
class QPushButton;
class QVBoxLayout;

namespace gk::ui {

class FilterChips;
class OverviewView;
class ReportBrowser;
class WhatIfPanel;

/// A term counted: by school, then by what may explain it. Reads the book once each time it is
/// shown and counts it away from the window; a choice is then answered from the facts in memory.
class TotalsPage final : public Page {
  Q_OBJECT

 public:
  TotalsPage(Context& context, QWidget* parent);

  void refresh() override;
  void letGo() override;
  [[nodiscard]] bool isCounting() const { return counting_ > 0; }

 private:
  struct Counted : reports::CountedTerm {
    std::shared_ptr<const reports::TermRecords> records;
  };

  void buildChoices(QVBoxLayout* into);
  /// The headlines stand before the first part of the term's report.
  void showOverview();
  void showTerms();
  void readTerm();
  /// Ticks "small schools as one" where the term last went out so; what was chosen since stays.
  void recallMerge(roster::TermId term);
  void countTerm(roster::TermId term);
  /// It was canceled, or the book cannot be read.
  void notCounted(const base::Error& why);
  void countReport();
  void countTerms();
  void countYear();
  void turnPictures();
  /// Of the other two pictures, of the term and the school that are chosen.
  void countTrend();
  /// Every term so far, which is more than the page has at hand.
  void readTerms(std::function<void(const base::Result<std::vector<reports::TermTotals>>&)> then);
  /// `then`, of long work that is counted here; not called when `asked` was asked again since.
  template <class Then>
  auto answered(const int& asked, Then then) {
    ++counting_;
    return [this, &asked, question = asked, then = std::move(then)](auto answer) {
      --counting_;
      if (question == asked) then(std::move(answer));
    };
  }
  void showYears();
  void fillFilters();
  void showChips();
  /// Precondition: counted.
  [[nodiscard]] reports::TermChoice termChoice() const;
  void showTables();
  void takeCell(int section, int row, int column);
  void trace(int section, int row);
  void followUp(int section, int row);
  /// Everyone whom the lot or light of the row touched, with guardians and phones.
  void recall();
  /// The rows behind a number, which name children, as paper.
  void printList();
  [[nodiscard]] bool isAtDetails() const;
  /// For `counted_`; none when the book cannot say, which is then shown.
  [[nodiscard]] std::optional<reports::ReportOptions> options();
  [[nodiscard]] bool isForFunder() const; ///< of a term, and so may leave the program
  void showBehind(reports::Table rows);
  /// As `make` has them, once every name is opened, which is long work.
  void showNamed(std::function<reports::Table(const reports::Names&)> make);
  void makeNamed(std::function<base::Result<reports::Table>(session::Snapshot&)> make);
  /// Whether what is saved is noted as issued.
  enum class Going { draft, out };
  void save(Going going);
  [[nodiscard]] reports::Factor factor() const;
  [[nodiscard]] reports::ReportKind kind() const;
  [[nodiscard]] reports::Choice choice() const;
  [[nodiscard]] QString notApplied() const; ///< chosen, and not used by this report
  [[nodiscard]] QString idleWords() const;  ///< that it is not; nothing where all is used
  [[nodiscard]] QString choiceWords() const;

  QComboBox* term_ = nullptr;
  QComboBox* kind_ = nullptr;
  QComboBox* factor_ = nullptr;
  QComboBox* year_ = nullptr; ///< of the state's report, and hidden with its words in the others
  std::vector<std::pair<reports::Factor, QComboBox*>> filters_; ///< by which sealants are chosen
  FilterChips* chips_ = nullptr;
  QLabel* state_;
  ReportBrowser* browser_ = nullptr;
  OverviewView* overview_ = nullptr;
  WhatIfPanel* whatIf_ = nullptr;
  QCheckBox* merge_ = nullptr;
  QPushButton* turn_ = nullptr;   ///< only above the headlines
  QPushButton* recall_ = nullptr; ///< only where lots and lights are traced
  QPushButton* print_ = nullptr;  ///< only while details are looked at
  std::vector<base::Recorded<roster::Term>> terms_;
  std::shared_ptr<const Counted> counted_;
  std::vector<base::Recorded<roster::ProgramYear>> years_;
  std::shared_ptr<const session::YearRead> yearRead_; ///< of the state's report that is shown
  std::vector<reports::Table> tables_;                ///< of the report chosen
  std::optional<reports::Release> release_;
  int exposed_ = 0; ///< as reports::Report
  std::optional<roster::TermId> recalled_;
  std::optional<reports::Table> behind_;
  int counting_ = 0;
  int termAsked_ = 0;   ///< answers to older questions are dropped: of the term,
  int reportAsked_ = 0; ///< and of what is counted for the report that is chosen
};

} // namespace gk::ui
