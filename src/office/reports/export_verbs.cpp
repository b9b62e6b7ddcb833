#include "office/call/verbs.h"
#include "office/call/wanted_day.h"

namespace gk::office {

using base::Error;
using base::ErrorCode;
using base::Result;

namespace {

/// A term goes out as JSON alone: the bundle is for the care of a day's children.
Result<base::Done> checkCall(const Call& call) {
  const auto format = call.text("--format");
  if (format != "json" && format != "fhir")
    return Error{ErrorCode::callMalformed, "--format is json or fhir"};
  if (format == "fhir" && call.has("--term"))
    return Error{ErrorCode::callMalformed, "--format fhir is of one day: --day, not --term"};
  for (const auto* option : {"--day", "--school", "--team"})
    if (call.has("--term") && call.has(option))
      return Error{ErrorCode::callMalformed,
                   std::string(option) + " is of a day; it does not go with --term"};
  if (call.has("--with-names") && format != "fhir")
    return Error{ErrorCode::callMalformed, "--with-names goes with --format fhir"};
  if (call.has("--as-of") && !call.has("--term"))
    return Error{ErrorCode::callMalformed, "--as-of goes with --term"};
  return base::Done{};
}

Result<base::Done> writeTerm(session::Session& session, const Call& call,
                             const Surroundings& around) {
  const auto term = termCalled(session, call.text("--term"));
  if (!term) return term.error();
  const auto asOf = call.date("--as-of");
  if (!asOf) return asOf.error();
  return session.extractTerm(term->id, asOf->value_or(around.clock.now().date()), around.out);
}

Result<base::Done> writeDay(session::Session& session, const Call& call,
                            const Surroundings& around) {
  const auto day = wantedDay(session, call);
  if (!day) return day.error();
  if (call.text("--format") == "json") return session.extractDay(day->id, around.out);
  if (call.has("--with-names")) {
    auto secret = passphraseNeeded(call, around);
    if (!secret) return secret.error();
    if (const auto open = session.unlock(std::move(*secret)); !open) return open.error();
  }
  return session.writeFhir(day->id, around.out);
}

Result<Exit> exportRecords(const Call& call, const Surroundings& around) {
  if (const auto fits = checkCall(call); !fits) return fits.error();
  auto session = openToRead(call, around);
  if (!session) return session.error();
  const auto done =
      call.has("--term") ? writeTerm(*session, call, around) : writeDay(*session, call, around);
  if (!done) return done.error();
  return Exit::fine;
}

} // namespace

std::vector<Verb> exportVerbs() {
  auto options = choosingDay({});
  options.insert(options.begin(),
                 {"--format", "json|fhir", "json without names; fhir a bundle", true});
  options.push_back({"--term", "NAME", "records of a term (json)"});
  options.push_back({"--as-of", "DATE", "of a term: nothing after this day; today when not given"});
  options.push_back({"--with-names", "", "fhir: patients whose form allows sharing, by name"});
  options.push_back(passphraseOption());
  return {{{"export", "FILE", "records for other programs: de-identified JSON, or HL7 FHIR R4",
            std::move(options)},
           exportRecords}};
}

} // namespace gk::office
