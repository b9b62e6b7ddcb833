#pragma once

#include "base/time/date.h"
#include "reports/print/table.h"

#include <optional>
#include <string>
#include <vector>

namespace gk::reports {

/// One room at the form desk.
struct FormsOfRoom {
  std::string school;
  std::string room; ///< empty: the school as a whole
  int children = 0;
  std::optional<int> handedOut{}; ///< none: no one entered any
  int yes = 0;                    ///< with limits too
  int no = 0;
  int incomplete = 0;
  int other = 0; ///< withdrawn or on hold
  int left = 0;  ///< came back, of students who have left since
  int missing = 0;
};

/// A child whose form is missing or does not count yet.
struct FormToChase {
  std::string school;
  std::string room;
  std::string grade;
  std::string number;
  std::string name;
  std::string why;
  std::string guardian;
  std::string phone;
  std::string language;
};

/// Rooms in the order given, with a line for all of them. Names no child.
Table formCountTable(const std::string& term, base::Date on, const std::vector<FormsOfRoom>& rooms);

/// By school, room and name. Names children; says so.
Table formsToChaseTable(const std::string& term, base::Date on, std::vector<FormToChase> children);

} // namespace gk::reports
