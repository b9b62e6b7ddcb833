#include "office/adding.h"

#include "office/close_out_json.h"
#include "reports/close_out_tables.h"
#include "reports/render.h"

#include <algorithm>

namespace gk::office {

using base::Error;
using base::ErrorCode;
using base::Result;
using session::Session;

namespace {

using Day = base::Recorded<roster::ClinicDay>;

Result<roster::TermId> termOf(Session& session, const Call& call, base::Date date) {
  if (const auto name = call.textIfAny("--term")) {
    const auto term = termCalled(session, *name);
    if (!term) return term.error();
    return term->id;
  }
  const auto terms = session.terms();
  if (!terms) return terms.error();
  for (const auto& term : *terms)
    if (term.value.start <= date && date <= term.value.end) return term.id;
  return Error{ErrorCode::ruleDate, date.words() + " is in no term of this logbook; add the term, "
                                                   "or give --term NAME and --reason TEXT"};
}

Result<Exit> openDay(const Call& call, const Surroundings& around) {
  const auto date = call.date("--date");
  if (!date) return date.error();
  const auto team = call.whole("--team", 1, 9); // as the schema has it
  if (!team) return team.error();
  const auto code = call.text("--school");
  return adding("school day", code + " " + (*date)->iso(), call, around,
                [&](Session& session, base::By by) -> Result<roster::DayId> {
                  const auto school = schoolCoded(session, code);
                  if (!school) return school.error();
                  const auto term = termOf(session, call, **date);
                  if (!term) return term.error();
                  return session.openDay(by, {.term = *term,
                                              .school = school->id,
                                              .date = **date,
                                              .team = team->value_or(1),
                                              .reason = call.text("--reason")});
                });
}

struct Wanted {
  std::optional<base::Date> date;
  std::optional<roster::SchoolId> school;
  std::optional<int> team;
};

Result<Wanted> wantedDay(Session& session, const Call& call) {
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
      if (!day.value.cancelled && day.value.date == wanted.date.value_or(day.value.date) &&
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

Result<Exit> closeOutSheet(const Call& call, const Surroundings& around) {
  auto secret = passphrase(call, around);
  if (!secret) return secret.error();
  auto session = openToRead(call, around);
  if (!session) return session.error();
  const auto wanted = wantedDay(*session, call);
  if (!wanted) return wanted.error();
  const auto day = newestDay(*session, *wanted);
  if (!day) return day.error();
  if (*secret)
    if (const auto open = session->unlock(std::move(**secret)); !open) return open.error();
  const auto records = session->dayRecords(day->id);
  if (!records) return records.error();
  const auto names = session->names(*records);
  if (!names) return names.error();
  const auto sheet = reports::closeOut(*records, *names);
  if (call.wantsJson())
    writeJson(sheet, around.out);
  else
    around.out << reports::toText(reports::closeOutTables(sheet));
  return sheet.mayClose() ? Exit::fine : Exit::findings;
}

} // namespace

std::vector<Verb> dayVerbs() {
  return {
      {{"open-day", "FILE", "opens a day at a school",
        writing({{"--school", "CODE", "the school", true},
                 {"--date", "DATE", "the day of care", true},
                 {"--team", "N", "2 for a second team at the same school"},
                 {"--term", "NAME", "needed when the date is in no term"},
                 {"--reason", "TEXT", "needed on a holiday, a weekend or outside the term"}})},
       openDay},
      {{"close-out",
        "FILE",
        "the close-out sheet; 1 when the day does not reconcile",
        {{"--day", "DATE", "the newest day when not given"},
         {"--school", "CODE", "where several schools had that day"},
         {"--team", "N", "where two teams had that day"},
         passphraseOption()}},
       closeOutSheet},
  };
}

} // namespace gk::office
