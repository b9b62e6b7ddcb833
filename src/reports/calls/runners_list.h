#pragma once

#include "base/time/date.h"
#include "reports/print/table.h"

#include <string>
#include <vector>

namespace gk::reports {

/// A child to be fetched. It can hold nothing of consent or health, so that neither can come out.
struct ToFetch {
  std::string room;
  std::string name;
};

/// What the runner carries through the hall: rooms and names, nothing else, room by room.
Table runnersList(const std::string& school, base::Date on, std::vector<ToFetch> children);

} // namespace gk::reports
