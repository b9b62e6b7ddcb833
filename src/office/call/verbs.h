#pragma once

#include "office/call/call.h"
#include "office/call/surroundings.h"

namespace gk::office {

/// What a call comes to; the numbers are the exit codes.
enum class Exit { fine = 0, findings = 1, trouble = 2 };

/// One verb: what it takes and what does it. An error has changed nothing, or says what it has.
struct Verb {
  Shape shape;
  base::Result<Exit> (*work)(const Call& call, const Surroundings& around);
};

std::vector<Verb> bookVerbs();          ///< new, change-passphrase, check, backup, merge
std::vector<Verb> applyVerbs();         ///< apply
std::vector<Verb> setupVerbs();         ///< add-school, add-term, add-member, add-enrollment
std::vector<Verb> correctingVerbs();    ///< set-program, correct-member, correct-light
std::vector<Verb> childVerbs();         ///< confirm-child, move-child, correct-consent, ...
std::vector<Verb> erasureVerbs();       ///< erase-student
std::vector<Verb> keyVerbs();           ///< replace-key, retire-member
std::vector<Verb> papersVerbs();        ///< open-papers
std::vector<Verb> envelopeVerbs();      ///< seal-day, merge-day, unpack-day, day-envelopes
std::vector<Verb> kitVerbs();           ///< add-light, add-lot, add-cure-time
std::vector<Verb> rosterVerbs();        ///< import-roster, take-back-import
std::vector<Verb> authorizationVerbs(); ///< import-authorizations
std::vector<Verb> dayVerbs();           ///< open-day, close-out
std::vector<Verb> closingVerbs();       ///< enter-hours, count-lot, set-lot-aside, set-...
std::vector<Verb> letterVerbs();        ///< letters, languages, letter-templates
std::vector<Verb> totalsVerbs();        ///< totals
std::vector<Verb> reportVerbs();        ///< report
std::vector<Verb> exportVerbs();        ///< export
std::vector<Verb> estimateVerbs();      ///< estimate averted, retention, attack-rate, money
std::vector<Verb> comparingVerbs();     ///< estimate curve, compare, funnel, shrink

} // namespace gk::office
