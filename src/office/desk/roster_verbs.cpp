#include "base/files/files.h"
#include "office/call/adding.h"
#include "roster/display_names.h"
#include "roster/list/roster_cells.h"
#include "session/importing/roster_draft.h"

namespace gk::office {

using base::Error;
using base::ErrorCode;
using base::Result;
using session::RosterDraft;
using session::RosterPlan;
using session::Session;

namespace {

void tellHeld(JsonWriter& json, const RosterPlan& plan) {
  json.arrayField("held");
  for (const auto& row : plan.held) {
    json.beginObject();
    json.field("line", row.line);
    json.arrayField("problems");
    for (const auto& problem : row.problems)
      json.value(problem.where + ": " + problem.what);
    json.endArray();
    json.endObject();
  }
  json.endArray();
}

template <class Each>
void tellIncomplete(const RosterPlan& plan, Each each) {
  for (const auto& one : plan.entering)
    if (!one.incompleteBecause.empty()) each(one.line, one.child.number, one.incompleteBecause);
  for (const auto& one : plan.changed)
    if (!one.incompleteBecause.empty()) each(one.line, one.card.number, one.incompleteBecause);
}

/// Columns by their place: a heading may be anything, a name too.
std::vector<std::string> notesOf(const RosterDraft& draft) {
  std::vector<std::string> places;
  for (std::size_t i = 1; i <= draft.layout().columns.size(); ++i)
    places.push_back("column " + std::to_string(i));
  auto notes = draft.notes();
  for (auto& note : roster::leftOutNotes(draft.leftOut(), places))
    notes.push_back(std::move(note));
  return notes;
}

void tellJson(const RosterDraft& draft, bool isPreview, std::ostream& out) {
  const auto& plan = draft.plan();
  JsonWriter json(out);
  json.beginObject();
  json.field("preview", isPreview);
  json.field("children", plan.entering.size());
  json.field("changed", plan.changed.size());
  json.field("unchanged", plan.unchanged);
  json.field("not_on_list", plan.missing.size());
  json.field("outside_grades", plan.outside.size());
  json.field("forms", plan.forms());
  for (std::size_t i = 0; i < base::enumCount<session::RosterChange>; ++i) {
    const auto change = static_cast<session::RosterChange>(i);
    auto name = "changed_" + std::string(base::nameOf(change));
    std::ranges::replace(name, ' ', '_');
    json.field(name, plan.count(change));
  }
  json.arrayField("incomplete");
  tellIncomplete(plan, [&](std::size_t line, const std::string& number, const std::string& why) {
    json.beginObject();
    json.field("line", line);
    json.field("number", number);
    json.field("why", why);
    json.endObject();
  });
  json.endArray();
  tellHeld(json, plan);
  json.arrayField("skipped");
  for (const auto& row : draft.reading().skipped) {
    json.beginObject();
    json.field("line", row.line);
    json.field("why", row.why);
    json.endObject();
  }
  json.endArray();
  json.arrayField("notes");
  for (const auto& note : notesOf(draft))
    json.value(note);
  json.endArray();
  json.endObject();
}

void tell(const RosterDraft& draft, const Call& call, const Surroundings& around) {
  const bool isPreview = call.has("--preview");
  if (call.wantsJson()) return tellJson(draft, isPreview, around.out);
  const auto& plan = draft.plan();
  auto& out = around.out;
  for (const auto& note : notesOf(draft))
    out << note << '\n';
  for (const auto& row : draft.reading().skipped)
    out << "Line " << row.line << " skipped: " << row.why << ".\n";
  for (const auto& row : plan.held)
    for (const auto& problem : row.problems)
      out << "Line " << row.line << " waits, " << problem.where << ": " << problem.what << ".\n";
  if (isPreview)
    out << "Preview, nothing was written: ";
  else
    out << "Imported " << base::counted(plan.entering.size(), "student", "students") << " and "
        << base::counted(plan.forms(), "form", "forms") << ". ";
  out << countsOf(plan) << ", " << base::counted(plan.held.size(), "row waits", "rows wait")
      << ".\n";
  tellIncomplete(plan, [&](std::size_t line, const std::string& number, const std::string& why) {
    out << "Line " << line << ", student " << number << ": entered as incomplete, " << why << ".\n";
  });
}

/// "name, birth date, left out" as columns from the left, in place of the headings.
Result<base::Done> sayColumns(const Call& call, RosterDraft& draft) {
  auto layout = draft.layout();
  if (const auto words = call.textIfAny("--columns")) {
    layout.columns.clear();
    for (const auto word : base::split(*words, ',')) {
      const auto name = base::trim(word);
      const auto& shown = base::displayNamesOf<roster::RosterColumn>();
      const auto at = std::ranges::find(shown, name);
      if (at == shown.end())
        return Error{ErrorCode::callMalformed,
                     "--columns takes, for each column from the left, one of: " +
                         base::join({shown.begin(), shown.end()}, ", ")};
      layout.columns.push_back(static_cast<roster::RosterColumn>(at - shown.begin()));
    }
  }
  if (const auto order = call.textIfAny("--dates")) {
    const auto read = wordOf<roster::DateOrder>("--dates", *order);
    if (!read) return read.error();
    layout.dates = *read;
  }
  if (const auto early = call.textIfAny("--before-kindergarten")) {
    const auto read = wordOf<roster::EarlyGrades>("--before-kindergarten", *early);
    if (!read) return read.error();
    layout.early = *read;
  }
  if (const auto grade = call.textIfAny("--grade")) {
    const auto read = roster::readGrade(*grade);
    if (!read || read->isEarly)
      return Error{ErrorCode::callMalformed, "--grade takes K or 1 to 12"};
    layout.gradeOfAll = read->grade;
  }
  if (const auto room = call.textIfAny("--room")) layout.roomOfAll = *room;
  if (const auto of = call.textIfAny("--rows-of"))
    layout.rowsOf = base::folded(*of) == "all" ? std::string() : *of;
  draft.setLayout(layout);
  return base::Done{};
}

/// "12=1043-0, 15=1077-2": that the child on line 12 is number 1043-0 of the logbook, or is not.
Result<base::Done> sayPairs(Session& session, const Call& call, std::string_view option,
                            const RosterDraft& draft, session::RosterAim& aim) {
  const auto words = call.textIfAny(option);
  if (!words) return base::Done{};
  for (const auto word : base::split(*words, ',')) {
    const auto parts = base::split(base::trim(word), '=');
    const auto line = parts.size() == 2 ? base::parseInt(parts[0]) : base::Result<std::int64_t>(-1);
    const auto row = std::ranges::find_if(draft.rows(), [&](const auto& one) {
      return line && *line >= 0 && one.line == static_cast<std::size_t>(*line);
    });
    if (row == draft.rows().end())
      return Error{ErrorCode::callMalformed,
                   std::string(option) + " takes lines of the list and numbers of the logbook, "
                                         "such as 12=1043-0"};
    const auto child = childNumbered(session, std::string(parts[1]));
    if (!child) return child.error();
    aim.answers.push_back(
        {static_cast<std::size_t>(row - draft.rows().begin()), *child, option == "--same"});
  }
  return base::Done{};
}

Result<Exit> importRoster(const Call& call, const Surroundings& around) {
  const auto text = base::readFile(call.operand(1));
  if (!text) return text.error();
  auto secret = passphraseNeeded(call, around);
  if (!secret) return secret.error();
  const bool isPreview = call.has("--preview");
  auto session = isPreview ? openToRead(call, around) : openToWrite(call, around);
  if (!session) return session.error();
  const auto term = termCalled(*session, call.text("--term"));
  if (!term) return term.error();
  const auto school = schoolCoded(*session, call.text("--school"));
  if (!school) return school.error();
  auto draft = RosterDraft::open(*session, *text, school->id);
  if (!draft) return draft.error();
  if (const auto said = sayColumns(call, *draft); !said) return said.error();
  if (const auto open = session->unlock(std::move(*secret)); !open) return open.error();
  session::RosterAim aim{*term,
                         school->id,
                         around.clock.now().date(),
                         call.has("--ages-confirmed"),
                         call.has("--others-confirmed"),
                         {}};
  for (const auto* option : {"--same", "--different"})
    if (const auto said = sayPairs(*session, call, option, *draft, aim); !said) return said.error();
  if (const auto looked = draft->look(*session, aim); !looked) return looked.error();
  const auto& held = draft->plan().held;
  if (const auto file = call.textIfAny("--problems"); file && !held.empty())
    if (const auto saved = base::replaceFile(*file, draft->problems()); !saved)
      return saved.error();
  if (!held.empty() && !isPreview && !call.has("--accept-good")) {
    auto error = roster::problemsError(held);
    error.detail += " (--accept-good imports the other rows; --same, --different, "
                    "--others-confirmed and --ages-confirmed answer questions)";
    return error;
  }
  if (!isPreview) {
    const auto by = author(*session, call, around);
    if (!by) return by.error();
    if (const auto written = draft->write(*session, *by); !written) return written.error();
  }
  tell(*draft, call, around);
  return Exit::fine;
}

/// The whole act that brought the child; the session refuses it once anything hangs on one of them.
Result<Exit> takeBackRoster(const Call& call, const Surroundings& around) {
  return noting(call, around, [&](Session& session, base::By by) -> Result<std::string> {
    const auto child = childNumbered(session, call.text("--child"));
    if (!child) return child.error();
    const auto done = session.takeBackImport(by, *child, call.text("--reason"));
    if (!done) return done.error();
    return "the import that brought or changed " + call.text("--child") +
           " is undone; it stays in the history";
  });
}

} // namespace

std::vector<Verb> rosterVerbs() {
  return {
      {{"import-roster", "FILE LIST",
        "imports a school's list: new students, changes of known ones and forms, as one act",
        writing(
            {{"--school", "CODE", "the school", true},
             {"--term", "NAME", "the term for which the forms came back", true},
             {"--preview", "", "says what would change and which rows wait; writes nothing"},
             {"--accept-good", "", "imports the rows without a problem; the others wait"},
             {"--problems", "FILE", "saves the rows that wait as CSV, with what is wrong"},
             {"--dates", "ORDER", "month first or day first, where both fit"},
             {"--columns", "NAMES", "what each column is, from the left: name, birth date ..."},
             {"--grade", "GRADE", "of all rows, where no column is the grade, as on a class list"},
             {"--room", "ROOM", "of all rows, where no column is the room"},
             {"--rows-of", "SCHOOL", "of a list of several schools: as the list calls it, or all"},
             {"--before-kindergarten", "HOW", "hold, kindergarten or leave out: rows of TK and PK"},
             {"--same", "LINE=NUMBER",
              "that row is that student of the logbook; several with commas"},
             {"--different", "LINE=NUMBER", "that row is another student; several with commas"},
             {"--ages-confirmed", "", "the school confirms ages unusual for the grade"},
             {"--others-confirmed", "",
              "those similar to a student on the roster are different students"},
             passphraseOption()})},
       importRoster},
      {{"take-back-import", "FILE",
        "undoes a whole roster import if nothing is recorded on its students since",
        writing({{"--child", "NUMBER", "any student of that import", true},
                 {"--reason", "TEXT", "why", true}})},
       takeBackRoster},
  };
}

} // namespace gk::office
