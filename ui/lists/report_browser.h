#pragma once

#include "reports/print/table.h"

#include <QString>
#include <QStringList>
#include <QWidget>

#include <vector>

class QLabel;
class QListWidget;
class QTextEdit;
class QTableView;

namespace gk::ui {

class PlotView;
class TableModel;

/// Reports one at a time: their names on the left, the chosen one with its notes on the right.
/// Enter goes from the names into the table, and there takes the row.
/// What the list says of a part beside its name, where parts are steps of a work.
struct PartState {
  enum class Mark { record, open, urgent, done };
  int section; ///< its place among the tables
  QString words;
  QString state; ///< "14 to do", "none today"
  Mark mark = Mark::record;
};

class ReportBrowser final : public QWidget {
  Q_OBJECT

 public:
  explicit ReportBrowser(QWidget* parent = nullptr);

  /// One name for each table. The section and row that were chosen stay so where they can.
  void setReports(const QStringList& names, std::vector<reports::Table> tables);
  /// As above; the list shows the parts in this order and with their state. Every section once.
  void setSteps(std::vector<PartState> parts, std::vector<reports::Table> tables);
  void choose(int section);
  /// A page of its own before the tables, under `name` at the head of the list, while it is shown.
  void setFront(QWidget* front, const QString& name);
  void showFront(bool isThere); ///< from the next reports on
  [[nodiscard]] bool isAtFront() const;
  void chooseFirst();

  [[nodiscard]] const std::vector<reports::Table>& tables() const { return tables_; }
  [[nodiscard]] int section() const; ///< -1 without tables
  [[nodiscard]] int row() const;     ///< -1 without one

 Q_SIGNALS:
  void taken(int section, int row, int column);
  void shown(int section);

 protected:
  void resizeEvent(QResizeEvent* event) override;
  bool eventFilter(QObject* watched, QEvent* event) override;

 private:
  void fill(const QStringList& names, std::vector<reports::Table> tables, int oldSection);
  [[nodiscard]] int rowOf(int section) const;
  [[nodiscard]] int rowsBefore() const { return hasFront_ ? 1 : 0; }
  void showSection();
  void fitColumns();
  void stretchLast();
  void fitNotes();

  int lastWide_ = 0; ///< what the words of the last column need
  int fittedAt_ = 0; ///< its width as the rows were fitted
  std::vector<reports::Table> tables_;
  std::vector<PartState> parts_; ///< in the order of the list; none: the tables' own
  QListWidget* names_;
  QWidget* front_ = nullptr;
  QString frontName_;
  bool hasFront_ = false;
  bool isFrontNext_ = false;
  QLabel* title_;
  QTableView* table_;
  QLabel* none_;
  QTextEdit* notes_;
  PlotView* plot_;
  TableModel* model_;
};

} // namespace gk::ui
