#pragma once

#include "base/time/date.h"

#include <string>
#include <string_view>

namespace gk::roster {

/// The grade on a day of a student who was in `grade` on another: one further for each first of
/// July between the two, when school years turn. Empty past grade 12.
std::string gradeNow(std::string_view grade, base::Date asOf, base::Date on);

} // namespace gk::roster
