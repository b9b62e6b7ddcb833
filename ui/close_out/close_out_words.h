#pragma once

#include "reports/day/close_out.h"

#include <QString>

namespace gk::ui {

/// What stands above the close-out's parts, and beside its letters in their list.
QString equationWords(const reports::DayEquation& sums);
QString verdictWords(const reports::CloseOut& sheet);

} // namespace gk::ui
