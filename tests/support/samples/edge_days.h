#pragma once

#include "reports/sample.h"

#include <string>
#include <vector>

namespace gk::test {

/// A school day at the edge of what can be, and its close-out.
struct DayAtEdge {
  std::string name;
  reports::CloseOut sheet;
};

/// No one, no one seen, hours and costs of nothing, more paper back than went out, a day that does
/// not add up, one with every exception of a tooth, one school's last day with all still to see.
std::vector<DayAtEdge> daysAtEdge();

} // namespace gk::test
