#include "roster/days/day_effort.h"

#include "base/text/text.h"
#include "roster/team/display_names.h"

#include <algorithm>
#include <cmath>

namespace gk::roster {

using base::Error;
using base::ErrorCode;
using base::Result;

namespace {

constexpr int mostChairs = 50;
constexpr minutes wholeDay{24 * 60};
constexpr int mostHours = 1000;
constexpr int mostStudents = 5000;
constexpr int mostPeople = 8;      // of one role
constexpr minutes besides{6 * 60}; // with setting up, packing and the way

Error malformed(std::string why) {
  return {ErrorCode::numberMalformed, std::move(why)};
}

} // namespace

double DayEffort::chairHours() const {
  return chairs * static_cast<double>(open.count()) / 60;
}

minutes DayEffort::staffTime() const {
  minutes sum{};
  for (const auto& one : people)
    sum += one.time;
  return sum;
}

Result<base::Done> checkEffort(const DayEffort& effort) {
  if (effort.chairs < 1 || effort.chairs > mostChairs)
    return malformed("chairs are 1 to " + std::to_string(mostChairs));
  if (effort.open <= minutes(0) || effort.open > wholeDay)
    return malformed("chair hours are more than 0 and at most 24");
  if (effort.taught < 0 || effort.taught > mostStudents)
    return malformed("students taught are 0 to " + std::to_string(mostStudents));
  std::vector<Role> seen;
  for (const auto& one : effort.people) {
    const auto name = std::string(base::displayName(one.role));
    if (std::ranges::find(seen, one.role) != seen.end())
      return malformed("the hours of " + name + " are listed twice; add them together");
    if (one.time <= minutes(0)) return malformed("the hours of " + name + " are not above 0");
    if (one.time > mostPeople * (effort.open + besides))
      return malformed(hoursText(one.time) + " hours of " + name + " are more than " +
                       std::to_string(mostPeople) + " people have on such a day");
    seen.push_back(one.role);
  }
  return base::Done{};
}

Result<minutes> parseHours(std::string_view text) {
  const auto trimmed = base::trim(text);
  const auto wrong = [&] {
    return malformed("\"" + std::string(trimmed) + "\" is no time; write hours, like 5.5 or 5:30");
  };
  if (const auto colon = trimmed.find(':'); colon != std::string_view::npos) {
    const auto hours = base::parseInt(trimmed.substr(0, colon));
    const auto rest = base::parseInt(trimmed.substr(colon + 1));
    if (!hours || !rest || *hours < 0 || *hours > mostHours || *rest < 0 || *rest > 59)
      return wrong();
    return minutes(*hours * 60 + *rest);
  }
  const auto hours = base::parseDouble(trimmed);
  if (!hours || *hours < 0 || *hours > mostHours) return wrong();
  return minutes(std::lround(*hours * 60));
}

std::string hoursText(minutes time) {
  const bool isWhole = time.count() % 60 == 0;
  const bool isTenth = time.count() % 6 == 0;
  return base::fixed(static_cast<double>(time.count()) / 60, isWhole ? 0 : isTenth ? 1 : 2);
}

Result<std::vector<RoleTime>> parsePeople(std::string_view text) {
  std::vector<RoleTime> people;
  if (base::trim(text).empty()) return people;
  for (const auto part : base::split(text, ',')) {
    const auto words = base::trim(part);
    const auto gap = words.find_last_of(' ');
    if (gap == std::string_view::npos)
      return malformed("\"" + std::string(words) +
                       "\": write a role and its hours, like hygienist 6");
    const auto role = base::parseName<Role>(base::folded(words.substr(0, gap)));
    if (!role) return role.error();
    const auto time = parseHours(words.substr(gap + 1));
    if (!time) return time.error();
    if (*time > minutes(0)) people.push_back({*role, *time});
  }
  std::ranges::stable_sort(people, {}, &RoleTime::role);
  return people;
}

std::string peopleText(const std::vector<RoleTime>& people) {
  std::vector<std::string> parts;
  for (const auto& one : people)
    parts.push_back(std::string(base::displayName(one.role)) + " " + hoursText(one.time));
  return base::join(parts, ", ");
}

} // namespace gk::roster
