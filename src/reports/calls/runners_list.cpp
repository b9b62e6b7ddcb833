#include "reports/calls/runners_list.h"

#include <algorithm>
#include <tuple>

namespace gk::reports {

namespace {

/// Room 10 after room 9: by the number it begins with, then as written.
std::tuple<bool, int, std::string> placeOf(const std::string& room) {
  int number = 0;
  std::size_t digits = 0;
  for (; digits < room.size() && digits < 6 && room[digits] >= '0' && room[digits] <= '9'; ++digits)
    number = 10 * number + (room[digits] - '0');
  return {digits == 0, number, room};
}

} // namespace

Table runnersList(const std::string& school, base::Date on, std::vector<ToFetch> children) {
  std::ranges::sort(children, {}, [](const ToFetch& child) {
    return std::tuple(placeOf(child.room), child.name);
  });
  Table table{"Runner's list: " + school + ", " + on.weekday() + ", " + on.words(),
              {{"Room"}, {"Name"}},
              {"Count the sheets out and in again, then shred them."}};
  for (auto& child : children)
    table.rows.push_back({std::move(child.room), std::move(child.name)});
  return table;
}

} // namespace gk::reports
