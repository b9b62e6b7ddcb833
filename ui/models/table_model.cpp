#include "ui/models/table_model.h"

#include "ui/support/text.h"

namespace gk::ui {

QString wrappedHeading(const QString& heading) {
  constexpr qsizetype widest = 6;
  QString wrapped;
  qsizetype line = 0;
  const auto words = heading.split(u' ');
  for (const auto& word : words) {
    const bool fits = wrapped.isEmpty() || line + 1 + word.size() <= widest;
    if (!wrapped.isEmpty()) wrapped += fits ? u' ' : u'\n';
    line = fits ? line + 1 + word.size() : word.size();
    wrapped += word;
  }
  return wrapped;
}

void TableModel::show(reports::Table table) {
  beginResetModel();
  table_ = std::move(table);
  endResetModel();
}

int TableModel::rowCount(const QModelIndex& parent) const {
  return parent.isValid() ? 0 : static_cast<int>(table_.rows.size());
}

int TableModel::columnCount(const QModelIndex& parent) const {
  return parent.isValid() ? 0 : static_cast<int>(table_.columns.size());
}

QVariant TableModel::data(const QModelIndex& index, int role) const {
  if (!index.isValid()) return {};
  const auto column = static_cast<std::size_t>(index.column());
  if (role == Qt::TextAlignmentRole)
    return QVariant::fromValue(
        Qt::AlignVCenter | (table_.columns.at(column).isNumber() ? Qt::AlignRight : Qt::AlignLeft));
  if (role == Qt::DisplayRole || role == Qt::ToolTipRole)
    return toQt(reports::cellShown(table_, static_cast<std::size_t>(index.row()), column));
  return {};
}

QVariant TableModel::headerData(int section, Qt::Orientation orientation, int role) const {
  if (orientation != Qt::Horizontal) return {};
  const auto& column = table_.columns.at(static_cast<std::size_t>(section));
  if (role == Qt::TextAlignmentRole)
    return QVariant::fromValue(Qt::AlignVCenter |
                               (column.isNumber() ? Qt::AlignRight : Qt::AlignLeft));
  if (role != Qt::DisplayRole) return {};
  // Words in the last column take what room is left.
  const bool hasRoom = section + 1 == columnCount() && !column.isNumber();
  return hasRoom ? toQt(column.heading) : wrappedHeading(toQt(column.heading));
}

} // namespace gk::ui
