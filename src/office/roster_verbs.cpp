#include "base/files.h"
#include "office/adding.h"
#include "session/roster_plan.h"

namespace gk::office {

using base::Result;
using session::PlannedChild;
using session::Session;

namespace {

void tell(const std::vector<PlannedChild>& plan, const Call& call, const Surroundings& around) {
  int forms = 0;
  for (const auto& planned : plan)
    if (planned.form) ++forms;
  if (call.wantsJson()) {
    JsonWriter json(around.out);
    json.beginObject();
    json.field("children", plan.size());
    json.field("forms", forms);
    json.arrayField("incomplete");
    for (const auto& planned : plan) {
      if (planned.incompleteBecause.empty()) continue;
      json.beginObject();
      json.field("line", planned.line);
      json.field("number", planned.child.number);
      json.field("why", planned.incompleteBecause);
      json.endObject();
    }
    json.endArray();
    json.endObject();
    return;
  }
  around.out << "Imported " << base::counted(std::ssize(plan), "child", "children") << " and "
             << base::counted(forms, "form", "forms") << ".\n";
  for (const auto& planned : plan)
    if (!planned.incompleteBecause.empty())
      around.out << "Line " << planned.line << ", child " << planned.child.number
                 << ": entered as incomplete, " << planned.incompleteBecause << ".\n";
}

Result<Exit> importRoster(const Call& call, const Surroundings& around) {
  const auto text = base::readFile(call.operand(1));
  if (!text) return text.error();
  auto lines = roster::readRoster(*text, around.clock.now().date());
  if (!lines) return lines.error();
  auto secret = passphraseNeeded(call, around);
  if (!secret) return secret.error();
  auto session = openToWrite(call, around);
  if (!session) return session.error();
  const auto term = termCalled(*session, call.text("--term"));
  if (!term) return term.error();
  const auto school = schoolCoded(*session, call.text("--school"));
  if (!school) return school.error();
  if (const auto open = session->unlock(std::move(*secret)); !open) return open.error();
  const auto by = author(*session, call, around);
  if (!by) return by.error();
  const auto plan = planRoster(*session, *lines,
                               {*term, school->id, around.clock.now().date(),
                                call.has("--ages-confirmed"), call.has("--others-confirmed")});
  if (!plan)
    return base::Error{plan.error().code,
                       plan.error().detail +
                           " (--others-confirmed and --ages-confirmed confirm that)"};
  const auto areOthers =
      call.has("--others-confirmed") ? session::Confirmed::yes : session::Confirmed::no;
  // Ages were asked about when it was planned.
  if (const auto entered = session->enrolRoster(*by, session::newChildren(*plan),
                                                session::Confirmed::yes, areOthers);
      !entered)
    return entered.error();
  tell(*plan, call, around);
  return Exit::fine;
}

/// The whole act that brought the child; the session refuses it once anything hangs on one of them.
Result<Exit> takeBackRoster(const Call& call, const Surroundings& around) {
  return noting(call, around, [&](Session& session, base::By by) -> Result<std::string> {
    const auto child = childNumbered(session, call.text("--child"));
    if (!child) return child.error();
    const auto done = session.takeBackImport(by, *child, call.text("--reason"));
    if (!done) return done.error();
    return "the import that brought " + call.text("--child") +
           " is undone; it stays in the history";
  });
}

} // namespace

std::vector<Verb> rosterVerbs() {
  return {
      {{"import-roster", "FILE CSV",
        "imports a school's list of children and forms, all lines or none",
        writing({{"--school", "CODE", "the school", true},
                 {"--term", "NAME", "the term for which the forms came back", true},
                 {"--ages-confirmed", "", "the school confirms ages unusual for the grade"},
                 {"--others-confirmed", "",
                  "those similar to a child on the roster are different children"},
                 passphraseOption()})},
       importRoster},
      {{"take-back-import", "FILE",
        "undoes a whole roster import if nothing is recorded on its students",
        writing({{"--child", "NUMBER", "any student of that import", true},
                 {"--reason", "TEXT", "why", true}})},
       takeBackRoster},
  };
}

} // namespace gk::office
