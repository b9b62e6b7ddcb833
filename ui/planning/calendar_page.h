#pragma once

#include "reports/sheets/plan_forecast.h"
#include "reports/sheets/plan_table.h"
#include "session/session.h"
#include "ui/widgets/page.h"

#include <map>
#include <set>

class QComboBox;
class QLabel;
class QLineEdit;
class QTableView;

namespace gk::ui {

class CapButton;
class TableModel;

/// A term planned ahead, day by day: where, how many chairs, who, and what may be expected there.
class CalendarPage final : public Page {
  Q_OBJECT

 public:
  CalendarPage(Context& context, QWidget* parent);

  void refresh() override;
  void letGo() override {} // it names no student

 private:
  void layOut();
  QLineEdit* line(const QString& words, const QString& name);
  void readTerms();
  /// What earlier terms came to, in another thread; then the days again.
  void countPast();
  void showDays();
  void showChosen();
  void clearForm();
  void change();
  void save();
  void cancelPlan();
  void print();
  void exportDays();
  [[nodiscard]] std::optional<roster::TermId> term() const;
  [[nodiscard]] std::optional<base::Recorded<roster::PlannedDay>> chosen() const;
  std::optional<roster::PlannedDay> typed();
  /// Students may still be seen on it.
  [[nodiscard]] bool isAhead(const roster::PlannedDay& day) const;
  std::optional<reports::PlannedLine> lineOf(const base::Recorded<roster::PlannedDay>& plan);
  /// Asks what the core asks; false when backed out or refused.
  template <class Act>
  bool asking(Act act);

  std::vector<roster::TermId> terms_;
  std::vector<roster::SchoolId> schools_;
  std::vector<base::Recorded<roster::PlannedDay>> plans_;
  std::optional<reports::PastCare> past_;
  std::map<roster::SchoolId, std::set<roster::ChildId>> seen_; ///< this term, as last read
  std::optional<roster::TermId> pastOf_; ///< the term that `past_` was counted for
  bool isPart_ = false;                  ///< one school's students alone are here, and no totals
  std::optional<roster::PlannedDayId> changing_;
  reports::Table days_;
  reports::Table packing_;
  QComboBox* term_ = nullptr;
  QTableView* table_ = nullptr;
  TableModel* model_ = nullptr;
  QLabel* words_ = nullptr;
  QComboBox* school_ = nullptr;
  QLineEdit* date_ = nullptr;
  QLineEdit* team_ = nullptr;
  QLineEdit* chairs_ = nullptr;
  QLineEdit* people_ = nullptr;
  QLineEdit* note_ = nullptr;
  QLineEdit* reason_ = nullptr;
  CapButton* save_ = nullptr;
  bool reading_ = false;
};

} // namespace gk::ui
