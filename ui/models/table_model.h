#pragma once

#include "reports/print/table.h"

#include <QAbstractTableModel>

namespace gk::ui {

/// A report as a table on the screen: its cells as they are, nothing computed.
class TableModel final : public QAbstractTableModel {
  Q_OBJECT

 public:
  using QAbstractTableModel::QAbstractTableModel;

  void show(reports::Table table);
  [[nodiscard]] const reports::Table& table() const { return table_; }

  [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
  [[nodiscard]] int columnCount(const QModelIndex& parent = {}) const override;
  [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;
  [[nodiscard]] QVariant headerData(int section, Qt::Orientation orientation,
                                    int role) const override;

 private:
  reports::Table table_;
};

/// A heading over several lines, so that its column stays as narrow as its numbers.
QString wrappedHeading(const QString& heading);

} // namespace gk::ui
