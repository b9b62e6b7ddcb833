#pragma once

#include "base/time/date.h"
#include "roster/program/program.h"

#include <string>

namespace gk::roster {

using PlannedDayId = base::Id<struct PlannedDayTag>;

/// A day planned ahead. It opens nothing: the school day is opened on its date, by whoever works.
struct PlannedDay {
  using Key = PlannedDayId;
  TermId term;
  SchoolId school;
  base::Date date;
  int team = 1;
  int chairs = 1;
  std::string people{}; ///< initials of the team, as the coordinator writes them
  std::string note{};   ///< such as where to park; never a child's name
  bool canceled = false;
  bool operator==(const PlannedDay&) const = default;
};

constexpr int mostPlannedChairs = 20;
constexpr int mostPlannedTeams = 9;

/// Fails with `numberMalformed` for chairs or teams outside their limits.
base::Result<base::Done> checkPlan(const PlannedDay& plan);

} // namespace gk::roster
