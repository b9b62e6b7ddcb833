#pragma once

#include "base/time/clock.h"
#include "base/time/date.h"

#include <span>
#include <string>
#include <string_view>

namespace gk::reports {

/// A whole day in a calendar.
struct CalendarDay {
  std::string uid; ///< the same each time that it is exported
  base::Date day;
  std::string summary;
  std::string location;
  std::string description;
  bool canceled = false;
  int sequence = 0; ///< how often it was changed
};

/// As RFC 5545 has it: lines of at most 75 octets that end with CR LF and are folded between whole
/// characters, text escaped, stamps in UTC. It names no child.
std::string icalendar(std::span<const CalendarDay> days, base::Instant made);

/// One content line, folded: for tests.
std::string foldedLine(std::string_view line);
/// "\\", "\;", "\," and "\n" (RFC 5545 section 3.3.11).
std::string escapedText(std::string_view text);

} // namespace gk::reports
