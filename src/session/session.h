#pragma once

#include "base/signal.h"
#include "followup/backup_note.h"
#include "followup/referral.h"
#include "kit/lot_count.h"
#include "roster/day_effort.h"
#include "roster/meal_eligibility.h"
#include "session/admission.h"
#include "session/chair_work.h"
#include "session/new_child.h"
#include "session/reader.h"
#include "session/undo.h"

namespace gk::session {

using base::By;

struct PastAct;

/// A real book is slow to guess at and durable act by act; a throwaway one is quick to build.
enum class BookKind { real, throwaway };

/// Answer to a rule that only asks ("school confirms the birth date").
enum class Confirmed { no, yes };

/// What an act touched; views read again.
struct Change {
  std::optional<roster::ChildId> child;
};

/// The only door to a logbook: a face says verbs, asks a Reader's questions, and gets Results.
/// Every verb is one transaction, durable when it returns; a verb that fails changed nothing.
/// Clinical verbs check consent on the day's date, the author's licence, the day being open, and
/// the rules of chairside and followup; each fails with the `rule.*` code for it. One thread.
class Session : public Reader {
 public:
  // The book. `create` makes it with its program or not at all; it fails as store::Book::create and
  // vault::Vault::create, `open` as store::openBook. Names stay locked until `unlock`.
  static Result<Session> create(const base::Path& path, std::string passphrase,
                                base::LaptopId laptop, World world, const roster::Program& program,
                                BookKind kind = BookKind::real);
  static Result<Session> open(const base::Path& path, base::LaptopId laptop, World world,
                              store::Access access = store::Access::readWrite,
                              BookKind kind = BookKind::real,
                              store::Checkup checkup = store::Checkup::quick);
  Result<base::Done> unlock(std::string passphrase);
  void lock();
  Result<base::Done> changePassphrase(std::string passphrase);
  Result<base::Done> backUp(const base::Path& target);
  Result<store::Merged> absorb(const base::Path& other);
  Result<std::vector<std::string>> findings();
  Result<base::Done> finish();
  [[nodiscard]] base::Subscription onChanged(std::function<void(const Change&)> listener);

  // The desk.
  Result<roster::ProgramId> enterProgram(By by, const roster::Program& program);
  Result<base::Done> correctProgram(By by, const roster::Program& to, const std::string& reason);
  Result<roster::TermId> enterTerm(By by, const roster::Term& term);
  Result<roster::SchoolId> enterSchool(By by, const roster::School& school);
  /// These two in place of what was known that term.
  Result<roster::EnrolmentId> enterEnrolment(By by, const roster::Enrolment& enrolment);
  Result<base::Done> enterEligibility(By by, const roster::MealEligibility& eligibility);
  Result<base::MemberId> enterMember(By by, const roster::Member& member);
  Result<base::Done> correctMember(By by, base::MemberId id, const roster::Member& member,
                                   const std::string& reason);
  Result<roster::ChildId> enrolChild(By by, roster::Child child, const Identity& identity,
                                     Confirmed schoolConfirmsAge = Confirmed::no,
                                     Confirmed isAnother = Confirmed::no);
  Result<roster::ChildId> enrolChild(By by, NewChild child, Confirmed schoolConfirmsAge,
                                     Confirmed isAnother);
  /// All of them with their forms, or none. `ruleSameChild`, with the numbers of those who may be
  /// the same child (roster::isTooAlike), until a person says that they are others.
  Result<std::vector<roster::ChildId>> enrolRoster(By by, std::vector<NewChild> children,
                                                   Confirmed schoolConfirmsAges = Confirmed::no,
                                                   Confirmed areOthers = Confirmed::no);
  /// The whole import that brought this child, children and forms. `ruleReason` while something
  /// else is recorded on one of them, `notFound` when no import brought the child.
  Result<base::Done> takeBackImport(By by, roster::ChildId oneOfThem, const std::string& reason);
  /// In place of what was known of the child.
  Result<base::Done> enterBackground(By by, const roster::Background& background);
  Result<base::Done> confirmProvisional(By by, roster::ChildId child, const std::string& reason);
  Result<base::Done> moveChild(By by, roster::ChildId child, roster::SchoolId school,
                               const std::string& grade, const std::string& room,
                               const std::string& reason);
  /// With the health alert of the form, if there is one: both or neither.
  Result<roster::ConsentId> enterConsent(By by, const roster::Consent& form,
                                         const std::optional<roster::MedicalFlag>& alert = {});
  Result<base::Done> withdrawConsent(By by, roster::ChildId child, const std::string& how);
  Result<base::Done> correctConsent(By by, const Recorded<roster::Consent>& old,
                                    const roster::Consent& form, const std::string& reason);
  Result<roster::OverrideId> overrideConsent(By by, const roster::ConsentOverride& taken);
  Result<roster::FlagId> enterFlag(By by, const roster::MedicalFlag& flag);
  /// By a clinician who may decide for the program, in words; once.
  Result<base::Done> resolveFlag(By by, const Recorded<roster::MedicalFlag>& flag,
                                 const std::string& decided);
  Result<kit::LightId> enterLight(By by, const kit::Light& light);
  Result<base::Done> correctLight(By by, const Recorded<kit::Light>& old, const kit::Light& light,
                                  const std::string& reason);
  /// Asks (`ruleLight`) about a number that kit::readingQuestion doubts, until it is confirmed.
  Result<kit::ReadingId> enterReading(By by, const kit::MeterReading& reading,
                                      Confirmed confirmed = Confirmed::no);
  Result<kit::LotId> enterLot(By by, const kit::Lot& lot);
  Result<base::Done> quarantineLot(By by, kit::LotId lot, const std::string& reason);
  Result<kit::CureTimeId> enterCureTime(By by, const kit::CureTime& time);

  // The day.
  Result<roster::DayId> openDay(By by, const roster::ClinicDay& day);
  Result<base::Done> cancelDay(By by, roster::DayId day, const std::string& reason);
  /// Sealants are placed that day after the dentist's agreement ended; an exception of the day.
  Result<roster::AgreementOverrideId> overrideAgreement(By by,
                                                        const roster::AgreementOverride& taken);
  Result<roster::ClosureId> signDay(By by, const roster::DayClosure& closure);
  /// An item answered before is answered anew; the first answer stays in the history.
  Result<kit::ReadinessId> answerReadiness(By by, const kit::ReadinessCheck& check);
  /// The end of the day's reading is passed over, with a reason.
  Result<kit::LightPassId> passOverLight(By by, const kit::LightPass& pass);
  /// These two in place of what was said before; also after the day is signed.
  Result<base::Done> countPaper(By by, const followup::PaperCount& count);
  Result<base::Done> enterEffort(By by, const roster::DayEffort& effort);
  /// In place of that day's count of the lot. Nothing left closes it: from the next day on it is
  /// refused, until some is counted.
  Result<base::Done> countLot(By by, const kit::LotCount& count);
  /// After `backUp` went well; also after the day is signed.
  Result<followup::BackupNoteId> noteBackup(By by, const followup::BackupNote& note);
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

  // The chair.
  /// All of them or none. `ruleCredential` unless each dentist may decide on that date.
  Result<std::vector<chairside::AuthorizationId>>
  authorize(By by, const std::vector<chairside::Authorization>& authorizations);
  /// Nothing is placed on its word from now on; what was placed stays.
  Result<base::Done> withdrawAuthorization(By by, const Recorded<chairside::Authorization>& old,
                                           const std::string& reason);
  /// `ruleAllergy` unless every alert is among those heard. What the child or the school says has
  /// changed since the form is entered with it, as one act.
  Result<chairside::SeatingId> seat(By by, const chairside::Seating& seating,
                                    const std::vector<roster::MedicalFlag>& flagged = {});
  Result<chairside::ScreeningId> screen(By by, const chairside::Screening& screening);
  Result<base::Done> correctScreening(By by, const Recorded<chairside::Screening>& old,
                                      const chairside::Screening& screening,
                                      const std::string& reason);
  Result<chairside::FieldId> isolate(By by, const chairside::Field& field);
  /// What one key does at the chair, written as one act or not at all: each row is judged as if
  /// those before it were in the book. A check also writes the tooth's placement. The least of a
  /// step is the program's and the makers'; a row says of itself at most a higher one.
  Result<Worked> work(By by, const ChairWork& work);
  // One row of such work.
  Result<chairside::TimerId> startTimer(By by, const chairside::TimerStart& start);
  Result<chairside::StepId> enterStep(By by, const chairside::StepRun& run);
  Result<chairside::WetId> wet(By by, const chairside::Wet& event);
  Result<base::Done> stopTeeth(By by, chairside::FieldId field,
                               const std::vector<dentition::Tooth>& teeth,
                               const std::string& reason);
  /// In place of what was said of that child's day before.
  Result<base::Done> enterAfterCure(By by, const chairside::AfterCure& after);
  /// Asks to be confirmed before the sealants that were planned, or sooner than the program waits.
  Result<chairside::VarnishId> varnish(By by, const chairside::Varnish& varnish,
                                       Confirmed confirmed = Confirmed::no);
  /// Asks to be confirmed where sealants were placed and nothing is said of wiping and bite
  /// (`ruleOutcome`), or a varnish that the form allows is neither on nor left out with a reason
  /// (`ruleVarnish`).
  Result<chairside::OutcomeId> endVisit(By by, const chairside::DayOutcome& outcome,
                                        Confirmed confirmed = Confirmed::no);
  /// What undo would take back there, in words. `notFound` says why there is nothing.
  Result<UndoableAct> undoable(const UndoAt& at);
  /// Takes back the last act that UndoAt allows, all its rows; the words of what was taken back.
  /// Who acts needs the right to that act. Sealant that was placed is in a mouth: taking back a
  /// step of it is a correction, `ruleReason` without why.
  Result<std::string> undo(By by, const UndoAt& at, const std::string& why = {});
  /// Does again what undo took back there last, as long as nothing else was done there since.
  Result<std::string> redo(By by, const UndoAt& at);

  /// The visit was written on paper first. `rulePaper` unless the sheet is named, no other child's
  /// on that day, and was checked by another than who types.
  Result<chairside::PaperId> enterPaper(By by, const chairside::PaperSheet& sheet);

  // Afterwards.
  /// The sealant is on another tooth than was written down: only the tooth changes. `ruleDayOpen`
  /// once that day is signed, but for a child who is in the chair again on a later, open day.
  Result<base::Done> correctTooth(By by, const Recorded<chairside::Placement>& old,
                                  const dentition::Tooth& tooth, const std::string& reason);
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

 private:
  Session(store::Book book, World world) : Reader(std::move(book), world) {}

  /// Holds the act against its row of `verbRules`, and fails as that says.
  Result<Admission> admit(Verb verb, By by, const About& about = {});
  template <class Work>
  auto write(const Admission& may, std::optional<roster::ChildId> child, Work work)
      -> Result<std::invoke_result_t<Work, store::Act&>>;

  /// As `write`, where the act goes by another name in the history.
  template <class Work>
  auto writeAs(const Admission& may, std::string_view name, std::optional<roster::ChildId> child,
               Work work) -> Result<std::invoke_result_t<Work, store::Act&>>;
  Result<std::vector<roster::ChildId>> enrol(Verb verb, By by, std::vector<NewChild> children,
                                             Confirmed schoolConfirmsAges, Confirmed areOthers);

  // session_undo.cpp
  Result<PastAct> lastUndoable(const UndoAt& at);
  Result<PastAct> lastUndo(const UndoAt& at);
  Result<std::string> wordsOf(const PastAct& act);

  // The questions that verbs ask first; session_admit.cpp and session_rules.cpp.
  /// As roster::mayDo.
  Result<Recorded<roster::Member>> entitled(base::MemberId who, roster::Task task, base::Date on);
  Result<Recorded<roster::ClinicDay>> dayInState(roster::DayId day, DayMust must);
  /// No program or no school day is in the book yet.
  Result<bool> isSettingUp();
  Result<base::Done> agreementHolds(roster::DayId day);
  Result<base::Done> mayTreat(roster::ChildId child, roster::Service service, base::Date on);
  /// Fine where the program does not wait for a dentist.
  Result<base::Done> areAuthorized(roster::ChildId child,
                                   const std::vector<dentition::ToothSurfaces>& teeth,
                                   base::Date on);
  Result<base::Done> isSeated(roster::ChildId child, roster::DayId day);
  Result<base::Done> lotFits(kit::LotId lot, roster::ChildId child, base::Date on);
  Result<base::Done> lightFits(kit::LightId light, base::Date on, const chairside::StepRun& run,
                               const roster::Member& author);
  /// `besides` are placements that are about to be written.
  Result<base::Done> outcomeFits(const chairside::DayOutcome& outcome,
                                 std::span<const chairside::Placement> besides);
  Result<base::Done> isCareComplete(const chairside::DayOutcome& outcome, base::Date on);
  /// A tooth that was looked at again today, and what is to be done with it.
  struct CheckedTooth {
    dentition::Tooth tooth;
    dentition::SurfaceSet surfaces;
    followup::CheckAction action;
  };
  Result<std::vector<CheckedTooth>> teethChecked(roster::ChildId child, roster::DayId day);
  Result<base::Done> teethAreChosen(const chairside::Field& field);
  Result<base::Done> addsToToday(const chairside::Field& field);
  Result<base::Done> resealsAreExplained(const chairside::Screening& screening,
                                         const chairside::Screening* old);
  Result<Admission> mayCorrect(By by, const Recorded<chairside::Screening>& old,
                               const chairside::Screening& screening, const std::string& reason);
  Result<std::vector<Recorded<roster::Consent>>> formsToWithdraw(roster::ChildId child,
                                                                 const std::string& how);

  // Chair work while it is judged; session_work.cpp.
  struct Bench;
  Result<FieldState*> inHand(Bench& bench, Verb verb, chairside::FieldId field,
                             std::optional<std::string_view> reason = {});
  Result<base::Seconds> leastOf(const FieldState& state, chairside::Step step,
                                std::span<const dentition::ToothSurfaces> teeth,
                                const std::optional<kit::LightId>& light);
  Result<base::Done> judge(Bench& bench, chairside::StepRun run);
  Result<base::Done> judge(Bench& bench, const chairside::Wet& wet);
  Result<base::Done> judge(Bench& bench, const ChairStop& stop);
  Result<base::Done> judge(Bench& bench, chairside::TimerStart start);
  Result<base::Done> judge(Bench& bench, const chairside::DayOutcome& outcome, Confirmed confirmed);
  Result<chairside::PlacementType> placementType(const chairside::Field& field,
                                                 const dentition::Tooth& tooth);

  base::Signal<Change> changed_;
};

} // namespace gk::session
