#pragma once

#include "ui/support/text.h"

#include <QComboBox>
#include <QLineEdit>

#include <optional>
#include <vector>

namespace gk::ui {

inline std::string lineText(const QLineEdit* line) {
  return toStd(line->text().trimmed());
}

/// What the choice stands for, in the order in which it was filled; none where nothing is chosen.
template <class Id>
std::optional<Id> chosenOf(const QComboBox* box, const std::vector<Id>& ids) {
  const auto at = static_cast<std::size_t>(box->currentIndex());
  return box->currentIndex() >= 0 && at < ids.size() ? std::optional(ids[at]) : std::nullopt;
}

} // namespace gk::ui
