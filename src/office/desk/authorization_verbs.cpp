#include "office/call/adding.h"

#include "base/files/files.h"
#include "base/text/csv.h"

namespace gk::office {

using base::Error;
using base::Result;
using chairside::Authorization;
using chairside::AuthorizedHow;
using session::Session;

namespace {

/// What all lines of the list have in common.
Result<Authorization> commonPart(Session& session, const roster::Program& program,
                                 const Call& call) {
  const auto dentist = memberCalled(session, call.text("--dentist"));
  if (!dentist) return dentist.error();
  auto how = AuthorizedHow::examAtSchool;
  if (const auto word = call.textIfAny("--how")) {
    const auto named = wordOf<AuthorizedHow>("--how", *word);
    if (!named) return named.error();
    how = *named;
  }
  const auto on = call.date("--on");
  if (!on) return on.error();
  const auto until = call.date("--until");
  if (!until) return until.error();
  return Authorization{.child = roster::ChildId(base::Uuid{}),
                       .teeth = {},
                       .dentist = dentist->id,
                       .how = how,
                       .on = **on,
                       .until = until->value_or((*on)->plusDays(program.authorizationDays))};
}

/// One authorization for each line; the first that cannot be is named with its line.
Result<std::vector<Authorization>> readList(Session& session, const base::CsvTable& table,
                                            const Authorization& common,
                                            const roster::Program& program, base::Date today) {
  const auto number = table.column("number");
  if (!number) return number.error();
  const auto teeth = table.column("teeth");
  if (!teeth) return teeth.error();
  std::vector<Authorization> list;
  for (const auto& row : table.rows) {
    const auto at = [&](const Error& error, std::string_view column = {}) {
      return Error{error.code, "line " + std::to_string(row.line) +
                                   (column.empty() ? "" : ", column " + std::string(column)) +
                                   ": " + error.detail + "; nothing was imported"};
    };
    const auto child = childNumbered(session, row.cells[*number]);
    if (!child) {
      // Not which: a phone number may stand there.
      const bool isUnknown = child.error().code == base::ErrorCode::notFound;
      return at({child.error().code,
                 isUnknown ? "no student of this logbook has this number" : child.error().detail},
                "number");
    }
    const auto named = dentition::parseTeeth(row.cells[*teeth], program.notation);
    if (!named) return at(named.error(), "teeth");
    auto one = common;
    one.child = *child;
    one.teeth = *named;
    if (const auto sound = chairside::checkAuthorization(one, program, today); !sound)
      return at(sound.error());
    list.push_back(std::move(one));
  }
  return list;
}

Result<Exit> importAuthorizations(const Call& call, const Surroundings& around) {
  const auto text = base::readFile(call.operand(1));
  if (!text) return text.error();
  const auto table = base::parseCsv(*text);
  if (!table) return table.error();
  auto session = openToWrite(call, around);
  if (!session) return session.error();
  const auto by = author(*session, call, around);
  if (!by) return by.error();
  const auto program = session->program();
  if (!program) return program.error();
  const auto common = commonPart(*session, program->value, call);
  if (!common) return common.error();
  const auto list = readList(*session, *table, *common, program->value, around.clock.now().date());
  if (!list) return list.error();
  const auto entered = session->authorize(*by, *list);
  if (!entered) return entered.error();
  if (call.wantsJson()) {
    JsonWriter json(around.out);
    json.beginObject();
    json.field("children", entered->size());
    json.field("until", common->until.iso());
    json.endObject();
  } else {
    around.out << "Imported authorizations for "
               << base::counted(std::ssize(*entered), "student", "students") << ", through "
               << common->until.words() << ".\n";
  }
  return Exit::fine;
}

} // namespace

std::vector<Verb> authorizationVerbs() {
  return {
      {{"import-authorizations", "FILE CSV",
        "imports a dentist's list of teeth, columns number and teeth, all lines or none",
        writing({{"--dentist", "INITIALS", "authorizing dentist", true},
                 {"--on", "DATE", "when it was given", true},
                 {"--how", "WORD", "exam at school (usual), record review, phone call"},
                 {"--until", "DATE", "its last day; the program's longest when not given"}})},
       importAuthorizations},
  };
}

} // namespace gk::office
