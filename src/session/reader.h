#pragma once

#include "base/files/files.h"
#include "chairside/after_cure.h"
#include "followup/copies/issued_report.h"
#include "followup/incident.h"
#include "kit/light.h"
#include "kit/material.h"
#include "kit/readiness.h"
#include "reports/records/names.h"
#include "roster/days/addendum.h"
#include "roster/days/day_cost.h"
#include "roster/program/meal_eligibility.h"
#include "roster/program/program_year.h"
#include "roster/team/team.h"
#include "session/cards/known_child.h"
#include "session/values/setup.h"
#include "session/values/views.h"
#include "session/values/world.h"

#include <iosfwd>
#include <memory>

namespace gk::crypto {
struct Sealed;
}
namespace gk::exchange {
struct Records;
}
namespace gk::reports {
struct DayRecords;
struct RivalWords;
struct TermRecords;
} // namespace gk::reports
namespace gk::store {
class Act;
class Book;
struct Where;
} // namespace gk::store
namespace gk::vault {
class Vault;
}

namespace gk::session {

class Roll;

using base::Recorded;
using base::Result;
template <class T>
using List = Result<std::vector<Recorded<T>>>;

/// Every question that a face may ask of an open logbook; nothing here writes. Names are sealed
/// until the vault is open: a question that needs one fails with `vault.locked` or leaves it blank,
/// as it says. One thread.
class Reader {
 public:
  Reader(const Reader&) = delete;
  Reader& operator=(const Reader&) = delete;
  Reader& operator=(Reader&&) = delete;

  [[nodiscard]] const base::Path& path() const;
  [[nodiscard]] bool isUnlocked() const;
  /// False while an open book is still looked through (store::Checkup::meanwhile).
  [[nodiscard]] Result<bool> isChecked() const;
  [[nodiscard]] std::string clockWarning(); ///< why the clock cannot be right; empty when it can
  [[nodiscard]] std::string copyNotice() const; ///< empty for the copy that this laptop left
  /// Far ahead of the newest entry: what to ask, until Door::confirmClock (`clock.ahead`).
  [[nodiscard]] std::optional<std::string> clockQuestion() const;

  [[nodiscard]] Result<std::optional<OneSchool>> oneSchool(); ///< none of a whole logbook
  [[nodiscard]] Result<Recorded<roster::Program>> program();
  [[nodiscard]] List<roster::Term> terms();
  [[nodiscard]] List<roster::ProgramYear> years(); ///< the oldest first
  [[nodiscard]] List<roster::School> schools();
  [[nodiscard]] List<roster::Member> members();
  [[nodiscard]] Result<std::string> listColumns(roster::SchoolId school);  ///< or empty
  [[nodiscard]] List<roster::Enrollment> enrollments(roster::TermId term); ///< by school and grade
  [[nodiscard]] List<roster::MealEligibility> eligibilities(roster::TermId term);
  /// Of one thing of the desk, oldest first; the last counts, unless the thing was taken back.
  template <class T>
  [[nodiscard]] List<T> revisions(typename T::Key id);
  [[nodiscard]] Result<std::vector<IdentityRevision>> identityRevisions(roster::ChildId child);
  /// What is still missing for a first day on that date, area by area.
  [[nodiscard]] Result<std::vector<AreaState>> setup(base::Date on);
  [[nodiscard]] List<roster::ClinicDay> days(roster::TermId term);
  [[nodiscard]] Result<Recorded<roster::ClinicDay>> day(roster::DayId day);
  /// The newest neither canceled nor signed, in a part of its school; `notFound` where none is.
  [[nodiscard]] Result<Recorded<roster::ClinicDay>> openDayNow();
  /// The date that care is written for: the open day's, or today where no day is open.
  [[nodiscard]] Result<base::Date> careDate();
  /// Said last of a day's time and people, and of its costs, whichever day.
  [[nodiscard]] Result<std::optional<roster::DayEffort>> lastEffort();
  [[nodiscard]] Result<std::optional<roster::DayCost>> lastCosts();
  [[nodiscard]] Result<bool> isSigned(roster::DayId day);
  [[nodiscard]] List<roster::Addendum> addenda(roster::DayId day);
  /// When the dentist's agreement ended, if by that day and no clinician has taken that on.
  [[nodiscard]] Result<std::optional<base::Date>> lapsedAgreement(roster::DayId day);
  [[nodiscard]] List<kit::ReadinessCheck> readiness(roster::DayId day); ///< of items with an answer
  [[nodiscard]] List<followup::Incident> incidents(roster::DayId day);  ///< and older open ones
  [[nodiscard]] List<kit::Light> lights();
  [[nodiscard]] List<kit::MeterReading> readings(kit::LightId light);
  [[nodiscard]] List<kit::Lot> lots();
  [[nodiscard]] List<kit::CureTime> cureTimes();
  [[nodiscard]] Result<base::Seconds> cureTarget(kit::LotId sealant,
                                                 std::optional<kit::LightId> light);
  [[nodiscard]] Result<Recorded<roster::Child>> child(roster::ChildId child);
  [[nodiscard]] Result<Identity> identity(roster::ChildId child);
  /// By number (with or without check digit) or by part of a name; at most `limit`. Waits for
  /// all of `readRoll`, so a face that has leisure calls that first.
  [[nodiscard]] Result<std::vector<Found>> findChildren(const std::string& text,
                                                        std::size_t limit = 20);
  /// Children who may be the one of this number or, while names are open, of this identity, likest
  /// first. Exactly this number is found by `findChildren`.
  [[nodiscard]] Result<std::vector<NearMatch>>
  nearMatches(const std::string& number, const std::optional<Identity>& identity = {});
  [[nodiscard]] Result<std::vector<KnownChild>> known(const Sought& sought); ///< or `vaultLocked`
  [[nodiscard]] Result<std::vector<std::string>> numbers(); ///< of erased students too
  /// A child number that no one has: one more than the highest, from 1001 on.
  [[nodiscard]] Result<std::string> nextNumber();
  /// Reads on for searching, at most so many children. True when none is left to read.
  Result<bool> readRoll(int atMost);
  [[nodiscard]] List<roster::Consent> consents(roster::ChildId child);
  [[nodiscard]] List<roster::MedicalFlag> flags(roster::ChildId child);
  [[nodiscard]] Result<std::optional<roster::Background>> background(roster::ChildId child);
  [[nodiscard]] Result<roster::Standing> standing(roster::ChildId child, roster::Service service,
                                                  base::Date on);
  [[nodiscard]] Result<IdentityCard> identityCard(roster::ChildId child, roster::DayId day);
  [[nodiscard]] Result<std::vector<BoardLine>> board(roster::DayId day);
  /// Where the child is in the day; `waiting` when nothing of it is here yet.
  [[nodiscard]] Result<Place> place(roster::ChildId child, roster::DayId day);
  /// What dentists let be placed in this mouth, withdrawn ones too.
  [[nodiscard]] List<chairside::Authorization> authorizations(roster::ChildId child);
  /// What of it holds on that date, in a line; empty where the program does not wait for a dentist.
  [[nodiscard]] Result<std::string> dentistWords(roster::ChildId child, base::Date on);
  [[nodiscard]] List<chairside::Screening> screenings(roster::ChildId child);
  [[nodiscard]] List<chairside::Placement> placements(roster::ChildId child);
  [[nodiscard]] List<chairside::Varnish> varnishes(roster::ChildId child);
  [[nodiscard]] List<chairside::DayOutcome> outcomes(roster::ChildId child);
  [[nodiscard]] List<followup::Referral> referrals(roster::ChildId child);
  [[nodiscard]] List<followup::RetentionCheck> checks(roster::ChildId child);
  /// What was said of wiping and bite, newest last.
  [[nodiscard]] List<chairside::AfterCure> afterCures(roster::ChildId child, roster::DayId day);
  [[nodiscard]] List<chairside::PaperSheet> paperSheets(roster::DayId day); ///< typed from paper
  [[nodiscard]] Result<std::vector<EarlierPlacement>> earlierPlacements(roster::ChildId child,
                                                                        roster::DayId day);
  /// Every field of this child today, oldest first.
  [[nodiscard]] Result<std::vector<FieldState>> fields(roster::ChildId child, roster::DayId day);
  /// Who was in the chair last on this laptop, with no outcome yet: where to go on after a crash.
  [[nodiscard]] Result<std::optional<roster::ChildId>> childInChair(roster::DayId day);
  [[nodiscard]] Result<reports::DayRecords> dayRecords(roster::DayId day);
  [[nodiscard]] Result<reports::TermRecords> termRecords(roster::TermId term, base::Date asOf,
                                                         Reach reach = Reach::program);
  /// Every report of the term that went out, as they did; one that was taken back stays out.
  [[nodiscard]] List<followup::IssuedReport> issuedReports(roster::TermId term);
  [[nodiscard]] Result<reports::Names> names(); ///< empty while locked
  [[nodiscard]] Result<reports::Names> names(const reports::DayRecords& records); ///< of the day

  // What leaves as data, whole or not at all: a day's children; a term's with a form, up to `asOf`.
  /// As exchange::writeExtract, whether or not the vault is open.
  Result<base::Done> extractDay(roster::DayId day, std::ostream& out);
  Result<base::Done> extractTerm(roster::TermId term, base::Date asOf, std::ostream& out);
  /// As exchange::writeFhir; no one is named while the vault is locked.
  Result<base::Done> writeFhir(roster::DayId day, std::ostream& out);

 protected:
  Reader(store::Book book, World world);
  Reader(Reader&&) noexcept;
  ~Reader();

  template <class T>
  Result<Recorded<T>> only(const store::Where& where, std::string_view what);
  /// Precondition: the names are open. `vaultReplaced` where a key may be missing that another
  /// laptop has.
  Result<Identity> reveal(roster::ChildId child, const crypto::Sealed& sealed);
  Result<FieldState> fieldState(chairside::FieldId field);
  Result<const Roll*> roll(); ///< complete and up to date
  void forgetRoll();
  Result<std::vector<reports::RivalWords>> rivalWords(roster::DayId day);
  Result<std::string> shortName(roster::ChildId child); ///< "Mina T."; the number while locked
  Result<base::Done> asOfThen(Recorded<roster::Child>& child, base::Date asOf);
  Result<exchange::Records> exportOfDay(roster::DayId day);
  Result<exchange::Records> exportOfTerm(roster::TermId term, base::Date asOf);

  struct Held;                 // reader_held.h
  std::unique_ptr<Held> held_; // before the references, which are of it
  store::Book& book_;
  std::optional<vault::Vault>& vault_;
  World world_;
  base::Instant clockTrusted_{}; ///< someone said that it is right

 private:
  Result<BoardLine> boardLine(roster::ChildId child, const Recorded<roster::ClinicDay>& day);
  Result<base::Done> addNames(IdentityCard& card, const Identity& identity);
  Result<base::Done> addToRoll(const Recorded<roster::Child>& child);
  Result<base::Done> catchUp(base::EntryId after);
  Result<std::string> nameOf(roster::ChildId child); ///< as shown; empty while locked
};

} // namespace gk::session
