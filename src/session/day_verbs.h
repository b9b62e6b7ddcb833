#pragma once

#include "base/progress.h"
#include "followup/copies/backup_note.h"
#include "followup/copies/day_envelope.h"
#include "followup/copies/issued_report.h"
#include "followup/copies/merge_answer.h"
#include "followup/incident.h"
#include "followup/letter.h"
#include "followup/paper_count.h"
#include "followup/referral.h"
#include "kit/lot_count.h"
#include "kit/readiness.h"
#include "roster/days/addendum.h"
#include "roster/days/day_cost.h"
#include "roster/days/day_effort.h"
#include "session/desk_verbs.h"
#include "store/values/merged.h"

namespace gk::session {

/// The verbs of a school day around the chair, and of what follows it.
class DayVerbs : public DeskVerbs {
 public:
  Result<roster::DayId> openDay(By by, const roster::ClinicDay& day);
  Result<base::Done> cancelDay(By by, roster::DayId day, const std::string& reason);
  /// Sealants are placed that day after the dentist's agreement ended; an exception of the day.
  Result<roster::AgreementOverrideId>
  overrideAgreement(By by, const roster::AgreementOverride& taken, const OwnPin& pin = {});
  /// By one of the two who are named.
  Result<roster::ClosureId> signDay(By by, const roster::DayClosure& closure);
  /// Takes the signatures back; they stay in the history, and two people sign again.
  Result<roster::ReopeningId> reopenDay(By by, roster::DayId day, const std::string& reason,
                                        const OwnPin& pin = {});
  Result<roster::AddendumId> addAddendum(By by, const roster::Addendum& addendum,
                                         const OwnPin& pin = {});
  /// An item answered before is answered again; the first answer stays in the history.
  Result<kit::ReadinessId> answerReadiness(By by, const kit::ReadinessCheck& check);
  /// The end of the day's reading is passed over, with a reason.
  Result<kit::LightPassId> passOverLight(By by, const kit::LightPass& pass);
  /// These two in place of what was said before; also after the day is signed.
  Result<base::Done> countPaper(By by, const followup::PaperCount& count);
  Result<base::Done> enterEffort(By by, const roster::DayEffort& effort);
  /// In place of what was said before; also after the day is signed, as bills come later. No line
  /// says that the day cost nothing.
  Result<base::Done> enterCosts(By by, const roster::DayCost& cost);
  /// In place of that day's count of the lot. Nothing left closes it: from the next day on it is
  /// refused, until some is counted.
  Result<base::Done> countLot(By by, const kit::LotCount& count);
  /// After `backUp` went well; also after the day is signed.
  Result<followup::BackupNoteId> noteBackup(By by, const followup::BackupNote& note);
  /// What another laptop needs for a day at `school`, under a passphrase: the logbook as it is now,
  /// of students that school's alone, or of all where none is named, as for the way back
  /// (session/merging/envelope.h). Also in another thread, after
  /// `holdNews`. Never over another file; fails as backUp and writeNewFile, and with
  /// `workCanceled` until the envelope is written.
  Result<base::Done> sealDay(By by, const base::Path& target,
                             const std::optional<roster::SchoolId>& school, std::string passphrase,
                             const base::Progress& progress = {});
  /// Merges one, once it is authenticated whole; in another thread as sealDay. Fails as
  /// openEnvelope and absorb; with `storeNotALogbook` for one of another program's logbook, and
  /// with `recordChanged` for one that was sealed or merged by this logbook already. Then nothing
  /// is written.
  Result<store::Merged> absorbEnvelope(By by, const base::Path& file, std::string passphrase,
                                       const Agreed& agreed = {},
                                       const base::Progress& progress = {});
  /// The logbook of one as a new file, for a laptop that has none yet; verified before it has the
  /// name, and never over another file.
  static Result<base::Done> unpackEnvelope(const base::Path& file, std::string passphrase,
                                           const base::Path& target,
                                           BookKind kind = BookKind::real);
  [[nodiscard]] List<followup::DayEnvelope> dayEnvelopes();
  /// In a line each, oldest first: who merged logbooks, here or elsewhere, and who changed the
  /// logbook's passphrase.
  [[nodiscard]] Result<std::vector<std::string>> bookActs();
  /// The newest school day before today that this laptop has in no good backup; `known` is the
  /// newest that is noted outside the book.
  [[nodiscard]] Result<std::optional<base::Date>> dayNotBackedUp(std::optional<base::Date> known);
  /// So many sheets more were printed.
  Result<base::Done> countOut(By by, roster::DayId day, followup::Paper paper, int sheets);
  /// Of two visits the others' rows are retracted; of two cards all is said of the kept one.
  /// `ruleSeriousFinding` until confirmed, where a dropped visit found more
  /// (followup::moreSerious).
  Result<base::Done> answerMerge(By by, const followup::MergeAnswer& answer,
                                 Confirmed dropsSerious = Confirmed::no);
  /// The question is open again, until the day is signed: what the answer retracted or moved is
  /// reinstated as it was, and the answer stays in the history with the reason.
  Result<base::Done> reopenMerge(By by, const Recorded<followup::MergeAnswer>& old,
                                 const std::string& reason);
  /// Also after the day is signed.
  Result<followup::IncidentId> enterIncident(By by, const followup::Incident& incident);
  Result<base::Done> correctIncident(By by, const Recorded<followup::Incident>& old,
                                     const followup::Incident& incident, const std::string& reason);

  /// Of what two laptops said of one thing while apart, this word stands. Fails with
  /// `recordChanged` where nothing is to be settled any more.
  Result<base::Done> settleWords(By by, base::EntryId kept);

  // Afterwards.
  /// The sealant is on another tooth than was written down: only the tooth changes. `ruleDayOpen`
  /// once that day is signed, but for a child who is in the chair again on a later, open day.
  Result<base::Done> correctTooth(By by, const Recorded<chairside::Placement>& old,
                                  const dentition::Tooth& tooth, const std::string& reason,
                                  const OwnPin& pin = {});
  /// Of the surfaces that EarlierPlacement says are left. `textMalformed` where its note names the
  /// student or an adult, so with the names open where it has one.
  Result<followup::CheckId> enterCheck(By by, const followup::RetentionCheck& check);
  Result<followup::ReferralId> enterReferral(By by, const followup::Referral& referral);
  Result<base::Done> updateReferral(By by, const Recorded<followup::Referral>& old,
                                    const followup::Referral& referral, const std::string& reason);
  Result<followup::ContactId> enterContact(By by, const followup::ContactAttempt& attempt);
  /// As they were written, all or none; also after the day is signed.
  Result<base::Done> enterLetters(By by, const std::vector<followup::Letter>& letters);
  /// Printed again, handed over, come back.
  Result<base::Done> moveLetters(By by, const std::vector<Recorded<followup::Letter>>& letters,
                                 followup::LetterState to);
  /// A report went out; as readyIssue made it.
  Result<followup::IssueId> enterIssue(By by, const followup::IssuedReport& issue);

 protected:
  using DeskVerbs::DeskVerbs;

  /// Without telling anybody, since that may be another thread.
  /// Whom a logbook for that school's day leaves out; erased ones are in none.
  Result<std::vector<roster::ChildId>> childrenBut(roster::SchoolId school);
  Result<base::Done> leaveOthersOut(const base::Path& copy, roster::SchoolId school);
  Result<base::Done> noteEnvelope(const Admission& may, const followup::DayEnvelope& envelope);

 private:
  Result<base::Done> isAsked(const followup::MergeAnswer& answer);
};

} // namespace gk::session
