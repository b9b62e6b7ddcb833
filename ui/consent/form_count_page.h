#pragma once

#include "reports/print/table.h"
#include "session/form_verbs.h"
#include "ui/widgets/page.h"

#include <functional>

class QComboBox;
class QLabel;
class QLineEdit;
class QTableView;

namespace gk::ui {

class TableModel;

/// How many forms went out and came back, by school and room, and whom to chase.
class FormCountPage final : public Page {
  Q_OBJECT

 public:
  FormCountPage(Context& context, std::function<base::By()> by, QWidget* parent);

  void begin(std::optional<roster::TermId> term);
  void refresh() override;
  void letGo() override;

 Q_SIGNALS:
  void backedOut();
  /// To the lines of what was handed out.
  void handoutsWanted();

 private:
  void layOut();
  QTableView* table(TableModel* model, const QString& words, const QString& name);
  void readSchools();
  [[nodiscard]] std::optional<roster::SchoolId> school() const;
  void showTables();
  void handOut();
  void print(const reports::Table& table);
  void save(const reports::Table& table, FileHolds holds);

  std::function<base::By()> by_;
  std::optional<roster::TermId> term_;
  std::vector<roster::SchoolId> schools_;
  reports::Table counts_;
  reports::Table chase_;
  QLabel* title_ = nullptr;
  QComboBox* school_ = nullptr;
  QLineEdit* room_ = nullptr;
  QLineEdit* copies_ = nullptr;
  QLineEdit* version_ = nullptr;
  QTableView* countTable_ = nullptr;
  QTableView* chaseTable_ = nullptr;
  TableModel* countModel_ = nullptr;
  TableModel* chaseModel_ = nullptr;
  bool reading_ = false;
};

} // namespace gk::ui
