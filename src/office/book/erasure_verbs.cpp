#include "base/files/files.h"
#include "office/call/adding.h"

#include <algorithm>
#include <limits>
#include <ostream>

namespace gk::office {

using base::Result;

namespace {

void writeRows(JsonWriter& json, const std::map<std::string, std::int64_t>& rows) {
  json.arrayField("by_kind");
  for (const auto& [kind, count] : rows) {
    json.beginObject();
    json.field("kind", kind);
    json.field("rows", count);
    json.endObject();
  }
  json.endArray();
}

/// What would go and what to say to let it go; nothing is changed.
void showPlan(const session::ErasurePlan& plan, const Call& call, const Surroundings& around) {
  if (call.wantsJson()) {
    JsonWriter json(around.out);
    json.beginObject();
    json.field("student", plan.number);
    json.field("rows", plan.total);
    writeRows(json, plan.rows);
    json.field("erased", false);
    json.endObject();
    return;
  }
  around.out << "Student " << plan.number << ": " << base::counted(plan.total, "row", "rows")
             << " would be permanently erased from this logbook:\n";
  for (const auto& [kind, count] : plan.rows) {
    auto words = kind;
    std::ranges::replace(words, '_', ' ');
    around.out << "  " << words << ": " << count << '\n';
  }
  if (plan.cards.size() > 1)
    around.out << "This includes another card entered as the same student's.\n";
  if (!plan.counts.empty()) {
    around.out << "These counts change, in signed days and earlier terms too:\n";
    for (const auto& count : plan.counts)
      around.out << "  " << count << '\n';
  }
  around.out << "Reports that were issued keep their figures. Backups keep the "
                "student until they are destroyed.\n"
                "Nothing was changed. To erase, repeat the command with --confirm-rows "
             << plan.total << ".\n";
}

void showDone(const session::ErasureDone& done, const std::string& number,
              const std::vector<session::ErasureLine>& lines, const Call& call,
              const Surroundings& around) {
  if (call.wantsJson()) {
    JsonWriter json(around.out);
    json.beginObject();
    json.field("student", number);
    json.field("rows", done.rows);
    json.field("erased", true);
    json.field("bytes_gone", done.isForgotten);
    json.field("copies", lines.back().copies);
    json.endObject();
    return;
  }
  around.out << "Erased " << base::counted(done.rows, "row", "rows") << " of student " << number
             << ". The logbook keeps who erased it and who requested it.\n";
  if (!done.isForgotten) around.out << session::tracesLeft << '\n';
  if (lines.back().copies.empty()) return;
  around.out << "These copies may still hold the student:\n";
  for (const auto& copy : lines.back().copies)
    around.out << "  " << copy << '\n';
  around.out << "A logbook that is merged with this one stops and asks, and with --erase-listed "
                "erases the student there. Destroy each backup, or open it and merge it with this "
                "one.\n";
}

/// Her own passphrase, where it is given: an erasure is signed.
Result<base::Done> openSigningKey(session::Session& session, const base::By& by, const Call& call) {
  const auto file = call.textIfAny("--own-passphrase-file");
  if (!file || !by.author) return base::Done{};
  auto words = base::readFirstLine(*file);
  if (!words) return words.error();
  return session.openKey(*by.author, std::move(*words));
}

Result<Exit> eraseStudent(const Call& call, const Surroundings& around) {
  const auto confirmed = call.whole("--confirm-rows", 0, std::numeric_limits<int>::max());
  if (!confirmed) return confirmed.error();
  auto session = *confirmed ? openToWrite(call, around) : openToRead(call, around);
  if (!session) return session.error();
  const auto number = roster::parseChildNumber(call.operand(1));
  if (!number) return number.error();
  const auto child = session->cardNumbered(*number);
  if (!child) return child.error();
  const auto plan = session->erasurePlan(*child);
  if (!plan) return plan.error();
  if (!*confirmed) {
    showPlan(*plan, call, around);
    return Exit::fine;
  }
  auto secret = passphrase(call, around); // so that the words are held against the names
  if (!secret) return secret.error();
  if (*secret)
    if (const auto open = session->unlock(std::move(**secret)); !open) return open.error();
  const auto by = author(*session, call, around);
  if (!by) return by.error();
  if (const auto signedBy = openSigningKey(*session, *by, call); !signedBy) return signedBy.error();
  const auto own = ownPin(*session, *by, call, around);
  if (!own) return own.error();
  const auto done = session->eraseStudent(
      *by, *child, {call.text("--request"), call.text("--authority"), call.text("--reason")},
      **confirmed, *own);
  if (!done) return done.error();
  const auto lines = session->erasures();
  if (!lines) return lines.error();
  showDone(*done, plan->number, *lines, call, around);
  return Exit::fine;
}

} // namespace

std::vector<Verb> erasureVerbs() {
  return {{{"erase-student", "FILE NUMBER",
            "shows what an erasure removes; with --confirm-rows, erases it permanently",
            writing({{"--request", "TEXT", "who asked and how, without names", true},
                     {"--authority", "TEXT", "the rule that requires it", true},
                     {"--reason", "TEXT", "why, without names", true},
                     {"--confirm-rows", "N", "the number of rows that was shown"},
                     {"--own-passphrase-file", "FILE", "of the person of --by, to sign it"},
                     passphraseOption()})},
           eraseStudent}};
}

} // namespace gk::office
