#pragma once

#include "session/importing/roster_plan.h"

#include <functional>

namespace gk::session {

/// What an import changes of one student, for a person to read before it is written.
struct ChangedLine {
  std::string number;
  std::string name; ///< as the logbook has it
  std::string before;
  std::string after;
  bool isWho; ///< a name or a birth date changes: someone has to look
};

/// One line for each changed student, changed names and birth dates first. `schoolName` says where
/// a student comes from and goes to.
std::vector<ChangedLine>
changedLines(const RosterPlan& plan,
             const std::function<std::string(roster::SchoolId)>& schoolName);

} // namespace gk::session
