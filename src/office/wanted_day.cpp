#include "office/wanted_day.h"

#include <algorithm>

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
};

Result<Wanted> wantedIn(Session& session, const Call& call) {
  Wanted wanted;
  const auto date = call.date("--day");
  if (!date) return date.error();
  wanted.date = *date;
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
  std::ranges::stable_sort(fitting, {}, [](const Day& day) { return day.value.date; });
  const auto date = fitting.back().value.date;
  const auto alike =
      std::ranges::count_if(fitting, [&](const Day& day) { return day.value.date == date; });
  if (alike > 1)
    return Error{ErrorCode::callMalformed, std::to_string(alike) + " school days are on " +
                                               date.words() +
                                               "; say which with --school CODE or --team N"};
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
