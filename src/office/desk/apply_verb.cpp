#include "base/files/files.h"
#include "office/call/adding.h"
#include "roster/display_names.h"
#include "session/applying/applying.h"

namespace gk::office {

using base::Error;
using base::ErrorCode;
using base::Result;
using session::Session;
using session::SetupApplied;
using session::SetupKind;

namespace {

/// What was done, and what a first day still waits for.
struct ApplyOutcome {
  SetupApplied applied;
  std::vector<session::FirstDayState> toDo;
};

/// One document that is applied by a call.
struct ApplyWork {
  const Call& call;
  const Surroundings& around;
  const session::SetupDocument& document;

  [[nodiscard]] bool isPreview() const { return call.has("--preview"); }

  /// Whoever acts; while a program is set up it may be one whom the document itself enters.
  [[nodiscard]] Result<session::SetupAim> aimIn(Session& session, bool isNew) const {
    session::SetupAim aim{.folder = base::Path(call.operand(1)).parent_path(),
                          .today = around.clock.now().date(),
                          .isNew = isNew};
    const auto by = author(session, call, around);
    if (by) {
      aim.by = *by;
      return aim;
    }
    aim.initials = call.text("--by");
    if (by.error().code == ErrorCode::notFound && session::entersMember(document, aim.initials))
      return aim;
    return by.error();
  }

  Result<ApplyOutcome> in(Session& session, bool isNew = false) const {
    if (call.has("--clock-confirmed")) session.confirmClock();
    const auto aim = aimIn(session, isNew);
    if (!aim) return aim.error();
    if (!document.rosters.empty() && !session.isUnlocked()) {
      auto secret = passphraseNeeded(call, around);
      if (!secret) return secret.error();
      if (const auto open = session.unlock(std::move(*secret)); !open) return open.error();
    }
    auto applied = session::applySetup(session, document, *aim);
    if (!applied) return applied.error();
    // Whether this laptop has a place for backups is no matter of a document.
    auto list = session.firstDay(aim->today, true);
    if (!list) return list.error();
    std::erase_if(*list,
                  [](const auto& one) { return one.standing == session::AreaStanding::ready; });
    return ApplyOutcome{std::move(*applied), std::move(*list)};
  }

  /// A logbook that is there for good only once all of the document is in it.
  Result<ApplyOutcome> inNew() const {
    if (!document.program)
      return Error{
          ErrorCode::documentMalformed,
          "the document: a new logbook needs \"program\", with its name, county and phone"};
    auto secret = passphraseNeeded(call, around);
    if (!secret) return secret.error();
    // Tried alone, this laptop remembers nothing of it.
    const auto laptop = isPreview() ? session::HandMemory(base::LaptopId(
                                          base::makeUuid7(around.clock.now().at, around.random)))
                                    : thisLaptop(call, around);
    if (!laptop) return laptop.error();
    std::optional<ApplyOutcome> outcome;
    const auto made =
        session::makeLogbook(call.operand(0), [&](const base::Path& draft) -> Result<bool> {
          auto session = Session::create(
              draft, std::move(*secret), *laptop, {around.clock, around.random},
              document.program->value, session::BookKind::real,
              call.has("--clock-confirmed") ? session::Confirmed::yes : session::Confirmed::no);
          if (!session) return session.error();
          auto done = in(*session, true);
          if (!done) return done.error();
          outcome = std::move(*done);
          return !isPreview();
        });
    if (!made) return made.error();
    return std::move(*outcome);
  }

  Result<ApplyOutcome> inExisting() const {
    if (!isPreview()) {
      auto session = openToWrite(call, around);
      if (!session) return session.error();
      return in(*session);
    }
    auto opened = openToRead(call, around);
    if (!opened) return opened.error();
    auto tried = opened->rehearsal();
    if (!tried) return tried.error();
    return in(*tried);
  }
};

void applyJson(const Call& call, const ApplyOutcome& outcome, bool isNew, std::ostream& out) {
  const auto& applied = outcome.applied;
  JsonWriter json(out);
  json.beginObject();
  json.field("file", call.operand(0));
  json.field("preview", call.has("--preview"));
  json.field("created", isNew);
  json.field("changed", !applied.isUnchanged());
  json.objectField("counts");
  for (std::size_t i = 0; i < applied.counts.size(); ++i) {
    json.objectField(base::nameOf(static_cast<SetupKind>(i)));
    json.field("added", applied.counts.at(i).added);
    json.field("corrected", applied.counts.at(i).corrected);
    json.field("unchanged", applied.counts.at(i).unchanged);
    json.endObject();
  }
  json.endObject();
  json.field("rows_held", applied.held);
  json.arrayField("changes");
  for (const auto& line : applied.lines) {
    json.beginObject();
    json.field("at", line.at);
    json.field("change", base::nameOf(line.change));
    json.field("what", line.what);
    json.field("names", line.names);
    json.endObject();
  }
  json.endArray();
  json.arrayField("to_do");
  for (const auto& item : outcome.toDo) {
    json.beginObject();
    json.field("item", base::nameOf(item.item));
    json.field("keeps_a_day_from_being_worked", item.standing == session::AreaStanding::missing);
    json.field("open", item.open);
    json.endObject();
  }
  json.endArray();
  json.endObject();
}

void applyText(const Call& call, const ApplyOutcome& outcome, bool isNew, std::ostream& out) {
  const auto& applied = outcome.applied;
  const bool isPreview = call.has("--preview");
  if (isPreview)
    out << "Preview, nothing was written. "
        << (isNew ? "The logbook would be created.\n" : "Would change:\n");
  else if (isNew)
    out << "Created the logbook " << call.operand(0)
        << ".\nKeep the passphrase safe: without it names stay locked for good.\n";
  for (const auto& line : applied.lines)
    out << "  " << base::nameOf(line.change) << "  " << line.at << "  " << line.what
        << (line.names.empty() ? "" : " (" + base::join(line.names, ", ") + ")") << '\n';
  if (applied.isUnchanged()) out << "Nothing to change: the logbook says all of it already.\n";
  for (std::size_t i = 0; i < applied.counts.size(); ++i) {
    const auto& [added, corrected, unchanged] = applied.counts.at(i);
    if (added + corrected + unchanged == 0) continue;
    out << base::displayName(static_cast<SetupKind>(i)) << ": " << added << " added, " << corrected
        << " corrected, " << unchanged << " unchanged\n";
  }
  if (applied.held > 0)
    out << base::counted(applied.held, "row", "rows")
        << " of a list wait; import-roster --preview says why\n";
  if (outcome.toDo.empty()) return;
  out << "Before a first day:\n";
  for (const auto& item : outcome.toDo)
    for (const auto& sentence : item.open)
      out << "  " << base::displayName(item.item) << ": " << sentence << '\n';
}

/// What stands in the logbook after a refusal: as it was, but where the disk itself does not know.
Error applyRefused(Error error) {
  if (error.code != ErrorCode::storeUnsure) error.detail += "; nothing of the document was written";
  return error;
}

Result<Exit> applyDocument(const Call& call, const Surroundings& around) {
  const auto text = base::readFile(call.operand(1), session::mostOfSetup);
  if (!text) return text.error();
  const auto document = session::readSetup(*text);
  if (!document) return applyRefused(document.error());
  std::error_code unread;
  const bool isNew = !std::filesystem::exists(base::Path(call.operand(0)), unread);
  if (isNew && !call.has("--create"))
    return Error{ErrorCode::fileNotFound, call.operand(0) + ": no such logbook; check the name, or "
                                                            "give --create to make a new one"};
  const ApplyWork work{call, around, *document};
  const auto outcome = isNew ? work.inNew() : work.inExisting();
  if (!outcome) return applyRefused(outcome.error());
  if (call.wantsJson())
    applyJson(call, *outcome, isNew, around.out);
  else
    applyText(call, *outcome, isNew, around.out);
  return Exit::fine;
}

} // namespace

std::vector<Verb> applyVerbs() {
  return {{{"apply", "FILE DOCUMENT",
            "sets up or updates a program from one JSON document, all of it or nothing; "
            "schema/setup.schema.json describes it",
            writing({{"--create", "", "makes the logbook where there is none yet"},
                     {"--preview", "", "says what would change; writes nothing"},
                     passphraseOption()})},
           applyDocument}};
}

} // namespace gk::office
