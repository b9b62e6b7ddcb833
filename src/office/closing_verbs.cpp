#include "office/adding.h"

#include "office/wanted_day.h"

#include <algorithm>

namespace gk::office {

using base::Error;
using base::ErrorCode;
using base::Result;
using session::Session;

namespace {

/// Opens the first operand, does `work(session, by)`, and says `words` when it went well.
template <class Work>
Result<Exit> noting(const std::string& words, const Call& call, const Surroundings& around,
                    Work work) {
  auto session = openToWrite(call, around);
  if (!session) return session.error();
  const auto by = author(*session, call);
  if (!by) return by.error();
  const Result<base::Done> done = work(*session, *by);
  if (!done) return done.error();
  if (call.wantsJson()) {
    JsonWriter json(around.out);
    json.beginObject();
    json.field("noted", words);
    json.endObject();
  } else {
    around.out << "Noted: " << words << ".\n";
  }
  return Exit::fine;
}

Result<kit::LotId> lotNumbered(Session& session, const std::string& number) {
  const auto lots = session.lots();
  if (!lots) return lots.error();
  const auto lot =
      std::ranges::find_if(*lots, [&](const auto& row) { return row.value.lot == number; });
  if (lot == lots->end())
    return Error{ErrorCode::notFound, "there is no lot " + number + "; add it first"};
  return lot->id;
}

Result<Exit> enterHours(const Call& call, const Surroundings& around) {
  const auto chairs = call.whole("--chairs", 0, 50); // as the schema has it
  if (!chairs) return chairs.error();
  const auto open = roster::parseHours(call.text("--open"));
  if (!open) return Error{open.error().code, "--open: " + open.error().detail};
  auto people = roster::parsePeople(call.text("--people"));
  if (!people) return Error{people.error().code, "--people: " + people.error().detail};
  const auto taught = call.whole("--taught", 0, 100000);
  if (!taught) return taught.error();
  return noting("time and people of the day", call, around,
                [&](Session& session, base::By by) -> Result<base::Done> {
                  const auto day = wantedDay(session, call);
                  if (!day) return day.error();
                  return session.enterEffort(by, {.day = day->id,
                                                  .chairs = **chairs,
                                                  .open = *open,
                                                  .people = *people,
                                                  .taught = taught->value_or(0)});
                });
}

Result<Exit> countLot(const Call& call, const Surroundings& around) {
  const auto opened = call.whole("--opened", 0, 10000);
  if (!opened) return opened.error();
  const auto left = call.whole("--left", 0, 10000);
  if (!left) return left.error();
  const auto number = call.text("--lot");
  return noting(number + (*left == 0 ? ", none left: closed" : " counted"), call, around,
                [&](Session& session, base::By by) -> Result<base::Done> {
                  const auto day = wantedDay(session, call);
                  if (!day) return day.error();
                  const auto lot = lotNumbered(session, number);
                  if (!lot) return lot.error();
                  return session.countLot(
                      by,
                      {.day = day->id, .lot = *lot, .opened = opened->value_or(0), .left = *left});
                });
}

Result<Exit> setLotAside(const Call& call, const Surroundings& around) {
  const auto number = call.text("--lot");
  return noting(number + " set aside", call, around,
                [&](Session& session, base::By by) -> Result<base::Done> {
                  const auto lot = lotNumbered(session, number);
                  if (!lot) return lot.error();
                  return session.quarantineLot(by, *lot, call.text("--reason"));
                });
}

Result<Exit> setEligibility(const Call& call, const Surroundings& around) {
  const auto percent = call.whole("--percent", 0, 100);
  if (!percent) return percent.error();
  const auto code = call.text("--school");
  return noting("meal eligibility of " + code, call, around,
                [&](Session& session, base::By by) -> Result<base::Done> {
                  const auto term = termCalled(session, call.text("--term"));
                  if (!term) return term.error();
                  const auto school = schoolCoded(session, code);
                  if (!school) return school.error();
                  return session.enterEligibility(
                      by, {term->id, school->id, **percent, call.text("--source")});
                });
}

} // namespace

std::vector<Verb> closingVerbs() {
  return {
      {{"enter-hours", "FILE", "notes chairs, people and lessons of a day",
        choosingDay(writing({{"--chairs", "N", "how many", true},
                             {"--open", "HOURS", "how long they were open, 5.5 or 5:30", true},
                             {"--people", "LIST", "\"hygienist 6, dental assistant 5.5\"", true},
                             {"--taught", "N", "pupils given a lesson on oral health"}}))},
       enterHours},
      {{"count-lot", "FILE", "counts a lot's packages at the end of a day; 0 left closes it",
        choosingDay(writing({{"--lot", "NUMBER", "as on the package", true},
                             {"--opened", "N", "on that day"},
                             {"--left", "N", "at its end"}}))},
       countLot},
      {{"set-lot-aside", "FILE", "quarantines a lot: from now on it is refused",
        writing({{"--lot", "NUMBER", "as on the package", true},
                 {"--reason", "TEXT", "such as the recall notice", true}})},
       setLotAside},
      {{"set-eligibility", "FILE", "a school's pupils with free or reduced-price meals, per cent",
        writing({{"--term", "NAME", "the term", true},
                 {"--school", "CODE", "the school", true},
                 {"--percent", "N", "0 to 100", true},
                 {"--source", "TEXT", "who published it, and of which year", true}})},
       setEligibility},
  };
}

} // namespace gk::office
