#include "ui/lists/last_column.h"

#include "ui/look/style.h"

#include <QEvent>
#include <QHeaderView>
#include <QTableView>
#include <QTimer>

#include <algorithm>

namespace gk::ui {

LastColumn::LastColumn(QTableView& table, std::optional<GivesWay> before)
    : QObject(&table), table_(table), before_(before) {
  table_.viewport()->installEventFilter(this);
  const auto* model = table_.model();
  connect(model, &QAbstractItemModel::modelReset, this, &LastColumn::fitSoon);
  connect(model, &QAbstractItemModel::dataChanged, this, &LastColumn::fitSoon);
  connect(model, &QAbstractItemModel::rowsInserted, this, &LastColumn::fitSoon);
  connect(model, &QAbstractItemModel::columnsInserted, this, &LastColumn::fitSoon);
  style::whenDressed(&table_, [this] { fitSoon(); });
}

bool LastColumn::eventFilter(QObject* watched, QEvent* event) {
  if (event->type() == QEvent::Resize) fitSoon();
  return QObject::eventFilter(watched, event);
}

void LastColumn::fitSoon() {
  if (isSoon_) return;
  isSoon_ = true;
  QTimer::singleShot(0, this, [this] {
    isSoon_ = false;
    fit();
  });
}

void LastColumn::fit() {
  auto* header = table_.horizontalHeader();
  const int last = header->logicalIndex(header->count() - 1);
  if (last < 0) return;
  const QAbstractItemView& cells = table_; // whose hint anyone may ask
  const int wanted = std::max(cells.sizeHintForColumn(last), header->sectionSizeHint(last)) + 1;
  const int room = table_.viewport()->width();
  const auto others = [&] {
    const int all = header->length(); // lays out what is still to be; only then a size is right
    return all - header->sectionSize(last);
  };
  if (before_) {
    const int beside = others() - header->sectionSize(before_->column);
    header->resizeSection(
        before_->column,
        std::clamp(room - beside - wanted, style::px(before_->least), style::px(before_->usual)));
  }
  const bool fits = room - others() >= wanted;
  header->setStretchLastSection(fits);
  if (!fits) header->resizeSection(last, wanted);
}

} // namespace gk::ui
