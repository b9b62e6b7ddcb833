#pragma once

#include "base/result.h"
#include "roster/program/program.h"

#include <QComboBox>
#include <QListView>
#include <QStandardItemModel>

#include <algorithm>
#include <span>
#include <vector>

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

/// Of the schools in the box, whose first is at `first`, those that the logbook offers no more:
/// closed ones, and in a logbook of one school the others.
inline void retireOthers(QComboBox& box, std::span<const base::Recorded<roster::School>> schools,
                         const base::Result<std::vector<base::Recorded<roster::School>>>& offered,
                         int first = 0) {
  if (!offered) return;
  for (std::size_t i = 0; i < schools.size(); ++i)
    if (std::ranges::find(*offered, schools[i].id, &base::Recorded<roster::School>::id) ==
        offered->end())
      retire(box, first + static_cast<int>(i));
}

} // namespace gk::ui
