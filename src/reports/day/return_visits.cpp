#include "reports/day/return_visits.h"

#include "reports/day/display_names.h"

#include <algorithm>
#include <set>
#include <tuple>

namespace gk::reports {

std::vector<ReturnVisit> returnVisits(const CloseOut& day) {
  using chairside::DayEnd;
  std::vector<ReturnVisit> out;
  const auto of = [&](const roster::ChildId& child) {
    return std::ranges::find(out, child, &ReturnVisit::child);
  };
  std::set<roster::ChildId> gone;
  for (const auto* lines : {&day.lines, &day.stillToSee})
    for (const auto& line : *lines)
      if (line.hasLeft) gone.insert(line.child);
  for (const auto& line : day.lines)
    if (line.outcome == DayEnd::absent || line.outcome == DayEnd::notReached ||
        line.outcome == DayEnd::onHold)
      out.push_back(
          {line.child, line.shown, line.room, std::string(base::displayName(*line.outcome)), {}});
  for (const auto& tooth : day.unfinished) {
    if (const auto known = of(tooth.child); known != out.end()) {
      known->why += ", " + tooth.words;
      continue;
    }
    out.push_back({tooth.child, tooth.shown, tooth.room, "unfinished: " + tooth.words, tooth.next});
  }
  for (const auto& line : day.stillToSee)
    if (of(line.child) == out.end())
      out.push_back({line.child, line.shown, line.room, "not seen this term", {}});
  std::erase_if(out, [&](const ReturnVisit& visit) { return gone.contains(visit.child); });
  std::ranges::stable_sort(
      out, {}, [](const ReturnVisit& visit) { return std::tie(visit.room, visit.shown); });
  return out;
}

} // namespace gk::reports
