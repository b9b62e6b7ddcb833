#include "roster/program.h"

#include <algorithm>

namespace gk::roster {

std::string shownAmong(const School& school, std::span<const base::Recorded<School>> all) {
  const auto called =
      std::ranges::count_if(all, [&](const auto& one) { return one.value.name == school.name; });
  return called > 1 ? school.name + " (" + school.code + ")" : school.name;
}

} // namespace gk::roster
