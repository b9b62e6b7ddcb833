#pragma once

#include "base/identity/entry.h"
#include "roster/consent/consent.h"
#include "roster/team/team.h"

#include <optional>
#include <string_view>

namespace gk::session {

/// Every act that a Session writes. Each has one row in `verbRules`, which `Door::admit`
/// consults before anything else; what writes asks for the admission, so a verb without a row
/// cannot write.
enum class Verb {
  // The desk.
  enterProgram,
  correctProgram,
  enterTerm,
  correctTerm,
  removeTerm,
  enterYear,
  correctYear,
  removeYear,
  enterSchool,
  correctSchool,
  removeSchool,
  closeSchool,
  reopenSchool,
  enterEnrollment,
  enterEligibility,
  enterMember,
  correctMember,
  setPin,
  resetPin,
  retireMember,
  enterKey,
  changeKey,
  revokeKey,
  makeRecoveryCode,
  withdrawRecoveryCode,
  replaceBookKey,
  changePassphrase,
  enrollChild,
  importRoster,
  takeBackImport,
  enterBackground,
  confirmProvisional,
  moveChild,
  leaveProgram,
  comeBack,
  correctStudent,
  joinCards,
  partCards,
  eraseStudent,
  eraseListed,
  enterConsent,
  withdrawConsent,
  correctConsent,
  enterHandout,
  correctHandout,
  planDay,
  correctPlan,
  overrideConsent,
  enterFlag,
  resolveFlag,
  enterLight,
  correctLight,
  enterReading,
  enterLot,
  correctLot,
  quarantineLot,
  enterCureTime,
  // The day.
  openDay,
  cancelDay,
  overrideAgreement,
  signDay,
  reopenDay,
  addAddendum,
  answerReadiness,
  passOverLight,
  countPaper,
  enterEffort,
  enterCosts,
  countLot,
  noteBackup,
  noteEnvelope,
  merge,
  countOut,
  answerMerge,
  reopenMerge,
  settleWords,
  confirmPlacements,
  enterIncident,
  correctIncident,
  // The chair.
  authorize,
  withdrawAuthorization,
  seat,
  screen,
  correctScreening,
  isolate,
  startTimer,
  enterStep,
  wet,
  stopTeeth,
  enterAfterCure,
  varnish,
  endVisit,
  enterPaper,
  // Afterwards.
  correctTooth,
  enterCheck,
  enterReferral,
  updateReferral,
  enterContact,
  enterLetters,
  moveLetters,
  enterIssue,
  // What takes back, and says again.
  undo,
  redo,
  verbs ///< how many there are
};

/// What an act asks of the school day that it is about.
enum class DayMust {
  none,    ///< it is about no day
  exist,   ///< also after the signatures: calls, letters, counts, incidents
  beOpen,  ///< neither canceled nor signed
  beSigned ///< an addendum, a reopening
};

/// What of the program an act changes, and so who may: roster::keepsTeam, roster::keepsKit. As long
/// as none of the team does, whoever has the task.
enum class Keeps { nothing, kit, program };

/// What the author of an act must be able to do.
struct Right {
  constexpr Right(roster::Task asked, Keeps kept = Keeps::nothing) : task(asked), keeps(kept) {}
  roster::Task task;
  Keeps keeps;
};

/// How an act is taken back.
enum class TakenBack {
  here,  ///< by undo, at the place where it was done
  byOwn, ///< never by undo: a correction, a withdrawal or a verb of its own does it
  never  ///< never, and undo takes nothing back that is older either: it left the book
};

/// Whether an act asks for the PIN of the one who answers for it, where she has one.
enum class PinAsked {
  no,
  yes,
  onSigned ///< where the day that it changes is signed
};

/// One row of the table: who may act, in what state, what is refused.
/// No author, or one without the right: `rule.credential`. Another state of the day:
/// `rule.day-open`. A child not seated that day: `rule.identity`. No consent to the service:
/// `rule.consent`. No reason: `rule.reason`. No right PIN of hers where one is asked for, or
/// someone with a PIN who types and is not signed in: `pin.needed`. Refusals come in that order.
struct VerbRule {
  Verb verb;
  std::string_view name;  ///< as the history keeps it; never changed once released
  std::string_view words; ///< what was done, as a person reads it when it is taken back
  Right right;            ///< asked of the author; a recorder needs the right to type alone
  DayMust day = DayMust::none;
  bool asksSeated = false;
  std::optional<roster::Service> consent{};
  bool asksReason = false;
  /// Also by no one, as long as the book has no program or no school day, and no one has a PIN.
  bool atSetup = false;
  base::Station station = base::Station::desk;
  TakenBack takenBack = TakenBack::here;
  PinAsked pin = PinAsked::no; ///< of the author
};

} // namespace gk::session
