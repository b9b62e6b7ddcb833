#include "ui/keys/flow_layout.h"

#include <QWidget>

#include <algorithm>
#include <utility>
#include <vector>

namespace gk::ui {

FlowLayout::FlowLayout(int spacing, QWidget* parent) : QLayout(parent), spacing_(spacing) {
  // As high as its rows: without this a column would give it the height of one row.
  if (parent) {
    auto policy = parent->sizePolicy();
    policy.setHeightForWidth(true);
    policy.setVerticalPolicy(QSizePolicy::Minimum);
    parent->setSizePolicy(policy);
  }
}

FlowLayout::~FlowLayout() = default;

void FlowLayout::addItem(QLayoutItem* item) {
  items_.emplace_back(item);
}

QLayoutItem* FlowLayout::itemAt(int index) const {
  return index >= 0 && index < count() ? items_[static_cast<std::size_t>(index)].get() : nullptr;
}

QLayoutItem* FlowLayout::takeAt(int index) {
  if (!itemAt(index)) return nullptr;
  auto* taken = items_[static_cast<std::size_t>(index)].release();
  items_.erase(items_.begin() + index);
  return taken;
}

int FlowLayout::heightForWidth(int width) const {
  return arrange({0, 0, width, 0}, false);
}

void FlowLayout::setGeometry(const QRect& rect) {
  QLayout::setGeometry(rect);
  arrange(rect, true);
}

QSize FlowLayout::sizeHint() const {
  const auto edges = contentsMargins();
  QSize size(0, 0);
  for (const auto& item : items_)
    if (!item->isEmpty())
      size = {size.width() + item->sizeHint().width() + spacing_,
              std::max(size.height(), item->sizeHint().height())};
  return size + QSize(edges.left() + edges.right(), edges.top() + edges.bottom());
}

QSize FlowLayout::minimumSize() const {
  const auto edges = contentsMargins();
  QSize size(0, 0);
  for (const auto& item : items_)
    if (!item->isEmpty()) size = size.expandedTo(item->minimumSize());
  return size + QSize(edges.left() + edges.right(), edges.top() + edges.bottom());
}

int FlowLayout::arrange(const QRect& rect, bool move) const {
  const auto room = rect.marginsRemoved(contentsMargins());
  int x = room.left();
  int y = room.top();
  int high = 0;
  std::vector<std::pair<QLayoutItem*, QRect>> row;
  const auto endRow = [&] {
    // Words stand at the middle of the keys beside them.
    for (auto& [item, box] : row)
      if (move) item->setGeometry(box.translated(0, (high - box.height()) / 2));
    row.clear();
  };
  for (const auto& item : items_) {
    if (item->isEmpty()) continue;
    const auto wanted = item->sizeHint();
    const int width = std::min(wanted.width(), room.width());
    if (x > room.left() && x + width > room.left() + room.width()) {
      endRow();
      x = room.left();
      y += high + spacing_;
      high = 0;
    }
    row.emplace_back(item.get(), QRect(x, y, width, wanted.height()));
    x += width + spacing_;
    high = std::max(high, wanted.height());
  }
  endRow();
  return y + high - rect.top() + contentsMargins().bottom();
}

} // namespace gk::ui
