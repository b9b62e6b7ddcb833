#pragma once

#include "session/cards/identity.h"

#include <cstddef>
#include <string>

namespace gk::demo {

/// An invented child; every number up to 4,000 has another name. `birthYear` is that of the younger
/// half of the grade: born from September of the year before to August of that year.
vault::Identity inventedIdentity(std::size_t number, int birthYear, const std::string& room);

/// Room and teacher of a grade at a school, such as "6"; two rooms for each grade.
std::string roomOf(const std::string& grade, std::size_t number);

} // namespace gk::demo
