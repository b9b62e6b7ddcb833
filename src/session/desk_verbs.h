#pragma once

#include "base/progress.h"
#include "kit/light.h"
#include "kit/material.h"
#include "roster/child/background.h"
#include "roster/child/card_join.h"
#include "roster/program/meal_eligibility.h"
#include "roster/program/program_year.h"
#include "session/cards/card_pair.h"
#include "session/cards/new_child.h"
#include "session/form_verbs.h"
#include "session/rights/agreed.h"
#include "session/values/erasure.h"
#include "session/values/first_day.h"
#include "store/values/merged.h"

namespace gk::reports {
struct LateOnCard;
}

namespace gk::session {

/// The verbs that set a program up and keep it: schools, team, students, forms, lights and lots.
class DeskVerbs : public FormVerbs {
 public:
  Result<roster::ProgramId> enterProgram(By by, const roster::Program& program);
  Result<base::Done> correctProgram(By by, const roster::Program& to, const std::string& reason);
  Result<roster::TermId> enterTerm(By by, const roster::Term& term);
  /// `ruleDate` also where a school day of the term would be outside it from then on.
  Result<base::Done> correctTerm(By by, roster::TermId id, const roster::Term& term,
                                 const std::string& reason);
  /// One that was entered by mistake; never by undo. `ruleReason` where something is in it: a
  /// school day, a count, a report that went out.
  Result<base::Done> removeTerm(By by, roster::TermId id, const std::string& reason);
  Result<roster::YearId> enterYear(By by, const roster::ProgramYear& year);
  Result<base::Done> correctYear(By by, roster::YearId id, const roster::ProgramYear& year,
                                 const std::string& reason);
  Result<base::Done> removeYear(By by, roster::YearId id, const std::string& reason);
  Result<roster::SchoolId> enterSchool(By by, const roster::School& school);
  Result<base::Done> correctSchool(By by, roster::SchoolId id, const roster::School& school,
                                   const std::string& reason);
  /// One that was entered by mistake. `ruleReason` where a student, a school day or a count is of
  /// it.
  Result<base::Done> removeSchool(By by, roster::SchoolId id, const std::string& reason);
  /// From that date on no day is opened or planned there and no student or form comes there; all
  /// that was stays. Again with another date to change it. `ruleDate` where a day is planned, or
  /// was open, from then on.
  Result<base::Done> closeSchool(By by, roster::SchoolId id, base::Date from,
                                 const std::string& reason);
  /// It was closed by mistake, or the program is back. `notFound` where it is not closed.
  Result<base::Done> reopenSchool(By by, roster::SchoolId id, const std::string& reason);
  /// These in place of what was known that term.
  Result<roster::EnrollmentId> enterEnrollment(By by, const roster::Enrollment& enrollment);
  /// All grades at once, or none.
  Result<base::Done> enterEnrollments(By by, const std::vector<roster::Enrollment>& enrollments);
  Result<base::Done> enterEligibility(By by, const roster::MealEligibility& eligibility);
  Result<base::MemberId> enterMember(By by, const roster::Member& member);
  /// Whoever leaves: all rights end and the key is revoked, in one act. Fails as correctMember.
  Result<base::Done> retireMember(By by, base::MemberId who, const std::string& reason,
                                  const OwnPin& pin = {});
  Result<base::Done> correctMember(By by, base::MemberId id, const roster::Member& member,
                                   const std::string& reason);
  Result<roster::ChildId> enrollChild(By by, roster::Child child, const Identity& identity,
                                      Confirmed schoolConfirmsAge = Confirmed::no,
                                      Confirmed isAnother = Confirmed::no);
  Result<roster::ChildId> enrollChild(By by, NewChild child, Confirmed schoolConfirmsAge,
                                      Confirmed isAnother);
  /// All of them with their forms, or none. `ruleSameChild`, with the numbers of those who may be
  /// the same child (roster::isTooAlike), until a person says that they are others.
  Result<std::vector<roster::ChildId>> enrollRoster(By by, std::vector<NewChild> children,
                                                    Confirmed schoolConfirmsAges = Confirmed::no,
                                                    Confirmed areOthers = Confirmed::no);
  /// A school's list, new children and changed ones, as planRoster made it: one act, or none where
  /// nothing is new. Who came is given back. As enrollRoster refuses, and `recordChanged` where a
  /// child was changed since it was planned.
  Result<std::vector<roster::ChildId>> importRoster(By by, RosterImport import);
  /// The whole of the newest import that brought or changed this child: children, changes and
  /// forms. `ruleReason` while something was recorded since on one of them, `notFound` when no
  /// import did.
  Result<base::Done> takeBackImport(By by, roster::ChildId oneOfThem, const std::string& reason);
  /// In place of what was known of the child.
  Result<base::Done> enterBackground(By by, const roster::Background& background);
  Result<base::Done> confirmProvisional(By by, roster::ChildId child, const std::string& reason);
  Result<base::Done> moveChild(By by, roster::ChildId child, roster::SchoolId school,
                               const std::string& grade, const std::string& room,
                               const std::string& reason);
  /// Students who are expected no more from a date on; again with another date or reason to change
  /// it. All or nothing. `ruleDate` where one was in the chair on that date or after it;
  /// `ruleReason` where the reason is "other" without words, `textMalformed` where they name one.
  Result<base::Done> leaveProgram(By by, const std::vector<roster::ChildId>& children,
                                  const roster::Leaving& left, const std::string& words = {});
  /// Expected again. `notFound` where the student never left.
  Result<base::Done> comeBack(By by, roster::ChildId child, const std::string& reason);
  /// Name, birth date, guardians, phones and languages; the earlier ones stay in the history,
  /// sealed. The reason does not: `textMalformed` where it holds a name or a phone number. Asks to
  /// be confirmed as enrollChild does.
  Result<base::Done> correctStudent(By by, roster::ChildId child, const StudentDetails& details,
                                    const std::string& reason,
                                    Confirmed schoolConfirmsAge = Confirmed::no,
                                    Confirmed isAnother = Confirmed::no);
  /// Two cards are one child's: all that is said of the other is said of the kept one from now on,
  /// and the other goes (cardPair says which). `ruleSameChild` where both were seen on one day, and
  /// `textMalformed` for a reason that names someone. Again, where another laptop went on with the
  /// other card meanwhile.
  Result<roster::CardJoinId> joinCards(By by, roster::ChildId one, roster::ChildId other,
                                       const std::string& reason);
  /// The card that was joined to this one last is a card of its own again, with what was said of
  /// it. With the names open, as joinCards, so that the reason can be held against them.
  Result<base::Done> partCards(By by, roster::ChildId kept, const std::string& reason);
  /// What an erasure of this student would take out; two cards that are one student's go together.
  Result<ErasurePlan> erasurePlan(roster::ChildId child);
  /// Takes all of it out of this logbook for good, and out of every one that merges with it.
  /// `recordChanged` unless `rows` is what the plan named. In another thread after `holdNews`;
  /// stopped, it fails with `workCanceled` and erased nothing.
  Result<ErasureDone> eraseStudent(By by, roster::ChildId child, const ErasureGrounds& grounds,
                                   std::int64_t rows, const OwnPin& pin = {},
                                   const base::Progress& progress = {});
  /// What was agreed to for a merge, once who agrees to an erasure may: one who signs, by PIN.
  Result<store::Agreed> admitMerge(const Agreed& agreed);
  /// Every erasure that the logbook lists, oldest first.
  Result<std::vector<ErasureLine>> erasures();
  /// Where the file is still to be rewritten after one; empty where it is not.
  [[nodiscard]] std::string tracesNotice();
  /// With the health alert of the form, if there is one: both or neither. Asks as enterForm of a
  /// student who left.
  Result<roster::ConsentId> enterConsent(By by, const roster::Consent& form,
                                         const std::optional<roster::MedicalFlag>& alert = {},
                                         Confirmed ofWhoLeft = Confirmed::no);
  Result<base::Done> withdrawConsent(By by, roster::ChildId child, const std::string& how);
  Result<base::Done> correctConsent(By by, const Recorded<roster::Consent>& old,
                                    const roster::Consent& form, const std::string& reason);
  Result<roster::OverrideId> overrideConsent(By by, const roster::ConsentOverride& taken,
                                             const OwnPin& pin = {});
  Result<roster::FlagId> enterFlag(By by, const roster::MedicalFlag& flag);
  /// By a clinician who may decide for the program, in words; once.
  Result<base::Done> resolveFlag(By by, const Recorded<roster::MedicalFlag>& flag,
                                 const std::string& decided, const OwnPin& pin = {});
  Result<kit::LightId> enterLight(By by, const kit::Light& light);
  Result<base::Done> correctLight(By by, const Recorded<kit::Light>& old, const kit::Light& light,
                                  const std::string& reason);
  /// Asks (`ruleLight`) about a number that kit::readingQuestion doubts, until it is confirmed.
  Result<kit::ReadingId> enterReading(By by, const kit::MeterReading& reading,
                                      Confirmed confirmed = Confirmed::no);
  Result<kit::LotId> enterLot(By by, const kit::Lot& lot);
  /// One that was set aside goes back into use so. `ruleMaterial` where it was used and would be of
  /// another kind.
  Result<base::Done> correctLot(By by, kit::LotId id, const kit::Lot& lot,
                                const std::string& reason);
  Result<base::Done> quarantineLot(By by, kit::LotId lot, const std::string& reason);
  /// In place of what was known of that light and material.
  Result<kit::CureTimeId> enterCureTime(By by, const kit::CureTime& time);

  // What the desk asks before it writes.
  /// The check list of a first day; whether this laptop has a place for backups is no matter of the
  /// book.
  [[nodiscard]] Result<std::vector<FirstDayState>> firstDay(base::Date on, bool hasBackupPlace);
  /// What a correction of this thing of an area changes elsewhere, counted: a sentence each, never
  /// none. Names no one.
  [[nodiscard]] Result<std::vector<std::string>> changesWith(Area area, const base::Uuid& thing);
  /// What closing this school changes elsewhere, as changesWith.
  [[nodiscard]] Result<std::vector<std::string>> changesWithClosing(roster::SchoolId id);
  /// Two cards beside one another, as joinCards would leave them; fails as it would.
  [[nodiscard]] Result<CardPair> cardPair(roster::ChildId one, roster::ChildId other);
  /// The cards that were joined to this one, oldest first.
  [[nodiscard]] List<roster::CardJoin> joinsOf(roster::ChildId kept);
  /// What came for a joined card after it was joined; joinCards of the two puts it on the kept one.
  [[nodiscard]] Result<std::vector<reports::LateOnCard>> lateOnCards();
  /// A card of this number (with or without check digit), one that was joined to another or removed
  /// too.
  [[nodiscard]] Result<roster::ChildId> cardNumbered(const std::string& number);

 protected:
  using FormVerbs::FormVerbs;

  Result<std::vector<Recorded<roster::Consent>>> formsToWithdraw(roster::ChildId child,
                                                                 const std::string& how);
  /// What is written beside a record is not sealed: `textMalformed` where it holds a name that one
  /// of these cards has or once had.
  Result<base::Done> namesNeither(const std::string& text,
                                  const std::vector<roster::ChildId>& cards);

 private:
  Result<base::Done> mayGive(const Admission& may, const std::optional<base::MemberId>& to);
  /// As far as the team can do without; whoever has no right left has no key either.
  Result<base::Done> changeMember(const Admission& may, base::MemberId id,
                                  const roster::Member& member, const std::string& reason);
  Result<std::vector<roster::ChildId>> enroll(Verb verb, By by, std::vector<NewChild> children,
                                              Confirmed schoolConfirmsAges, Confirmed areOthers);
  /// Each made as it will be entered, or why one cannot be.
  Result<base::Done> makeSound(std::vector<NewChild>& children, Confirmed schoolConfirmsAges);
  roster::ChildId add(store::Act& act, const NewChild& entering);
};

} // namespace gk::session
