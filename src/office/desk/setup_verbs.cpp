#include "office/call/adding.h"

namespace gk::office {

using base::Result;
using session::Session;

namespace {

Result<Exit> addSchool(const Call& call, const Surroundings& around) {
  const roster::School school{call.text("--name"), call.text("--code")};
  return adding("school", school.name, call, around,
                [&](Session& session, base::By by) { return session.enterSchool(by, school); });
}

Result<std::vector<base::Date>> holidaysOf(const Call& call) {
  std::vector<base::Date> holidays;
  const auto list = call.text("--holidays");
  if (base::trim(list).empty()) return holidays;
  for (const auto text : base::split(list, ',')) {
    const auto day = base::Date::parse(base::trim(text));
    if (!day) return base::Error{day.error().code, "--holidays: " + day.error().detail};
    holidays.push_back(*day);
  }
  return holidays;
}

Result<Exit> addTerm(const Call& call, const Surroundings& around) {
  const auto name = call.text("--name");
  const auto start = call.date("--start");
  if (!start) return start.error();
  const auto end = call.date("--end");
  if (!end) return end.error();
  const auto holidays = holidaysOf(call);
  if (!holidays) return holidays.error();
  const roster::Term term{name, **start, **end, *holidays};
  return adding("term", name, call, around,
                [&](Session& session, base::By by) { return session.enterTerm(by, term); });
}

Result<Exit> addYear(const Call& call, const Surroundings& around) {
  const auto kind = wordOf<roster::YearKind>("--kind", call.text("--kind") + " year");
  if (!kind) return kind.error();
  const auto start = call.date("--start");
  if (!start) return start.error();
  const auto end = call.date("--end");
  if (!end) return end.error();
  const roster::ProgramYear year{call.text("--name"), *kind, **start, **end};
  return adding("year", year.name, call, around,
                [&](Session& session, base::By by) { return session.enterYear(by, year); });
}

Result<Exit> addMember(const Call& call, const Surroundings& around) {
  const auto role = wordOf<roster::Role>("--role", call.text("--role"));
  if (!role) return role.error();
  const auto until = call.date("--license-until");
  if (!until) return until.error();
  auto may = roster::usualTasks(*role);
  if (const auto list = call.textIfAny("--may")) {
    const auto tasks = wordsOf<roster::Task>("--may", *list);
    if (!tasks) return tasks.error();
    may = *tasks;
  }
  const roster::Member member{
      call.text("--name"), call.text("--initials"), *role, call.text("--license"), *until, may};
  return adding("member", member.initials, call, around,
                [&](Session& session, base::By by) { return session.enterMember(by, member); });
}

Result<Exit> addEnrollment(const Call& call, const Surroundings& around) {
  const auto students = call.whole("--students", 0, 100000); // as the schema has it
  if (!students) return students.error();
  const auto grade = roster::parseGrade(call.text("--grade"));
  if (!grade) return base::Error{grade.error().code, "--grade: " + grade.error().detail};
  const auto code = call.text("--school");
  return adding("enrollment", code + " grade " + *grade, call, around,
                [&](Session& session, base::By by) -> Result<roster::EnrollmentId> {
                  const auto term = termCalled(session, call.text("--term"));
                  if (!term) return term.error();
                  const auto school = schoolCoded(session, code);
                  if (!school) return school.error();
                  return session.enterEnrollment(by, {term->id, school->id, *grade, **students});
                });
}

} // namespace

std::vector<Verb> setupVerbs() {
  return {
      {{"add-school", "FILE", "adds a school",
        writing({{"--name", "NAME", "in full", true},
                 {"--code", "CODE", "short, unique, never reused", true}})},
       addSchool},
      {{"add-term", "FILE", "adds a term",
        writing({{"--name", "NAME", "such as \"Fall 2026\"", true},
                 {"--start", "DATE", "first day", true},
                 {"--end", "DATE", "last day", true},
                 {"--holidays", "DATES", "days without school, separated by commas"}})},
       addTerm},
      {{"add-year", "FILE", "adds a year over which each child counts once, for state reports",
        writing({{"--name", "NAME", "such as 2026-27", true},
                 {"--kind", "WORD", "school, grant or fiscal", true},
                 {"--start", "DATE", "first day", true},
                 {"--end", "DATE", "last day", true}})},
       addYear},
      {{"add-member", "FILE", "adds a member of the team",
        writing({{"--name", "NAME", "in full", true},
                 {"--initials", "INITIALS", "unique in the program", true},
                 {"--role", "WORD", "hygienist, dentist, dental assistant, coordinator ...", true},
                 {"--license", "NUMBER", "needed for clinical tasks"},
                 {"--license-until", "DATE", "its last day"},
                 {"--may", "TASKS", "separated by commas; usual for the role when not given"}})},
       addMember},
      {{"add-enrollment", "FILE", "sets how many students a grade has, replacing the earlier count",
        writing({{"--term", "NAME", "the term", true},
                 {"--school", "CODE", "the school", true},
                 {"--grade", "GRADE", "K, 1 to 12", true},
                 {"--students", "N", "how many there are", true}})},
       addEnrollment},
  };
}

} // namespace gk::office
