#include "base/files/files.h"
#include "base/text/text.h"
#include "office/call/adding.h"

#include <ostream>

namespace gk::office {

using base::Result;

namespace {

Result<std::string> dayPassphrase(const Call& call) {
  return base::readFirstLine(call.text("--day-passphrase-file"));
}

Option dayPassphraseOption() {
  return {"--day-passphrase-file", "FILE", "its first line is the envelope's passphrase", true};
}

Result<Exit> sealDay(const Call& call, const Surroundings& around) {
  auto secret = dayPassphrase(call);
  if (!secret) return secret.error();
  auto session = openToWrite(call, around);
  if (!session) return session.error();
  const auto by = author(*session, call, around);
  if (!by) return by.error();
  std::optional<base::Recorded<roster::School>> school;
  if (const auto code = call.textIfAny("--school")) {
    auto known = schoolCoded(*session, *code);
    if (!known) return known.error();
    school = std::move(*known);
  }
  const auto& target = call.operand(1);
  const auto part = session->oneSchool();
  if (!part) return part.error();
  if (const auto sealed = session->sealDay(
          *by, target, school ? std::optional(school->id) : std::nullopt, std::move(*secret));
      !sealed)
    return sealed.error();
  const auto only = school ? school->value.name : *part ? (*part)->name : std::string();
  if (call.wantsJson()) {
    JsonWriter json(around.out);
    json.beginObject();
    json.field("file", call.operand(0));
    json.field("envelope", target);
    if (!only.empty()) json.field("school", only);
    json.endObject();
  } else {
    around.out << "Sealed the logbook in " << target
               << (only.empty() ? std::string() : ", with only " + only + "'s students")
               << ". Give the passphrase apart from the file.\n";
  }
  return Exit::fine;
}

Result<Exit> mergeDay(const Call& call, const Surroundings& around) {
  auto secret = dayPassphrase(call);
  if (!secret) return secret.error();
  auto session = openToWrite(call, around);
  if (!session) return session.error();
  const auto by = author(*session, call, around);
  if (!by) return by.error();
  const auto agreed = agreedIn(*session, call, around);
  if (!agreed) return agreed.error();
  const auto merged = session->absorbEnvelope(*by, call.operand(1), std::move(*secret), *agreed);
  if (!merged) return merged.error();
  if (call.wantsJson()) {
    JsonWriter json(around.out);
    json.beginObject();
    json.field("file", call.operand(0));
    json.field("envelope", call.operand(1));
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

Result<Exit> unpackDay(const Call& call, const Surroundings& around) {
  auto secret = dayPassphrase(call);
  if (!secret) return secret.error();
  if (const auto made =
          session::Session::unpackEnvelope(call.operand(0), std::move(*secret), call.operand(1));
      !made)
    return made.error();
  if (call.wantsJson()) {
    JsonWriter json(around.out);
    json.beginObject();
    json.field("envelope", call.operand(0));
    json.field("file", call.operand(1));
    json.endObject();
  } else {
    around.out << "Unpacked into " << call.operand(1)
               << ". Names open with the logbook's own passphrase.\n";
  }
  return Exit::fine;
}

Result<Exit> listEnvelopes(const Call& call, const Surroundings& around) {
  auto session = openToRead(call, around);
  if (!session) return session.error();
  const auto envelopes = session->dayEnvelopes();
  if (!envelopes) return envelopes.error();
  if (call.wantsJson()) {
    JsonWriter json(around.out);
    json.beginObject();
    json.field("file", call.operand(0));
    json.key("envelopes");
    json.beginArray();
    for (const auto& one : *envelopes) {
      json.beginObject();
      json.field("name", one.value.name);
      json.field("made_on", one.value.madeOn.iso());
      json.field("merged", one.value.merged);
      json.endObject();
    }
    json.endArray();
    json.endObject();
    return Exit::fine;
  }
  if (envelopes->empty()) around.out << "No day envelope was sealed or merged.\n";
  for (const auto& one : *envelopes)
    around.out << (one.value.merged ? "Merged " : "Sealed ") << one.stamp.at.date().words()
               << ", made " << one.value.madeOn.words() << ", " << one.value.name << '\n';
  return Exit::fine;
}

} // namespace

std::vector<Verb> envelopeVerbs() {
  return {
      {{"seal-day", "FILE TARGET",
        "seals the logbook in a day envelope for another laptop, or for the way back",
        writing({dayPassphraseOption(),
                 {"--school", "CODE", "only that school's students; without it, everyone"}})},
       sealDay},
      {{"merge-day", "FILE ENVELOPE",
        "imports a day envelope of this logbook, once; refused whole when altered or foreign",
        writing(withAgreement({dayPassphraseOption()}))},
       mergeDay},
      {{"unpack-day",
        "ENVELOPE TARGET",
        "writes the logbook of a day envelope as a new file; never over another file",
        {dayPassphraseOption()}},
       unpackDay},
      {{"day-envelopes", "FILE", "lists the day envelopes that were sealed or merged", {}},
       listEnvelopes},
  };
}

} // namespace gk::office
