#include "reports/calls/runners_list.h"

#include "base/text/text.h"

#include <algorithm>
#include <tuple>

namespace gk::reports {

Table runnersList(const std::string& school, base::Date on, std::vector<ToFetch> children) {
  std::ranges::sort(children, {}, [](const ToFetch& child) {
    return std::tuple(base::numberedPlace(child.room), child.name);
  });
  Table table{"Runner's list: " + school + ", " + on.weekday() + ", " + on.words(),
              {{"Room"}, {"Name"}},
              {"Count the sheets out and in again, then shred them."}};
  for (auto& child : children)
    table.rows.push_back({std::move(child.room), std::move(child.name)});
  return table;
}

} // namespace gk::reports
