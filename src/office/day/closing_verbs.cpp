#include "office/call/adding.h"

#include "office/call/wanted_day.h"
#include "reports/records/inputs.h"

#include <algorithm>

namespace gk::office {

using base::Error;
using base::ErrorCode;
using base::Result;
using session::Session;

namespace {

/// "Cobble Lantern Elementary, November 17, 2026", and that it is signed.
std::string dayWords(const reports::DayRecords& records) {
  return records.school.name + ", " + records.day.date.words() +
         (records.closures.empty()
              ? ""
              : "; the day is signed, and the previous entry stays in the history");
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
  return noting(call, around, [&](Session& session, base::By by) -> Result<std::string> {
    const auto day = wantedDay(session, call);
    if (!day) return day.error();
    const auto said = session.enterEffort(by, {.day = day->id,
                                               .chairs = **chairs,
                                               .open = *open,
                                               .people = *people,
                                               .taught = taught->value_or(0)});
    if (!said) return said.error();
    const auto records = session.dayRecords(day->id);
    if (!records) return records.error();
    return "staff and chair hours of " + dayWords(*records);
  });
}

Result<Exit> enterCosts(const Call& call, const Surroundings& around) {
  return noting(call, around, [&](Session& session, base::By by) -> Result<std::string> {
    const auto day = wantedDay(session, call);
    if (!day) return day.error();
    const auto records = session.dayRecords(day->id);
    if (!records) return records.error();
    std::vector<roster::RoleTime> people;
    if (!records->efforts.empty()) people = records->efforts.back().value.people;
    auto lines = roster::parseCosts(call.text("--costs"), people);
    if (!lines) return Error{lines.error().code, "--costs: " + lines.error().detail};
    const roster::DayCost cost{day->id, *std::move(lines)};
    if (const auto said = session.enterCosts(by, cost); !said) return said.error();
    return "costs of " + dayWords(*records) + ": " +
           (cost.lines.empty() ? "none" : roster::costsText(cost.lines));
  });
}

Result<Exit> reopenDay(const Call& call, const Surroundings& around) {
  return noting(call, around, [&](Session& session, base::By by) -> Result<std::string> {
    const auto day = wantedDay(session, call);
    if (!day) return day.error();
    const auto own = ownPin(session, by, call, around);
    if (!own) return own.error();
    const auto reopened = session.reopenDay(by, day->id, call.text("--reason"), *own);
    if (!reopened) return reopened.error();
    const auto records = session.dayRecords(day->id);
    if (!records) return records.error();
    return dayWords(*records) + " is open again; two people sign it again at its close-out";
  });
}

Result<Exit> addLateEntry(const Call& call, const Surroundings& around) {
  return noting(call, around, [&](Session& session, base::By by) -> Result<std::string> {
    const auto day = wantedDay(session, call);
    if (!day) return day.error();
    roster::Addendum entry{.day = day->id, .text = call.text("--text")};
    if (const auto said = call.textIfAny("--child")) {
      const auto child = childNumbered(session, *said);
      if (!child) return child.error();
      entry.child = *child;
    }
    const auto own = ownPin(session, by, call, around);
    if (!own) return own.error();
    const auto added = session.addAddendum(by, entry, *own);
    if (!added) return added.error();
    const auto records = session.dayRecords(day->id);
    if (!records) return records.error();
    return "late entry of " + records->school.name + ", " + records->day.date.words();
  });
}

/// What is not given stays as it was counted before on that day.
Result<Exit> countLot(const Call& call, const Surroundings& around) {
  const auto opened = call.whole("--opened", 0, 10000);
  if (!opened) return opened.error();
  const auto left = call.whole("--left", 0, 10000);
  if (!left) return left.error();
  if (!*opened && !*left)
    return Error{ErrorCode::callMalformed, "count-lot: say --opened, --left or both"};
  const auto number = call.text("--lot");
  return noting(call, around, [&](Session& session, base::By by) -> Result<std::string> {
    const auto day = wantedDay(session, call);
    if (!day) return day.error();
    const auto lots = lotsWanted(session, call);
    if (!lots) return lots.error();
    const auto lot = lots->front().id;
    const auto records = session.dayRecords(day->id);
    if (!records) return records.error();
    kit::LotCount count{.day = day->id, .lot = lot};
    for (const auto& row : records->lotCounts)
      if (row.value.lot == lot) count = row.value;
    count.opened = opened->value_or(count.opened);
    if (*left) count.left = *left;
    if (const auto noted = session.countLot(by, count); !noted) return noted.error();
    return number + (count.left == 0 ? ", none left: closed" : " counted") + ", " +
           dayWords(*records);
  });
}

Result<Exit> setLotAside(const Call& call, const Surroundings& around) {
  const auto number = call.text("--lot");
  return noting(call, around, [&](Session& session, base::By by) -> Result<std::string> {
    const auto lots = lotsWanted(session, call);
    if (!lots) return lots.error();
    // One that two laptops entered is on the list twice, and set aside with this one.
    const auto aside = session.quarantineLot(by, lots->front().id, call.text("--reason"));
    if (!aside) return aside.error();
    return number + " set aside; report FILE trace --lot " + number +
           " lists who was treated with it";
  });
}

Result<Exit> setEligibility(const Call& call, const Surroundings& around) {
  const auto percent = call.whole("--percent", 0, 100);
  if (!percent) return percent.error();
  const auto code = call.text("--school");
  return noting(call, around, [&](Session& session, base::By by) -> Result<std::string> {
    const auto term = termCalled(session, call.text("--term"));
    if (!term) return term.error();
    const auto school = schoolCoded(session, code);
    if (!school) return school.error();
    const auto set =
        session.enterEligibility(by, {term->id, school->id, **percent, call.text("--source")});
    if (!set) return set.error();
    return "meal eligibility of " + code + ", " + term->value.name;
  });
}

Result<Exit> setBackground(const Call& call, const Surroundings& around) {
  roster::Background said{roster::ChildId(base::Uuid{}), {}};
  if (const auto word = call.textIfAny("--payer")) {
    const auto payer = wordOf<roster::Payer>("--payer", base::folded(*word));
    if (!payer) return payer.error();
    said.payer = *payer;
  }
  const auto groups =
      wordsOf<roster::Ethnicity>("--ethnicity", base::folded(call.text("--ethnicity")));
  if (!groups) return groups.error();
  said.groups = *groups;
  const auto number = call.text("--child");
  return noting(call, around, [&](Session& session, base::By by) -> Result<std::string> {
    const auto child = childNumbered(session, number);
    if (!child) return child.error();
    said.child = *child;
    if (const auto noted = session.enterBackground(by, said); !noted) return noted.error();
    return "background of " + number + ", replacing what was known";
  });
}

} // namespace

std::vector<Verb> closingVerbs() {
  return {
      {{"enter-hours", "FILE", "records chairs, staff hours and lessons of a day",
        choosingDay(writing({{"--chairs", "N", "how many", true},
                             {"--open", "HOURS", "how long they were open, 5.5 or 5:30", true},
                             {"--people", "LIST", "\"hygienist 6, dental assistant 5.5\"", true},
                             {"--taught", "N", "students receiving oral health education"}}))},
       enterHours},
      {{"enter-costs", "FILE", "records what a day cost, replacing what was entered",
        choosingDay(writing(
            {{"--costs", "LIST",
              "\"staff 412.50, supplies 60\"; also travel, equipment, other; \"hygienist 42/h\" "
              "is the day's hours at that rate; empty for none",
              true}}))},
       enterCosts},
      {{"count-lot", "FILE", "counts a lot's packages at the end of a day; 0 left closes it",
        choosingDay(writing({{"--lot", "NUMBER", "as on the package", true},
                             materialOption(),
                             {"--opened", "N", "on that day; this, the next, or both"},
                             {"--left", "N", "at its end"}}))},
       countLot},
      {{"reopen-day", "FILE", "reopens a signed day; two people then sign it again",
        choosingDay(writing({{"--reason", "TEXT", "what has to change", true}}))},
       reopenDay},
      {{"add-late-entry", "FILE",
        "adds a late entry to a signed day, dated and signed by its author",
        choosingDay(writing({{"--text", "TEXT", "what is added, no names", true},
                             {"--child", "NUMBER", "whom it is about, if one student"}}))},
       addLateEntry},
      {{"set-lot-aside", "FILE", "sets a lot aside: it can no longer be used",
        writing({{"--lot", "NUMBER", "as on the package", true},
                 materialOption(),
                 {"--reason", "TEXT", "such as the recall notice", true}})},
       setLotAside},
      {{"set-eligibility", "FILE", "a school's students with free or reduced-price meals, percent",
        writing({{"--term", "NAME", "the term", true},
                 {"--school", "CODE", "the school", true},
                 {"--percent", "N", "a whole number, 0 to 100", true},
                 {"--source", "TEXT", "who published it, and of which year", true}})},
       setEligibility},
      {{"set-background", "FILE",
        "records ethnicity and payer from a student's form, replacing earlier ones",
        writing({{"--child", "NUMBER", "as on the slip", true},
                 {"--ethnicity", "WORDS",
                  "separated by commas, as in a roster; not stated when not given"},
                 {"--payer", "WORD",
                  "medicaid, chip, private insurance, no insurance, not known (usual)"}})},
       setBackground},
  };
}

} // namespace gk::office
