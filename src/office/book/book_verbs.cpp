#include "base/files/files.h"
#include "base/text/text.h"
#include "office/call/opening.h"
#include "office/call/program_options.h"
#include "office/call/verbs.h"
#include "office/tables/json_writer.h"
#include "roster/display_names.h"
#include "session/part.h"

#include <ostream>

namespace gk::office {

using base::Result;
using session::Session;

namespace {

Result<Exit> makeBook(const Call& call, const Surroundings& around) {
  const auto& file = call.operand(0);
  const auto program = programOf(call, {});
  if (!program) return program.error();
  auto secret = passphraseNeeded(call, around);
  if (!secret) return secret.error();
  const auto laptop = thisLaptop(call, around);
  if (!laptop) return laptop.error();
  const auto made = Session::create(
      file, std::move(*secret), *laptop, {around.clock, around.random}, *program,
      session::BookKind::real,
      call.has("--clock-confirmed") ? session::Confirmed::yes : session::Confirmed::no);
  if (!made) return made.error();
  if (call.wantsJson()) {
    JsonWriter json(around.out);
    json.beginObject();
    json.field("file", file);
    json.field("program", program->name);
    json.endObject();
  } else {
    around.out << "Created the logbook " << file << " of " << program->name
               << ".\nKeep the passphrase safe: without it names stay locked for good.\n";
  }
  return Exit::fine;
}

Result<Exit> changePassphrase(const Call& call, const Surroundings& around) {
  auto now = passphraseNeeded(call, around);
  if (!now) return now.error();
  auto next = base::readFirstLine(call.text("--new-passphrase-file"));
  if (!next) return next.error();
  auto session = openToWrite(call, around);
  if (!session) return session.error();
  if (const auto open = session->unlock(*now); !open) return open.error();
  const auto by = author(*session, call, around);
  if (!by) return by.error();
  if (const auto done = session->changePassphrase(*by, std::move(*now), std::move(*next)); !done)
    return done.error();
  if (call.wantsJson()) {
    JsonWriter json(around.out);
    json.beginObject();
    json.field("file", call.operand(0));
    json.field("changed", "passphrase");
    json.endObject();
  } else {
    around.out << "Changed the passphrase of " << call.operand(0)
               << ".\nKeep it safe: without it names stay locked for good. Backups and other "
                  "laptops keep the old one.\n";
  }
  return Exit::fine;
}

void writeFault(JsonWriter& json, const session::Fault& fault) {
  json.beginObject();
  json.field("what", fault.what);
  if (!fault.child.empty()) json.field("child", fault.child);
  if (fault.since) json.field("since", fault.since->date().iso());
  if (!fault.doNow.empty()) json.field("do", fault.doNow);
  json.endObject();
}

std::string countsWords(const roster::SignedCounts& counts) {
  const auto one = [](int count, const char* words) { return std::to_string(count) + " " + words; };
  return base::join({one(counts.consented, "consented"), one(counts.screened, "screened"),
                     one(counts.absent, "absent"), one(counts.declined, "declined"),
                     one(counts.left, "left"), one(counts.withdrawn, "withdrawn"),
                     one(counts.onHold, "on hold"), one(counts.notReached, "not reached")},
                    ", ");
}

std::string lineWords(const session::SignedSheet::Line& line) {
  return line.signer + " (" + std::string(base::displayName(line.capacity)) + "): " +
         (line.flaw.empty() ? "matches what the logbook says"
                            : "does not match what the logbook says: " + line.flaw) +
         (line.byNameOnly ? "; signed by name only, no key" : "") +
         (line.revoked.empty() ? "" : "; " + line.revoked);
}

void sheetJson(const Call& call, const Surroundings& around, const session::SignedSheet& sheet) {
  JsonWriter json(around.out);
  json.beginObject();
  json.field("file", call.operand(0));
  json.field("school", sheet.school);
  json.field("date", sheet.date.iso());
  json.field("signed_at", sheet.signedAt.text());
  json.field("stands", sheet.stands());
  json.field("taken_back", !sheet.isCurrent);
  json.field("late_entries", sheet.lateEntries);
  json.field("counts_signed", countsWords(sheet.counts));
  json.field("counts_now", countsWords(sheet.countsNow));
  json.arrayField("signatures");
  for (const auto& line : sheet.lines) {
    json.beginObject();
    json.field("by", line.signer);
    json.field("for", base::nameOf(line.capacity));
    json.field("by_name_only", line.byNameOnly);
    if (!line.flaw.empty()) json.field("flaw", line.flaw);
    if (!line.revoked.empty()) json.field("revoked", line.revoked);
    json.endObject();
  }
  json.endArray();
  json.endObject();
}

/// What the sheet with that code says was signed, and whether the logbook still says it.
Result<Exit> checkSheet(const Call& call, const Surroundings& around, const std::string& code) {
  const auto sheet = Session::inspectSheet(call.operand(0), {around.clock, around.random}, code);
  if (!sheet) return sheet.error();
  if (call.wantsJson()) {
    sheetJson(call, around, *sheet);
    return sheet->stands() ? Exit::fine : Exit::findings;
  }
  around.out << sheet->school << ", " << sheet->date.words() << ", signed on "
             << sheet->signedAt.words() << '\n';
  for (const auto& line : sheet->lines)
    around.out << lineWords(line) << '\n';
  around.out << "Signed: " << countsWords(sheet->counts) << '\n';
  if (sheet->counts != sheet->countsNow)
    around.out << "The logbook now says: " << countsWords(sheet->countsNow) << '\n';
  if (!sheet->isCurrent)
    around.out << "The day was reopened since, so this sheet no longer counts. Ask for the newest "
                  "sheet.\n";
  if (sheet->lateEntries > 0)
    around.out << base::counted(sheet->lateEntries, "late entry was", "late entries were")
               << " added since.\n";
  around.out << (sheet->stands() ? "The logbook says what was signed.\n"
                                 : "The logbook does not say what was signed: compare the sheet "
                                   "with it and with the newest backup.\n");
  return sheet->stands() ? Exit::fine : Exit::findings;
}

void writeErasure(JsonWriter& json, const session::ErasureLine& line) {
  json.beginObject();
  json.field("student", line.record.value.number);
  json.field("on", line.record.stamp.at.date().iso());
  json.field("by", line.by);
  json.field("request", line.record.value.request);
  json.field("authority", line.record.value.authority);
  json.field("rows", line.rows);
  json.field("copies", line.copies);
  json.endObject();
}

Result<Exit> check(const Call& call, const Surroundings& around) {
  if (const auto code = call.textIfAny("--sheet")) return checkSheet(call, around, *code);
  const auto findings = Session::inspect(call.operand(0), {around.clock, around.random});
  if (!findings) return findings.error();
  std::vector<session::ErasureLine> erasures; // no damage
  std::vector<std::string> copied;            // the same
  std::vector<session::KeyLine> replacements; // the same
  std::string part;                           // the same
  std::string traces;                         // the same
  std::vector<session::Fault> unread;         // names, as far as they are open
  if (findings->empty()) {
    auto session = openToRead(call, around);
    if (!session) return session.error();
    // Said, not set: what is set may be of another logbook, and this one is whole without it.
    if (call.textIfAny("--passphrase-file")) {
      auto secret = passphraseNeeded(call, around);
      if (!secret) return secret.error();
      if (const auto open = session->unlock(std::move(*secret)); !open) return open.error();
      auto names = session->findings();
      if (!names) return names.error();
      unread = std::move(*names);
    }
    auto listed = session->erasures();
    if (!listed) return listed.error();
    erasures = std::move(*listed);
    auto replaced = session->keyReplacements();
    if (!replaced) return replaced.error();
    replacements = std::move(*replaced);
    auto lines = session->copiedLines();
    if (!lines) return lines.error();
    copied = std::move(*lines);
    part = session::partNotice(*session);
    traces = session->tracesNotice();
  }
  if (call.wantsJson()) {
    JsonWriter json(around.out);
    json.beginObject();
    json.field("file", call.operand(0));
    json.field("whole", findings->empty());
    json.arrayField("findings");
    for (const auto& fault : *findings)
      writeFault(json, fault);
    json.endArray();
    json.arrayField("unreadable_names");
    for (const auto& fault : unread)
      writeFault(json, fault);
    json.endArray();
    json.arrayField("erasures");
    for (const auto& line : erasures)
      writeErasure(json, line);
    json.endArray();
    json.field("copied", copied);
    if (!part.empty()) json.field("part", part);
    if (!traces.empty()) json.field("traces", traces);
    json.arrayField("key_replacements");
    for (const auto& line : replacements) {
      json.beginObject();
      json.field("on", line.record.stamp.at.date().iso());
      json.field("by", line.by);
      json.field("reason", line.record.value.reason);
      json.field("copies", line.copies);
      json.endObject();
    }
    json.endArray();
    json.endObject();
  } else if (findings->empty()) {
    around.out << call.operand(0) << ": no damage found\n";
    for (const auto& fault : unread)
      around.out << session::sentence(fault) << '\n';
    if (!part.empty()) around.out << part << '\n';
    for (const auto& line : erasures) {
      around.out << "Student " << line.record.value.number << ": " << line.words() << ".\n";
      for (const auto& copy : line.copies)
        around.out << "  may still hold the student: " << copy << '\n';
    }
    if (!traces.empty()) around.out << traces << '\n';
    for (const auto& line : copied)
      around.out << line << '\n';
    for (const auto& line : replacements) {
      around.out << line.words() << ".\n";
      for (const auto& copy : line.copies)
        around.out << "  may still open with what was known before: " << copy << '\n';
    }
  } else {
    for (const auto& fault : *findings)
      around.out << session::sentence(fault) << '\n';
    around.out << "Write nothing more to this logbook: keep a copy of it as it is and restore the "
                  "newest backup.\n";
  }
  return findings->empty() && unread.empty() ? Exit::fine : Exit::findings;
}

Result<Exit> backUp(const Call& call, const Surroundings& around) {
  auto session = openToRead(call, around);
  if (!session) return session.error();
  const auto& target = call.operand(1);
  if (const auto made = session->backUp(target); !made) return made.error();
  const auto same = base::isOnSameDisk(session->path(), target);
  if (!same) return same.error();
  const bool sameDisk = *same;
  if (call.wantsJson()) {
    JsonWriter json(around.out);
    json.beginObject();
    json.field("file", call.operand(0));
    json.field("backup", target);
    json.field("same_disk", sameDisk);
    json.endObject();
  } else {
    around.out << "Copied to " << target << " and checked.\n";
    if (sameDisk)
      around.out
          << "It is on the logbook's own disk and is lost with it: copy it to another disk.\n";
  }
  return Exit::fine;
}

Result<Exit> merge(const Call& call, const Surroundings& around) {
  auto session = openToWrite(call, around);
  if (!session) return session.error();
  auto agreed = agreedIn(*session, call, around);
  if (!agreed) return agreed.error();
  const auto by = author(*session, call, around);
  if (!by) return by.error();
  agreed->by = *by;
  const auto merged = session->absorb(call.operand(1), *agreed);
  if (!merged) return merged.error();
  if (call.wantsJson()) {
    JsonWriter json(around.out);
    json.beginObject();
    json.field("file", call.operand(0));
    json.field("other", call.operand(1));
    json.field("new_entries", merged->newEntries);
    json.field("erased", merged->erased);
    json.field("bytes_gone", merged->isForgotten);
    json.field("copied_lines", merged->lines);
    json.endObject();
  } else {
    around.out << "Imported " << base::counted(merged->newEntries, "new entry", "new entries")
               << " from " << call.operand(1) << ".\n";
    if (merged->erased > 0)
      around.out << base::counted(merged->erased, "entry", "entries")
                 << " of erased students removed.\n";
    if (!merged->isForgotten) around.out << session::tracesLeft << '\n';
    if (merged->lines > 0) around.out << copiesJoined << '\n';
  }
  return Exit::fine;
}

} // namespace

std::vector<Verb> bookVerbs() {
  return {
      {{"new", "FILE", "creates a logbook with its program",
        [] {
          auto options = programOptions(true);
          options.push_back(passphraseOption());
          options.push_back(laptopOption());
          options.push_back(clockOption());
          return options;
        }()},
       makeBook},
      {{"change-passphrase",
        "FILE",
        "changes the passphrase of the names; backups keep the one they were made with",
        {{"--new-passphrase-file", "FILE", "holds the new one on its first line", true},
         byOption(),
         pinOption(),
         passphraseOption(),
         laptopOption()}},
       changePassphrase},
      {{"check",
        "FILE",
        "checks a logbook for damage, or a signed sheet against it; 1 if they differ",
        {{"--sheet", "CODE", "as printed on a signed close-out: verifies that day's signatures"},
         {"--passphrase-file", "FILE", "looks at the names too"}}},
       check},
      {{"backup", "FILE TARGET", "writes a checked copy; never over another file", {}}, backUp},
      {{"merge", "FILE OTHER", "imports all that another laptop's logbook has",
        withAgreement({byOption(), pinOption(), passphraseOption(), laptopOption()})},
       merge},
  };
}

} // namespace gk::office
