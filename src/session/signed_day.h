#pragma once

#include <algorithm>
#include <array>
#include <stdexcept>
#include <string_view>

namespace gk::session {

/// What a signature on the day does to a verb.
enum class AfterSigning {
  refused,  ///< it changes what was signed for: `rule.day-open`
  allowed,  ///< work that comes after the day
  notOfADay ///< it changes no day: set-up, a child's card, a form, the kit
};

struct SignedDayRow {
  std::string_view verb;
  AfterSigning after;
  std::string_view why; ///< as docs/signed-days.md prints it
};

/// Every verb of the Session that writes, in the order of session.h.
inline constexpr auto signedDayRows = std::to_array<SignedDayRow>({
    {"enterProgram", AfterSigning::notOfADay, "set-up"},
    {"enterTerm", AfterSigning::notOfADay, "set-up"},
    {"enterSchool", AfterSigning::notOfADay, "set-up"},
    {"enterEnrolment", AfterSigning::notOfADay, "set-up"},
    {"enterEligibility", AfterSigning::notOfADay, "set-up"},
    {"enterMember", AfterSigning::notOfADay, "set-up"},
    {"enrolChild", AfterSigning::notOfADay, "the student's card"},
    {"enrolRoster", AfterSigning::notOfADay, "the students' cards"},
    {"enterBackground", AfterSigning::notOfADay, "the student's card"},
    {"confirmProvisional", AfterSigning::notOfADay, "the student's card"},
    {"moveChild", AfterSigning::notOfADay, "the student's card; a finished term keeps the old one"},
    {"enterConsent", AfterSigning::notOfADay, "a form is kept whenever it comes"},
    {"enterForm", AfterSigning::notOfADay, "a form is kept whenever it comes"},
    {"withdrawConsent", AfterSigning::notOfADay,
     "a guardian may always withdraw; the outcome of a signed day stays"},
    {"correctConsent", AfterSigning::notOfADay, "a form is corrected with a reason"},
    {"overrideConsent", AfterSigning::refused, "the sheet lists who was seen without a consent"},
    {"enterFlag", AfterSigning::notOfADay, "an allergy is noted whenever it is heard of"},
    {"resolveFlag", AfterSigning::notOfADay, "the student's card"},
    {"enterLight", AfterSigning::notOfADay, "the kit"},
    {"correctLight", AfterSigning::notOfADay, "the kit"},
    {"enterReading", AfterSigning::notOfADay,
     "a light's own log; a weak reading of that evening must show"},
    {"enterLot", AfterSigning::notOfADay, "the kit"},
    {"quarantineLot", AfterSigning::notOfADay, "a recall comes when it comes"},
    {"enterCureTime", AfterSigning::notOfADay, "the kit"},
    {"openDay", AfterSigning::notOfADay, "makes a new day"},
    {"cancelDay", AfterSigning::refused, "a signed day took place"},
    {"signDay", AfterSigning::refused, "it is signed"},
    {"reopenDay", AfterSigning::allowed, "the way to change it, with a reason"},
    {"addAddendum", AfterSigning::allowed, "the way to add to it; only for signed days"},
    {"answerReadiness", AfterSigning::refused, "the morning's check was signed for"},
    {"passOverLight", AfterSigning::refused, "the sheet lists it"},
    {"countPaper", AfterSigning::allowed, "paper comes back later"},
    {"enterEffort", AfterSigning::allowed, "hours are counted later"},
    {"countLot", AfterSigning::allowed, "packages are counted later"},
    {"noteBackup", AfterSigning::allowed, "the backup holds the signatures"},
    {"countOut", AfterSigning::allowed, "letters are printed later"},
    {"answerMerge", AfterSigning::refused, "it takes clinical entries back"},
    {"reopenMerge", AfterSigning::refused, "it brings clinical entries back"},
    {"enterIncident", AfterSigning::allowed, "written when it is known"},
    {"correctIncident", AfterSigning::allowed, "followed until it is settled"},
    {"authorize", AfterSigning::notOfADay, "the dentist's exam"},
    {"withdrawAuthorization", AfterSigning::notOfADay, "what was placed stays"},
    {"seat", AfterSigning::refused, "clinical"},
    {"screen", AfterSigning::refused, "clinical"},
    {"correctScreening", AfterSigning::refused, "clinical"},
    {"isolate", AfterSigning::refused, "clinical"},
    {"startTimer", AfterSigning::refused, "clinical"},
    {"enterStep", AfterSigning::refused, "clinical"},
    {"wet", AfterSigning::refused, "clinical"},
    {"stopTeeth", AfterSigning::refused, "clinical"},
    {"varnish", AfterSigning::refused, "clinical"},
    {"endVisit", AfterSigning::refused, "the outcome is in the count of students"},
    {"undo", AfterSigning::refused, "an act of the day would be taken back"},
    {"enterPaper", AfterSigning::refused, "clinical, typed from paper"},
    {"correctTooth", AfterSigning::refused, "clinical"},
    {"enterCheck", AfterSigning::refused, "clinical"},
    {"enterReferral", AfterSigning::allowed, "follow-up"},
    {"updateReferral", AfterSigning::allowed, "follow-up"},
    {"enterContact", AfterSigning::allowed, "calls go on until a guardian is reached"},
    {"enterLetters", AfterSigning::allowed, "letters are printed later"},
    {"moveLetters", AfterSigning::allowed, "letters come back later"},
    {"enterIssue", AfterSigning::notOfADay, "a report went out"},
});

/// Precondition: a verb of the table; in a constant expression another does not compile.
constexpr AfterSigning afterSigning(std::string_view verb) {
  const auto* row = std::ranges::find(signedDayRows, verb, &SignedDayRow::verb);
  if (row == signedDayRows.end()) throw std::logic_error("a verb without a row in signedDayRows");
  return row->after;
}

} // namespace gk::session
