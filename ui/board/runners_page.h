#pragma once

#include "reports/print/table.h"
#include "ui/widgets/page.h"

class QLabel;
class QTableView;

namespace gk::ui {

class TableModel;

/// Whom to fetch next: what the runner carries through the hall, to be seen, printed and saved.
/// Names and rooms only.
class RunnersPage final : public Page {
  Q_OBJECT

 public:
  RunnersPage(Context& context, QWidget* parent);

  /// Children of this day who wait, or whose visit is begun and not ended.
  void begin(const base::Recorded<roster::ClinicDay>& day);
  void refresh() override;

 Q_SIGNALS:
  void backedOut();

 private:
  void print();
  void save();

  std::optional<base::Recorded<roster::ClinicDay>> day_;
  reports::Table list_;
  QLabel* title_;
  QTableView* table_;
  TableModel* model_;
};

} // namespace gk::ui
