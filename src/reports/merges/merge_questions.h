#pragma once

#include "reports/records/day_view.h"

namespace gk::reports {

/// Questions that only a person can answer, of a day whose records came from several laptops.
std::vector<MergeQuestion> mergeQuestions(const DayView& view);
std::vector<AnsweredQuestion> answeredQuestions(const DayView& view);

} // namespace gk::reports
