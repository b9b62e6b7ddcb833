#pragma once

#include "roster/program.h"

#include <QComboBox>
#include <QListView>
#include <QStandardItemModel>

#include <span>

namespace gk::ui {

/// No longer offered; shown where it is the value, so that what has it stays as it is.
inline void retire(QComboBox& box, int place) {
  auto* const options = qobject_cast<QStandardItemModel*>(box.model());
  if (!options || place < 0 || place >= box.count()) return;
  options->item(place)->setEnabled(false);
  if (auto* list = qobject_cast<QListView*>(box.view())) list->setRowHidden(place, true);
  if (box.currentIndex() != place) return;
  int next = 0;
  while (next < box.count() && !options->item(next)->isEnabled())
    ++next;
  box.setCurrentIndex(next < box.count() ? next : -1);
}

/// The closed ones of the schools in the box, whose first is at `first`.
inline void retireClosed(QComboBox& box, std::span<const base::Recorded<roster::School>> schools,
                         base::Date on, int first = 0) {
  for (std::size_t i = 0; i < schools.size(); ++i)
    if (roster::isClosed(schools[i].value, on)) retire(box, first + static_cast<int>(i));
}

} // namespace gk::ui
