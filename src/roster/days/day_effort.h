#pragma once

#include "roster/days/clinic_day.h"

#include <chrono>
#include <vector>

namespace gk::roster {

using EffortId = base::Id<struct EffortTag>;
using std::chrono::minutes;

/// All of one role together.
struct RoleTime {
  Role role;
  minutes time;
  bool operator==(const RoleTime&) const = default;
};

/// What a school day took: the time of chairs and people, and lessons given beside the care.
struct DayEffort {
  using Key = EffortId;
  DayId day;
  int chairs = 0;
  minutes open{};               ///< how long the chairs were open, first child in to last one out
  std::vector<RoleTime> people; ///< each role once, in the order of the roles
  int taught = 0;               ///< students given a lesson on oral health
  bool operator==(const DayEffort&) const = default;

  /// Chairs times the hours they were open.
  [[nodiscard]] double chairHours() const;
  /// Of all roles.
  [[nodiscard]] minutes staffTime() const;
};

/// Fails with `numberMalformed` for no chair or more than 50, no hour or a day longer than 24, a
/// role said twice or for more hours than eight people have on such a day, or students beyond any
/// school.
base::Result<base::Done> checkEffort(const DayEffort& effort);

/// "5.5", "5:30" or "5" hours; fails with `numberMalformed`. To the minute, up to 1000 hours.
base::Result<minutes> parseHours(std::string_view text);
/// "5.5" hours.
std::string hoursText(minutes time);

/// "hygienist 6, dental assistant 5.5", in any order; empty is no one. Fails with
/// `numberMalformed` or `textMalformed`, naming the part.
base::Result<std::vector<RoleTime>> parsePeople(std::string_view text);
std::string peopleText(const std::vector<RoleTime>& people);

} // namespace gk::roster
