#include "office/call/wanted_day.h"

#include "base/text/text.h"

#include <algorithm>
#include <set>
#include <utility>

namespace gk::office {

using base::Error;
using base::ErrorCode;
using base::Result;
using session::Session;

namespace {

using Day = base::Recorded<roster::ClinicDay>;

struct Wanted {
  std::optional<base::Date> date;
  std::optional<roster::SchoolId> school;
  std::optional<int> team;
  std::optional<std::size_t> nth{}; ///< of two that two laptops opened, "#2"
};

Result<Wanted> wantedIn(Session& session, const Call& call) {
  Wanted wanted;
  const auto said = call.textIfAny("--day");
  if (const auto one = said ? numbered(*said) : std::nullopt) {
    const auto date = base::Date::parse(one->name);
    if (!date) return Error{date.error().code, "--day: " + date.error().detail};
    wanted.date = *date;
    wanted.nth = one->nth;
  } else {
    const auto date = call.date("--day");
    if (!date) return date.error();
    wanted.date = *date;
  }
  const auto team = call.whole("--team", 1, 9);
  if (!team) return team.error();
  wanted.team = *team;
  if (const auto code = call.textIfAny("--school")) {
    const auto school = schoolCoded(session, *code);
    if (!school) return school.error();
    wanted.school = school->id;
  }
  return wanted;
}

/// Says with what each of them can be told from the others.
Error whichDay(const std::vector<Day>& days) {
  std::set<roster::SchoolId> schools;
  std::set<int> teams;
  std::set<std::pair<roster::SchoolId, int>> apart;
  std::vector<base::Stamp> stamps;
  for (const auto& day : days) {
    schools.insert(day.value.school);
    teams.insert(day.value.team);
    apart.emplace(day.value.school, day.value.team);
    stamps.push_back(day.stamp);
  }
  const auto date = days.front().value.date;
  std::vector<std::string> ways;
  if (schools.size() > 1) ways.emplace_back("--school CODE");
  if (teams.size() > 1) ways.emplace_back("--team N");
  auto words = std::to_string(days.size()) + " school days are on " + date.words();
  // Two laptops opened one while apart.
  if (apart.size() < days.size())
    words += ", some of them of one school and team; say which with --day, as " +
             numbers(date.iso(), stamps);
  else
    words +=
        "; say which with " + base::join(ways, schools.size() < days.size() ? " and " : " or ");
  return {ErrorCode::callMalformed, words};
}

/// The newest day that fits; asks when there are two of that date.
Result<Day> newestDay(Session& session, const Wanted& wanted) {
  const auto terms = session.terms();
  if (!terms) return terms.error();
  std::vector<Day> fitting;
  for (const auto& term : *terms) {
    const auto days = session.days(term.id);
    if (!days) return days.error();
    for (const auto& day : *days)
      if (!day.value.canceled && day.value.date == wanted.date.value_or(day.value.date) &&
          day.value.school == wanted.school.value_or(day.value.school) &&
          day.value.team == wanted.team.value_or(day.value.team))
        fitting.push_back(day);
  }
  if (fitting.empty())
    return Error{ErrorCode::notFound, "there is no such school day in this logbook; open-day opens "
                                      "one"};
  std::ranges::sort(fitting, {}, [](const Day& day) { return std::pair(day.value.date, day.id); });
  const auto date = fitting.back().value.date;
  std::erase_if(fitting, [&](const Day& day) { return day.value.date != date; });
  if (wanted.nth && *wanted.nth <= fitting.size()) return fitting[*wanted.nth - 1];
  if (wanted.nth)
    return Error{ErrorCode::notFound, "there are only " + std::to_string(fitting.size()) +
                                          " such school days on " + date.words()};
  if (fitting.size() > 1) return whichDay(fitting);
  return fitting.back();
}

} // namespace

std::vector<Option> choosingDay(std::vector<Option> more) {
  std::vector<Option> options{{"--day", "DATE", "the newest day when not given"},
                              {"--school", "CODE", "where several schools had that day"},
                              {"--team", "N", "where two teams had that day"}};
  options.insert(options.end(), more.begin(), more.end());
  return options;
}

Result<Day> wantedDay(Session& session, const Call& call) {
  const auto wanted = wantedIn(session, call);
  if (!wanted) return wanted.error();
  return newestDay(session, *wanted);
}

} // namespace gk::office
