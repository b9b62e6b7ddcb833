#include "office/call/adding.h"
#include "office/call/program_options.h"

#include <algorithm>

namespace gk::office {

using base::Error;
using base::ErrorCode;
using base::Result;
using session::Session;

namespace {

constexpr int strongestLight = 5000; // mW/cm2, as hand-held meters show it

Option reasonOption() {
  return {"--reason", "TEXT", "kept in the history with the previous entry", true};
}

Result<Exit> setProgram(const Call& call, const Surroundings& around) {
  return noting(call, around, [&](Session& session, base::By by) -> Result<std::string> {
    const auto known = session.program();
    if (!known && known.error().code != ErrorCode::notFound) return known.error();
    const auto program = programOf(call, known ? known->value : roster::Program{});
    if (!program) return program.error();
    if (!known) {
      if (const auto entered = session.enterProgram(by, *program); !entered) return entered.error();
      return "the program " + program->name;
    }
    const auto done = session.correctProgram(by, *program, call.text("--reason"));
    if (!done) return done.error();
    return "the program " + program->name + "; the previous entry stays in the history";
  });
}

Result<Exit> correctYear(const Call& call, const Surroundings& around) {
  return noting(call, around, [&](Session& session, base::By by) -> Result<std::string> {
    const auto years = session.years();
    if (!years) return years.error();
    const auto name = call.text("--name");
    const auto old =
        std::ranges::find(*years, name, [](const auto& one) { return one.value.name; });
    if (old == years->end()) return Error{ErrorCode::notFound, "no year " + name};
    auto year = old->value;
    year.name = call.textIfAny("--new-name").value_or(year.name);
    if (const auto word = call.textIfAny("--kind")) {
      const auto kind = wordOf<roster::YearKind>("--kind", *word + " year");
      if (!kind) return kind.error();
      year.kind = *kind;
    }
    const auto start = call.date("--start");
    if (!start) return start.error();
    const auto end = call.date("--end");
    if (!end) return end.error();
    year.start = start->value_or(year.start);
    year.end = end->value_or(year.end);
    const auto done = session.correctYear(by, old->id, year, call.text("--reason"));
    if (!done) return done.error();
    return roster::wordsOf(year) + "; what it was before stays in the history";
  });
}

/// The member with what the call gives; the tasks of a new role unless others are given.
Result<roster::Member> memberOf(const Call& call, roster::Member member) {
  member.name = call.textIfAny("--name").value_or(member.name);
  member.initials = call.textIfAny("--new-initials").value_or(member.initials);
  member.license = call.textIfAny("--license").value_or(member.license);
  if (const auto word = call.textIfAny("--role")) {
    const auto role = wordOf<roster::Role>("--role", *word);
    if (!role) return role.error();
    if (member.role != *role) member.may = roster::usualTasks(*role);
    member.role = *role;
  }
  if (const auto list = call.textIfAny("--may")) {
    const auto tasks = wordsOf<roster::Task>("--may", *list);
    if (!tasks) return tasks.error();
    member.may = *tasks;
  }
  const auto until = dateOrNone(call, "--license-until", member.licenseUntil);
  if (!until) return until.error();
  member.licenseUntil = *until;
  return member;
}

Result<Exit> correctMember(const Call& call, const Surroundings& around) {
  return noting(call, around, [&](Session& session, base::By by) -> Result<std::string> {
    const auto old = memberCalled(session, call.text("--initials"));
    if (!old) return old.error();
    const auto member = memberOf(call, old->value);
    if (!member) return member.error();
    const auto done = session.correctMember(by, old->id, *member, call.text("--reason"));
    if (!done) return done.error();
    return member->name + ", " + member->initials +
           (member->licenseUntil ? ", license until " + member->licenseUntil->words() : "");
  });
}

Result<kit::Light> lightOf(const Call& call, kit::Light light) {
  light.tag = call.textIfAny("--tag").value_or(light.tag);
  light.meter = call.textIfAny("--meter").value_or(light.meter);
  if (const auto word = call.textIfAny("--type")) {
    const auto type = wordOf<kit::LightType>("--type", *word);
    if (!type) return type.error();
    light.type = *type;
  }
  const auto least = call.whole("--makers-least", 0, strongestLight);
  if (!least) return least.error();
  if (*least) light.makersLeast = {**least};
  const auto baseline = call.whole("--baseline", 0, strongestLight);
  if (!baseline) return baseline.error();
  if (*baseline) light.baseline = {**baseline};
  for (const auto& [yes, no, value] :
       {std::tuple("--with-sleeve", "--without-sleeve", &light.baselineWithSleeve),
        {"--in-service", "--out-of-service", &light.inService}}) {
    if (call.has(yes) && call.has(no))
      return Error{ErrorCode::callMalformed, std::string(yes) + " or " + no + ", not both"};
    if (call.has(yes) || call.has(no)) *value = call.has(yes);
  }
  return light;
}

Result<Exit> correctLight(const Call& call, const Surroundings& around) {
  const auto tag = call.text("--light");
  return noting(call, around, [&](Session& session, base::By by) -> Result<std::string> {
    const auto old = lightTagged(session, tag);
    if (!old) return old.error();
    const auto light = lightOf(call, old->value);
    if (!light) return light.error();
    const auto done = session.correctLight(by, *old, *light, call.text("--reason"));
    if (!done) return done.error();
    return "light " + light->tag + (light->inService ? "" : ", out of service");
  });
}

} // namespace

std::vector<Verb> correctingVerbs() {
  auto program = programOptions(false);
  program.push_back({"--reason", "TEXT", "needed when the logbook has its program already"});
  return {
      {{"set-program", "FILE", "corrects the program, such as its agreement",
        writing(std::move(program))},
       setProgram},
      {{"correct-year", "FILE", "corrects a school, grant or fiscal year",
        writing({{"--name", "NAME", "which year", true},
                 {"--new-name", "NAME", "its new name"},
                 {"--kind", "WORD", "school, grant or fiscal"},
                 {"--start", "DATE", "first day"},
                 {"--end", "DATE", "last day"},
                 reasonOption()})},
       correctYear},
      {{"correct-member", "FILE", "corrects a team member, such as a license",
        writing({{"--initials", "INITIALS", "who it is", true},
                 {"--name", "NAME", "in full"},
                 {"--new-initials", "INITIALS", "unique in the program"},
                 {"--role", "WORD", "brings its usual tasks, unless --may is given too"},
                 {"--license", "NUMBER", "needed for clinical tasks"},
                 {"--license-until", "DATE", "its last day, or none"},
                 {"--may", "TASKS", "all of them, separated by commas"},
                 reasonOption()})},
       correctMember},
      {{"correct-light", "FILE", "corrects a curing light",
        writing({{"--light", "TAG", "which light", true},
                 {"--tag", "TAG", "its new name"},
                 {"--type", "WORD", "LED, halogen, other"},
                 {"--makers-least", "N", "manufacturer's minimum output, mW/cm2"},
                 {"--baseline", "N", "first good reading, mW/cm2"},
                 {"--meter", "TAG", "the meter of the baseline"},
                 {"--with-sleeve", "", "the baseline was read with a sleeve"},
                 {"--without-sleeve", "", "the baseline was read without one"},
                 {"--in-service", "", "back in use"},
                 {"--out-of-service", "", "not to be used"},
                 reasonOption()})},
       correctLight},
  };
}

} // namespace gk::office
