#include "base/files/files.h"
#include "office/call/adding.h"

#include <ostream>

namespace gk::office {

using base::Result;

namespace {

Result<std::string> firstLine(const Call& call, std::string_view option, const std::string& other) {
  const auto file = call.textIfAny(option);
  if (!file) return other;
  return base::readFirstLine(*file);
}

void sayCopies(const std::vector<std::string>& copies, const Surroundings& around) {
  if (copies.empty()) return;
  around.out << "These copies still open with it:\n";
  for (const auto& copy : copies)
    around.out << "  " << copy << '\n';
  around.out << "Destroy each backup that is not needed. Another laptop's logbook opens with it "
                "until it is merged with this one and unlocked with the new passphrase.\n";
}

void sayReplaced(const session::KeyReplaced& done, const std::vector<std::string>& copies,
                 const Call& call, const Surroundings& around) {
  if (call.wantsJson()) {
    JsonWriter json(around.out);
    json.beginObject();
    json.field("file", call.operand(0));
    json.field("replaced", "key of the names");
    if (!done.recoveryCode.empty()) json.field("recovery_code", done.recoveryCode);
    json.field("to_enter", done.toEnter);
    json.field("copies", copies);
    json.endObject();
    return;
  }
  around.out << "Replaced the key of the names in " << call.operand(0)
             << ". The old passphrase no longer opens it.\n"
                "Keep the new one safe: without it names stay locked for good.\n";
  if (!done.recoveryCode.empty())
    around.out << "The new recovery code, shown only now: " << done.recoveryCode
               << "\nWrite it down; the earlier sheet no longer opens this logbook.\n";
  if (!done.toEnter.empty())
    around.out << "Their own passphrase opens the names once they have signed with it: "
               << base::join(done.toEnter, ", ") << ".\n";
  sayCopies(copies, around);
}

Result<Exit> replaceKey(const Call& call, const Surroundings& around) {
  auto secret = passphraseNeeded(call, around);
  if (!secret) return secret.error();
  auto next = base::readFirstLine(call.text("--new-passphrase-file"));
  if (!next) return next.error();
  auto own = firstLine(call, "--own-passphrase-file", *secret);
  if (!own) return own.error();
  auto other = firstLine(call, "--other-passphrase-file", {});
  if (!other) return other.error();
  auto session = openToWrite(call, around);
  if (!session) return session.error();
  if (const auto open = session->unlock(std::move(*secret)); !open) return open.error();
  const auto by = author(*session, call, around);
  if (!by) return by.error();
  const auto pin = ownPin(*session, *by, call, around);
  if (!pin) return pin.error();
  const auto done = session->replaceBookKey(*by,
                                            {.confirmation = std::move(*own),
                                             .passphrase = std::move(*next),
                                             .reason = call.text("--reason"),
                                             .other = std::move(*other)},
                                            *pin);
  if (!done) return done.error();
  const auto lines = session->keyReplacements();
  if (!lines) return lines.error();
  sayReplaced(*done, lines->back().copies, call, around);
  return Exit::fine;
}

Result<Exit> retireMember(const Call& call, const Surroundings& around) {
  auto secret = passphrase(call, around);
  if (!secret) return secret.error();
  auto session = openToWrite(call, around);
  if (!session) return session.error();
  if (*secret)
    if (const auto open = session->unlock(std::move(**secret)); !open) return open.error();
  const auto member = memberCalled(*session, call.text("--member"));
  if (!member) return member.error();
  const auto by = author(*session, call, around);
  if (!by) return by.error();
  const auto pin = ownPin(*session, *by, call, around);
  if (!pin) return pin.error();
  const auto gone = session->retireMember(*by, member->id, call.text("--reason"), *pin);
  if (!gone) return gone.error();
  const auto days = session->unsignedDays(member->id);
  if (!days) return days.error();
  const auto copies = session->knownCopies();
  if (!copies) return copies.error();
  if (call.wantsJson()) {
    JsonWriter json(around.out);
    json.beginObject();
    json.field("retired", member->value.initials);
    json.arrayField("unsigned_days");
    for (const auto& day : *days) {
      json.beginObject();
      json.field("date", day.date.iso());
      json.field("school", day.school);
      json.endObject();
    }
    json.endArray();
    json.field("copies", *copies);
    json.endObject();
    return Exit::fine;
  }
  around.out << member->value.initials
             << " no longer has any rights, and their own passphrase neither signs nor opens the "
                "names.\n";
  for (const auto& day : *days)
    around.out << "Not signed yet, with their work: " << day.date.words() << " at " << day.school
               << ".\n";
  around.out << "If they know the logbook's passphrase or the recovery code, replace the key of "
                "the names now: replace-key.\n";
  sayCopies(*copies, around);
  return Exit::fine;
}

} // namespace

std::vector<Verb> keyVerbs() {
  return {
      {{"replace-key", "FILE",
        "seals names with a new key; the old passphrase and code open the logbook no more",
        writing({{"--new-passphrase-file", "FILE", "its first line is the new passphrase", true},
                 {"--reason", "TEXT", "why, without names of students", true},
                 {"--own-passphrase-file", "FILE", "of the person of --by, to confirm it"},
                 {"--other-passphrase-file", "FILE", "of a key that another laptop set meanwhile"},
                 passphraseOption()})},
       replaceKey},
      {{"retire-member", "FILE",
        "ends all rights, the key and the passphrase of one who leaves; lists what is left to do",
        writing({{"--member", "INITIALS", "who leaves", true},
                 {"--reason", "TEXT", "why", true},
                 passphraseOption()})},
       retireMember},
  };
}

} // namespace gk::office
