#include "office/call/adding.h"

#include "office/call/wanted_day.h"
#include "office/tables/tables_json.h"
#include "reports/day/close_out_tables.h"
#include "reports/print/render.h"

#include <algorithm>

namespace gk::office {

using base::Error;
using base::ErrorCode;
using base::Result;
using session::Session;

namespace {

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
  return adding("school day", code + " " + (*date)->words(), call, around,
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

Result<Exit> closeOutSheet(const Call& call, const Surroundings& around) {
  auto secret = passphrase(call, around);
  if (!secret) return secret.error();
  auto session = openToRead(call, around);
  if (!session) return session.error();
  const auto day = wantedDay(*session, call);
  if (!day) return day.error();
  if (*secret)
    if (const auto open = session->unlock(std::move(**secret)); !open) return open.error();
  const auto records = session->dayRecords(day->id);
  if (!records) return records.error();
  const auto names = session->names(*records);
  if (!names) return names.error();
  const auto sheet = reports::closeOut(*records, *names);
  if (call.wantsJson())
    writeTablesJson("Close-out: " + sheet.school, "", reports::closeOutFile(sheet), Digits::all,
                    around.out);
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
      {{"close-out", "FILE", "the close-out sheet; 1 when the day does not reconcile",
        choosingDay({passphraseOption()})},
       closeOutSheet},
  };
}

} // namespace gk::office
