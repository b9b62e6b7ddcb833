#pragma once

#include "reports/retention_totals.h"
#include "reports/table.h"
#include "ui/pages/page.h"

#include <memory>

class QComboBox;
class QLabel;

namespace gk::ui {

class ReportBrowser;

/// What a term came to, and what held of last year's sealants: by school, then by what may
/// explain it. Reads the book once each time it is shown, and counts away from the window.
class TotalsPage final : public Page {
  Q_OBJECT

 public:
  TotalsPage(Context& context, QWidget* parent);

  void refresh() override;
  [[nodiscard]] bool isCounting() const { return counting_ > 0; }

 private:
  void showTerms();
  void showSchools();
  void readTerm();
  void count();
  void countFactor();
  void takeRow(int section, int row);
  void showTables();
  void save();
  [[nodiscard]] reports::Factor factor() const;
  /// None: all schools.
  [[nodiscard]] std::optional<base::Recorded<roster::School>> school() const;

  QComboBox* term_;
  QComboBox* school_;
  QComboBox* factor_;
  QLabel* state_;
  ReportBrowser* browser_;
  std::vector<base::Recorded<roster::Term>> terms_;
  std::vector<base::Recorded<roster::School>> schools_;
  std::shared_ptr<const reports::TermRecords> records_;
  std::vector<reports::Table> totals_;
  std::optional<reports::Table> byFactor_;
  int counting_ = 0;
  int asked_ = 0; ///< answers to older questions are dropped
};

} // namespace gk::ui
