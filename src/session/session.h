#pragma once

#include "base/progress.h"
#include "exchange/papers.h"
#include "session/day_verbs.h"
#include "session/rights/undo.h"
#include "session/values/chair_work.h"
#include "store/digest/hand_memory.h"
#include "store/values/access.h"
#include "store/values/fault.h"
#include "store/values/merged.h"

#include <functional>

namespace gk::store {
struct HistoryLine;
}

namespace gk::session {

struct PastAct;
class SnapshotDraft;

// What a face says of a logbook: it knows the session and not the store.
using store::Access;
using store::Checkup;
using store::Fault;
using store::HandMemory;
using store::Merged;
using store::sentence;

/// The only door to a logbook: a face says verbs, asks a Reader's questions, and gets Results.
/// Every verb is one transaction, durable when it returns; a verb that fails changed nothing.
/// Clinical verbs check consent on the day's date, the author's license, the day being open, and
/// the rules of chairside and followup; each fails with the `rule.*` code for it. One thread.
class Session : public DayVerbs {
 public:
  // The book. `create` makes it with its program or not at all; it fails as store::Book::create and
  // vault::Vault::create, `open` as store::openBook. Names stay locked until `unlock`.
  static Result<Session> create(const base::Path& path, std::string passphrase,
                                const store::HandMemory& laptop, World world,
                                const roster::Program& program, BookKind kind = BookKind::real,
                                Confirmed clockIsRight = Confirmed::no);
  /// A clock that no logbook of this program can begin under, as far as anyone can tell: what to
  /// ask. Unless it was said to be right, `create` fails with `clockAhead` then.
  static std::optional<std::string> firstClockQuestion(base::LocalInstant now);
  static Result<Session> open(const base::Path& path, const store::HandMemory& laptop, World world,
                              store::Access access = store::Access::readWrite,
                              BookKind kind = BookKind::real,
                              store::Checkup checkup = store::Checkup::whole,
                              const base::Progress& progress = {});
  /// A copy of this book as it is now, to try acts on: a hidden file that is gone with it. What is
  /// open here is open there.
  Result<Session> rehearsal();
  /// Whether opening it first brings it up to date, which takes a while; false where it cannot be
  /// told.
  static bool isOfOlderVersion(const base::Path& path);
  /// By the logbook's passphrase, its recovery code or a member's own passphrase; by hers alone
  /// where it is said who she is, with the waits of `openKey`. Without, a few of the team's are
  /// tried.
  Result<base::Done> unlock(std::string passphrase, const std::optional<base::MemberId>& who = {});
  void lock();
  /// By whoever knows the present one, or has the recovery code: an unlocked laptop is not enough.
  /// `vaultWrongPassphrase`; `vaultWait` after several of them.
  Result<base::Done> changePassphrase(By by, std::string present, std::string next);
  Result<base::Done> backUp(const base::Path& target);
  /// False once the file was moved, deleted or replaced: what is open here is lost when it is
  /// closed, unless it is backed up before.
  [[nodiscard]] bool isInPlace() const;
  /// Changes with whatever is written here or merged in; up to its colon, which book it is.
  [[nodiscard]] std::string edition() const;
  /// Of the book as it is once all is copied, for long work in another thread.
  Result<std::unique_ptr<SnapshotDraft>> snapshot();
  /// `storeForked` where one laptop went on in copies of its disk or logbook, `storeErases` where
  /// the other one lists students as erased whose records are here, until one who may erase agrees
  /// to it (Verb::eraseListed). Where anything came, an entry says who merged it (Agreed::by).
  Result<store::Merged> absorb(const base::Path& other, const Agreed& agreed = {},
                               const base::Progress& progress = {});
  /// Before an act that is done in another thread: while it runs nothing may be asked here, and
  /// whoever listens hears of it at `tellNews`, in the session's own thread.
  void holdNews();
  void tellNews();
  /// In a line each: what went on in a copy of a laptop's disk or logbook.
  Result<std::vector<std::string>> copiedLines();
  /// All that is wrong with the file and its history; empty when it is whole.
  Result<std::vector<store::Fault>> findings();
  /// As findings, of a file that may be too damaged to be opened, which is then what it finds.
  static Result<std::vector<store::Fault>> inspect(const base::Path& path, World world);
  /// As signedSheet, of a file that need not be whole.
  static Result<SignedSheet> inspectSheet(const base::Path& path, World world,
                                          const std::string& code);
  /// What Snapshot::sealPapers made of them. `papersUnreadable` for any other file, and where it
  /// was of another logbook or changed.
  Result<std::vector<exchange::Paper>> openPapers(std::string_view file);
  Result<base::Done> finish();
  [[nodiscard]] base::Subscription onChanged(std::function<void(const Change&)> listener);

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

 private:
  Session(store::Book book, World world);

  // session_undo.cpp
  Result<PastAct> lastUndoable(const UndoAt& at);
  Result<PastAct> lastUndo(const UndoAt& at);
  Result<base::Done> nothingHangsOn(const PastAct& act);
  Result<bool> isStanding(const std::vector<store::HistoryLine>& rows);
  Result<bool> wentOnAfter(const PastAct& act);
  Result<base::Done> othersLeftIt(const PastAct& act);
  Result<base::Done> noCareHangsOn(const PastAct& act, roster::ChildId child);
  Result<base::Done> noneIsOfItsChild(const std::vector<PastAct>& since, const PastAct& undo);
  Result<base::Done> isOfOpenDay(const UndoAt& at, base::EntryId row);
  Result<std::string> wordsOf(const PastAct& act);

  /// A tooth that was looked at again today, and what is to be done with it.
  struct CheckedTooth {
    dentition::Tooth tooth;
    dentition::SurfaceSet surfaces;
    followup::CheckAction action;
  };
  Result<std::vector<CheckedTooth>> teethChecked(roster::ChildId child, roster::DayId day);
  Result<base::Done> teethAreChosen(const chairside::Field& field);
  Result<base::Done> teethAreFree(const chairside::Field& field);
  Result<base::Done> addsToToday(const chairside::Field& field);
  Result<base::Done> resealsAreExplained(const chairside::Screening& screening,
                                         const chairside::Screening* old);
  Result<Admission> mayCorrect(By by, const Recorded<chairside::Screening>& old,
                               const chairside::Screening& screening, const std::string& reason);

  // Chair work while it is judged; session_work.cpp.
  struct Bench;
  Result<FieldState*> inHand(Bench& bench, Verb verb, chairside::FieldId field,
                             std::optional<std::string_view> reason = {});
  Result<base::Seconds> leastOf(const FieldState& state, chairside::Step step,
                                std::span<const dentition::ToothSurfaces> teeth,
                                const std::optional<kit::LightId>& light);
  Result<base::Done> mayBegin(const Bench& bench, const FieldState& state, chairside::Step step,
                              const std::vector<dentition::ToothSurfaces>& teeth);
  Result<base::Done> runLotFits(const chairside::StepRun& run, const chairside::Field& field,
                                base::Date on);
  Result<base::Done> judge(Bench& bench, chairside::StepRun run);
  Result<base::Done> judge(Bench& bench, const chairside::Wet& wet);
  Result<base::Done> judge(Bench& bench, const ChairStop& stop);
  Result<base::Done> judge(Bench& bench, chairside::TimerStart start);
  Result<base::Done> judge(Bench& bench, const chairside::DayOutcome& outcome, Confirmed confirmed);
  Result<chairside::PlacementType> placementType(const chairside::Field& field,
                                                 const dentition::Tooth& tooth);
};

} // namespace gk::session
