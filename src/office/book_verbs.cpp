#include "office/json_writer.h"
#include "office/opening.h"
#include "office/verbs.h"

#include <filesystem>
#include <ostream>

namespace gk::office {

using base::Error;
using base::ErrorCode;
using base::Result;
using session::Session;

namespace {

Result<roster::Program> programOf(const Call& call) {
  roster::Program program;
  program.name = call.text("--program");
  program.county = call.text("--county");
  program.phone = call.text("--phone");
  if (program.name.empty())
    return Error{ErrorCode::callMalformed, "--program: the program needs a name"};
  if (const auto word = call.textIfAny("--notation")) {
    const auto notation = base::parseName<dentition::Notation>(*word);
    if (!notation) return notation.error();
    program.notation = *notation;
  }
  if (const auto word = call.textIfAny("--supervision")) {
    const auto supervision = base::parseName<roster::Supervision>(*word);
    if (!supervision) return supervision.error();
    program.supervision = *supervision;
  }
  const auto until = call.date("--agreement-until");
  if (!until) return until.error();
  program.agreementUntil = *until;
  program.authorizingDentist = call.text("--authorizing-dentist");
  program.privacyFooting = call.text("--privacy-footing");
  const auto least = call.whole("--suppress-below", 5, 100); // as the schema has it
  if (!least) return least.error();
  program.suppressBelow = least->value_or(program.suppressBelow);
  const auto holds = call.whole("--authorization-days", 1, 1100); // as the schema has it
  if (!holds) return holds.error();
  program.authorizationDays = holds->value_or(program.authorizationDays);
  return program;
}

/// A book that could not get its program is taken away again.
Result<base::Done> writeProgram(const std::string& file, std::string secret, base::LaptopId laptop,
                                const roster::Program& program, const Surroundings& around) {
  std::optional<Error> trouble;
  {
    auto session = Session::create(file, std::move(secret), laptop, {around.clock, around.random});
    if (!session) return session.error();
    const auto entered = session->enterProgram({}, program);
    if (!entered) trouble = entered.error();
  } // closed, so that the file can go
  if (!trouble) return base::Done{};
  std::error_code left;
  std::filesystem::remove(file, left);
  if (left) trouble->detail += "; remove the unfinished file " + file;
  return *trouble;
}

Result<Exit> makeBook(const Call& call, const Surroundings& around) {
  const auto& file = call.operand(0);
  const auto program = programOf(call);
  if (!program) return program.error();
  auto secret = passphraseNeeded(call, around);
  if (!secret) return secret.error();
  const auto laptop = laptopIdentity(call, around);
  if (!laptop) return laptop.error();
  const auto written = writeProgram(file, std::move(*secret), *laptop, *program, around);
  if (!written) return written.error();
  if (call.wantsJson()) {
    JsonWriter json(around.out);
    json.beginObject();
    json.field("file", file);
    json.field("program", program->name);
    json.endObject();
  } else {
    around.out << "Made the logbook " << file << " of " << program->name
               << ".\nKeep the passphrase safe: without it names stay sealed for good.\n";
  }
  return Exit::fine;
}

Result<Exit> tellFindings(const std::vector<std::string>& findings, const Call& call,
                          const Surroundings& around) {
  if (call.wantsJson()) {
    JsonWriter json(around.out);
    json.beginObject();
    json.field("file", call.operand(0));
    json.field("whole", findings.empty());
    json.field("findings", findings);
    json.endObject();
  } else if (findings.empty()) {
    around.out << call.operand(0) << ": whole\n";
  } else {
    for (const auto& finding : findings)
      around.out << finding << '\n';
    around.out << "Write nothing more to this logbook: keep a copy of it as it is and restore the "
                  "newest backup.\n";
  }
  return findings.empty() ? Exit::fine : Exit::findings;
}

Result<Exit> check(const Call& call, const Surroundings& around) {
  auto session = openToRead(call, around);
  if (!session) {
    // Too damaged to be opened is an answer too.
    if (session.error().code != ErrorCode::storeDamaged) return session.error();
    return tellFindings({session.error().detail}, call, around);
  }
  const auto findings = session->findings();
  if (!findings) return findings.error();
  return tellFindings(*findings, call, around);
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
      around.out << "It is on the logbook's own disk and is lost with it: copy it to another.\n";
  }
  return Exit::fine;
}

Result<Exit> merge(const Call& call, const Surroundings& around) {
  auto session = openToWrite(call, around);
  if (!session) return session.error();
  const auto merged = session->absorb(call.operand(1));
  if (!merged) return merged.error();
  if (call.wantsJson()) {
    JsonWriter json(around.out);
    json.beginObject();
    json.field("file", call.operand(0));
    json.field("other", call.operand(1));
    json.field("new_entries", merged->newEntries);
    json.endObject();
  } else {
    around.out << "Took in " << base::counted(merged->newEntries, "new entry", "new entries")
               << " from " << call.operand(1) << ".\n";
  }
  return Exit::fine;
}

} // namespace

std::vector<Verb> bookVerbs() {
  return {
      {{"new",
        "FILE",
        "makes a logbook with its program",
        {{"--program", "NAME", "as printed on letters", true},
         {"--county", "NAME", "as printed on letters", true},
         {"--phone", "NUMBER", "as printed on letters", true},
         {"--notation", "WORD", "universal (usual) or iso-3950"},
         {"--supervision", "WORD",
          "general (usual), direct, public health ...; dentist exam "
          "required: no tooth before a dentist named it"},
         {"--authorizing-dentist", "TEXT", "who stands behind the work"},
         {"--agreement-until", "DATE", "last day of the standing agreement"},
         {"--authorization-days", "N", "how long a dentist's word on a tooth holds (365)"},
         {"--privacy-footing", "TEXT", "which law applies, who decided, when"},
         {"--suppress-below", "N", "published counts under this are hidden (10)"},
         passphraseOption(),
         laptopOption()}},
       makeBook},
      {{"check", "FILE", "looks whether a logbook is whole; 1 when it is not", {}}, check},
      {{"backup", "FILE TARGET", "writes a checked copy; never over another file", {}}, backUp},
      {{"merge", "FILE OTHER", "takes in all that another laptop's logbook has", {laptopOption()}},
       merge},
  };
}

} // namespace gk::office
