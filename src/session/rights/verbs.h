#pragma once

#include "session/rights/verb.h"

#include <algorithm>
#include <array>

namespace gk::session {

// clang-format off
inline constexpr auto verbRules = [] {
  using enum Verb;
  using roster::Task;
  using roster::Service;
  using base::Station;
  constexpr auto here = TakenBack::here;
  constexpr auto byOwn = TakenBack::byOwn;
  constexpr auto never = TakenBack::never;
  constexpr std::optional<Service> any{};
  constexpr auto type = Task::type;
  constexpr Right keep{type, Keeps::program};
  constexpr Right kit{type, Keeps::kit};
  constexpr auto place = Task::place;
  constexpr auto sign = Task::sign;
  constexpr auto none = DayMust::none;
  constexpr auto exist = DayMust::exist;
  constexpr auto open = DayMust::beOpen;
  constexpr auto pin = PinAsked::yes;
  return std::to_array<VerbRule>({
    // verb, name, words, right, day, seated, consent, reason, setup, station, taken back, PIN
    {enterProgram, "enter program", "Program", keep, none, false, any, false, true, Station::program, byOwn},
    {correctProgram, "correct program", "Program changed", keep, none, false, any, true, true, Station::program, byOwn},
    {enterTerm, "enter term", "Term", keep, none, false, any, false, true, Station::program, byOwn},
    {correctTerm, "correct term", "Term changed", keep, none, false, any, true, true, Station::program, here},
    {removeTerm, "remove term", "Term removed", keep, none, false, any, true, true, Station::program, byOwn},
    {enterYear, "enter year", "Year", keep, none, false, any, false, true, Station::program, here},
    {correctYear, "correct year", "Year changed", keep, none, false, any, true, true, Station::program, here},
    {removeYear, "remove year", "Year removed", keep, none, false, any, true, true, Station::program, byOwn},
    {enterSchool, "enter school", "School", keep, none, false, any, false, true, Station::schools, here},
    {correctSchool, "correct school", "School changed", keep, none, false, any, true, true, Station::schools, here},
    {removeSchool, "remove school", "School removed", keep, none, false, any, true, true, Station::schools, byOwn},
    {closeSchool, "close school", "School closed", keep, none, false, any, true, false, Station::schools, byOwn},
    {reopenSchool, "reopen school", "School reopened", keep, none, false, any, true, false, Station::schools, byOwn},
    {enterEnrollment, "enter enrollment", "Enrollment", keep, none, false, any, false, true, Station::schools, here},
    {enterEligibility, "enter eligibility", "Meal eligibility", keep, none, false, any, false, true, Station::schools, here},
    {enterMember, "enter member", "Team member", keep, none, false, any, false, true, Station::team, byOwn},
    {correctMember, "correct member", "Team member changed", keep, none, false, any, true, true, Station::team, byOwn},
    {setPin, "set PIN", "PIN chosen", type, none, false, any, false, false, Station::team, byOwn, pin},
    {resetPin, "reset PIN", "PIN reset", keep, none, false, any, true, false, Station::team, byOwn, pin},
    {retireMember, "retire member", "Left the team", keep, none, false, any, true, false, Station::team, byOwn, pin},
    {enterKey, "set passphrase", "Own passphrase set", type, none, false, any, false, false, Station::team, byOwn, pin},
    {changeKey, "change passphrase", "Own passphrase changed", type, none, false, any, false, false, Station::team, byOwn},
    {revokeKey, "revoke key", "Signing key revoked", type, none, false, any, true, false, Station::team, byOwn, pin},
    {makeRecoveryCode, "make recovery code", "Recovery code made", keep, none, false, any, false, false, Station::program, byOwn, pin},
    {withdrawRecoveryCode, "withdraw recovery code", "Recovery code withdrawn", keep, none, false, any, true, false, Station::program, byOwn, pin},
    {replaceBookKey, "replace key", "Key of the names replaced", keep, none, false, any, true, false, Station::program, byOwn, pin},
    {changePassphrase, "change book passphrase", "Logbook's passphrase changed", type, none, false, any, false, true, Station::desk, byOwn},
    {enrollChild, "enroll child", "Student added", type, none, false, any, false, false, Station::board, here},
    {importRoster, "import roster", "Roster imported", type, none, false, any, false, false, Station::rosters, never},
    {takeBackImport, "take back import", "Roster import undone", type, none, false, any, true, false, Station::rosters, never},
    {enterBackground, "enter background", "Background", type, none, false, any, false, false, Station::rosters, here},
    {confirmProvisional, "confirm provisional", "Student confirmed", type, none, false, any, true, false, Station::rosters, here},
    {moveChild, "move child", "Student moved", type, none, false, any, true, false, Station::rosters, here},
    {leaveProgram, "leave program", "Student left the program", type, none, false, any, false, false, Station::rosters, here},
    {comeBack, "come back", "Student is back", type, none, false, any, true, false, Station::rosters, here},
    {correctStudent, "correct student", "Student's details corrected", type, none, false, any, true, false, Station::rosters, here},
    {joinCards, "join cards", "Two cards joined", type, none, false, any, true, false, Station::rosters, byOwn},
    {partCards, "part cards", "Joined cards separated", type, none, false, any, true, false, Station::rosters, byOwn},
    {eraseStudent, "erase student", "Student erased", sign, none, false, any, true, false, Station::rosters, never, pin},
    {eraseListed, "erase listed", "Erased as another laptop listed", sign, none, false, any, false, false, Station::rosters, never, pin},
    {enterConsent, "enter consent", "Consent form", type, none, false, any, false, false, Station::consent, here},
    {withdrawConsent, "withdraw consent", "Consent withdrawn", type, none, false, any, true, false, Station::board, byOwn},
    {correctConsent, "correct consent", "Consent form corrected", type, none, false, any, true, false, Station::consent, byOwn},
    {enterHandout, "enter handout", "Forms handed out", type, none, false, any, false, false, Station::consent, here},
    {correctHandout, "correct handout", "Forms handed out corrected", type, none, false, any, true, false, Station::consent, byOwn},
    {planDay, "plan day", "Day planned", type, none, false, any, false, false, Station::desk, here},
    {correctPlan, "correct plan", "Planned day changed", type, none, false, any, true, false, Station::desk, byOwn},
    {overrideConsent, "override consent", "Consent override", Task::clinicianOverride, none, false, any, true, false, Station::chair, here, pin},
    {enterFlag, "enter flag", "Medical alert", type, none, false, any, false, false, Station::chair, byOwn},
    {resolveFlag, "resolve flag", "Medical alert resolved", Task::clinicianOverride, none, false, any, true, false, Station::chair, byOwn, pin},
    {enterLight, "enter light", "Curing light", kit, none, false, any, false, true, Station::lights, here},
    {correctLight, "correct light", "Curing light corrected", kit, none, false, any, true, true, Station::lights, here},
    {enterReading, "enter reading", "Light reading", kit, none, false, any, false, true, Station::lights, here},
    {enterLot, "enter lot", "Lot", kit, none, false, any, false, true, Station::lots, here},
    {correctLot, "correct lot", "Lot corrected", kit, none, false, any, true, true, Station::lots, here},
    {quarantineLot, "set lot aside", "Lot set aside", kit, none, false, any, true, false, Station::lots, byOwn},
    {enterCureTime, "enter cure time", "Cure time", kit, none, false, any, false, true, Station::lights, here},

    {openDay, "open day", "School day opened", type, none, false, any, false, false, Station::board, byOwn},
    {cancelDay, "cancel day", "School day canceled", type, open, false, any, true, false, Station::board, here},
    {overrideAgreement, "override agreement", "Agreement override", Task::clinicianOverride, open, false, any, true, false, Station::chair, byOwn, pin},
    {signDay, "sign day", "Signatures", sign, open, false, any, false, false, Station::closeOut, never},
    {reopenDay, "reopen day", "Signatures removed", sign, DayMust::beSigned, false, any, true, false, Station::closeOut, never, pin},
    {addAddendum, "add late entry", "Late entry", type, DayMust::beSigned, false, any, false, false, Station::closeOut, byOwn, pin},
    {answerReadiness, "answer readiness", "Equipment check", type, open, false, any, false, false, Station::equipment, here},
    {passOverLight, "skip light", "Light reading skipped", type, open, false, any, true, false, Station::closeOut, here},
    {countPaper, "count paper", "Paper count", type, open, false, any, false, false, Station::closeOut, here},
    {enterEffort, "enter hours", "Staff and chair hours", type, open, false, any, false, false, Station::closeOut, here},
    {enterCosts, "enter costs", "Costs of the day", type, exist, false, any, false, false, Station::closeOut, here},
    {countLot, "count lot", "Supply count", type, open, false, any, false, false, Station::closeOut, here},
    {noteBackup, "note backup", "Backup", type, exist, false, any, false, false, Station::closeOut, never},
    {noteEnvelope, "note envelope", "Day envelope", type, none, false, any, false, false, Station::closeOut, never},
    {merge, "merge", "Laptop merged", type, none, false, any, false, true, Station::closeOut, byOwn},
    {countOut, "record printed", "Printed lists", type, exist, false, any, false, false, Station::closeOut, byOwn},
    {answerMerge, "answer merge", "Laptop conflict resolved", sign, open, false, any, false, false, Station::closeOut, byOwn},
    {reopenMerge, "reopen merge", "Laptop conflict reopened", sign, open, false, any, true, false, Station::closeOut, byOwn},
    {settleWords, "settle words", "One of two laptops' entries kept", sign, none, false, any, false, false, Station::closeOut, byOwn},
    {confirmPlacements, "confirm placements", "Placements confirmed", place, exist, false, any, false, false, Station::closeOut, byOwn, pin},
    {enterIncident, "enter incident", "Incident", type, exist, false, any, false, false, Station::incident, byOwn},
    {correctIncident, "correct incident", "Incident corrected", type, exist, false, any, true, false, Station::incident, byOwn},

    {authorize, "authorize", "Dentist's authorization", type, none, false, any, false, false, Station::board, here},
    {withdrawAuthorization, "withdraw authorization", "Authorization withdrawn", type, none, false, any, true, false, Station::board, byOwn},
    {seat, "seat", "Identity confirmed", type, open, false, any, false, false, Station::chair, here},
    {screen, "screen", "Screening", Task::screen, open, true, Service::screening, false, false, Station::chair, here},
    {correctScreening, "correct screening", "Change of the findings", Task::screen, open, false, any, true, false, Station::chair, here},
    {isolate, "isolate", "Isolation", place, open, true, any, false, false, Station::chair, here},
    {startTimer, "start timer", "Timer started", place, open, true, any, false, false, Station::chair, here},
    {enterStep, "enter step", "Step", place, open, true, any, false, false, Station::chair, here},
    {wet, "contaminated", "Contamination", place, open, true, any, false, false, Station::chair, here},
    {stopTeeth, "stop teeth", "Teeth stopped", place, open, true, any, true, false, Station::chair, here},
    {enterAfterCure, "after cure", "Wiped surface and bite", place, open, true, any, false, false, Station::chair, here},
    {varnish, "varnish", "Fluoride varnish", Task::varnish, open, true, Service::varnish, false, false, Station::chair, here},
    {endVisit, "end visit", "Visit outcome", type, open, false, any, false, false, Station::chair, here},
    {enterPaper, "enter paper", "Paper sheet", type, open, false, any, false, false, Station::board, here},

    {correctTooth, "correct tooth", "Sealant moved to another tooth", place, exist, false, any, true, false, Station::chair, byOwn, PinAsked::onSigned},
    {enterCheck, "enter check", "Recheck", Task::checkRetention, open, true, Service::recheckAndReplace, false, false, Station::chair, here},
    {enterReferral, "enter referral", "Referral", type, exist, false, any, false, false, Station::closeOut, here},
    {updateReferral, "update referral", "Referral updated", type, exist, false, any, true, false, Station::closeOut, byOwn},
    {enterContact, "enter contact", "Call", type, none, false, any, false, false, Station::closeOut, byOwn},
    {enterLetters, "enter letters", "Letters printed", type, none, false, any, false, false, Station::closeOut, byOwn},
    {moveLetters, "move letters", "Letters handed out", type, none, false, any, false, false, Station::closeOut, never},
    {enterIssue, "enter issue", "Report issued", type, none, false, any, false, false, Station::totals, never},

    {undo, "undo", "Undo", type, none, false, any, false, false, Station::unsaid, byOwn},
    {redo, "redo", "Redo", type, none, false, any, false, false, Station::unsaid, byOwn},
  });
}();
// clang-format on

static_assert(
    verbRules.size() == static_cast<std::size_t>(Verb::verbs) &&
        [] {
          for (std::size_t i = 0; i < verbRules.size(); ++i)
            if (verbRules[i].verb != static_cast<Verb>(i)) return false;
          return true;
        }(),
    "each verb has its row, in the order of the enumeration");

constexpr const VerbRule& ruleOf(Verb verb) {
  return verbRules[static_cast<std::size_t>(verb)];
}

/// None for acts of books that were written before acts kept their verb.
constexpr const VerbRule* ruleNamed(std::string_view name) {
  const auto* const found = std::ranges::find(verbRules, name, &VerbRule::name);
  return found == verbRules.end() ? nullptr : found;
}

} // namespace gk::session
