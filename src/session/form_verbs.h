#pragma once

#include "roster/consent/form_desk.h"
#include "roster/days/planned_day.h"
#include "session/cards/identity.h"
#include "session/key_verbs.h"

namespace gk::session {

/// What one paper form says, all of it.
struct FormEntry {
  roster::Consent form;
  std::vector<roster::MedicalFlag> alerts{};
  /// The first adults of the child from now on; those after them stay. None: all stay as they are.
  std::optional<std::vector<Guardian>> guardians{};
};

/// What a person said of a form that is odd.
struct FormConfirmed {
  Confirmed isSecond = Confirmed::no;  ///< the same form came back twice
  Confirmed ofWhoLeft = Confirmed::no; ///< as leftQuestion asks
};

/// A child at the form desk. The number stands for the name while the names are locked, and what is
/// sealed is blank.
struct FormLine {
  roster::FormOfChild of;
  std::string number;
  std::string name;
  std::string grade;
  std::string guardian{}; ///< the first adult
  std::string phone{};
  std::string language{}; ///< for letters
};

/// The verbs of the form desk, with or without a school day, and of days planned ahead.
class FormVerbs : public KeyVerbs {
 public:
  /// The form, its alerts and who may be told: all or nothing. An alert that the child has already
  /// is not entered again. Asks (`ruleConsentForm`) before the same form is entered a second time,
  /// and before one of a student who left, until that is confirmed. `vaultLocked` where adults are
  /// given and names are locked.
  Result<roster::ConsentId> enterForm(By by, const FormEntry& entry,
                                      const FormConfirmed& confirmed = {});
  /// Whether the same form is in the logbook, whenever it came and whatever is remarked on it.
  [[nodiscard]] Result<bool> isEntered(const roster::Consent& form);
  /// What is odd about a form that comes now, in words: that the student has left the program, when
  /// and why, and what the form will not do. Empty for all others.
  [[nodiscard]] Result<std::string> leftQuestion(roster::ChildId child);
  Result<roster::HandoutId> enterHandout(By by, const roster::FormHandout& handout);
  /// No copies: it was a mistake.
  Result<base::Done> correctHandout(By by, roster::HandoutId id, const roster::FormHandout& handout,
                                    const std::string& reason);
  /// In a logbook of one school, of that alone: how many came back elsewhere is not known there.
  [[nodiscard]] List<roster::FormHandout> handouts(roster::TermId term);
  /// Every child of the program, or of one school, who has not left by that date, with what its
  /// forms say for the term on that date; by room and name. `withPeople`: who is told, for a list
  /// to call by. `storePart` where the students of that school are in another logbook.
  [[nodiscard]] Result<std::vector<FormLine>> formLines(roster::TermId term, base::Date on,
                                                        std::optional<roster::SchoolId> school = {},
                                                        bool withPeople = false);
  /// Of the term, room by room; of one school, or of all that are not closed. A form that came back
  /// is back also where its student has left since, as what was handed out stays handed out.
  [[nodiscard]] Result<std::vector<roster::FormCount>>
  formCounts(roster::TermId term, base::Date on, std::optional<roster::SchoolId> school = {});
  /// Those that a day, a plan or a student may be of on that date: in a logbook of one school,
  /// that.
  [[nodiscard]] List<roster::School> openSchools(base::Date on);
  /// Every revision of one form, oldest first.
  [[nodiscard]] List<roster::Consent> formRevisions(roster::ConsentId form);

  /// `ruleDate` on a holiday, a weekend or outside the term, until it is confirmed; and where that
  /// team has another day planned then.
  Result<roster::PlannedDayId> planDay(By by, const roster::PlannedDay& plan,
                                       Confirmed anyway = Confirmed::no);
  Result<base::Done> correctPlan(By by, roster::PlannedDayId id, const roster::PlannedDay& plan,
                                 const std::string& reason, Confirmed anyway = Confirmed::no);
  /// Of the term by date, canceled ones too.
  [[nodiscard]] List<roster::PlannedDay> plannedDays(roster::TermId term);
  /// What is odd about that date for the plan, in words; empty when nothing is.
  [[nodiscard]] Result<std::string> planQuestion(const roster::PlannedDay& plan,
                                                 std::optional<roster::PlannedDayId> of = {});

 protected:
  using KeyVerbs::KeyVerbs;

  /// `ruleConsentForm` for a form of a student who left, until it is confirmed.
  Result<base::Done> isExpected(roster::ChildId child, Confirmed ofWhoLeft);

  /// `ruleDate` where the program works there no more on that date.
  Result<base::Done> worksAt(roster::SchoolId school, base::Date on);

 private:
  /// As formLines, and whoever left with a form of the term that came back.
  Result<std::vector<FormLine>> formLinesEver(roster::TermId term, base::Date on,
                                              std::optional<roster::SchoolId> school,
                                              bool withPeople);
  Result<std::vector<roster::MedicalFlag>> newAlerts(const FormEntry& entry);
  Result<base::Done> mayPlan(const roster::PlannedDay& plan, std::optional<roster::PlannedDayId> of,
                             Confirmed anyway);
};

} // namespace gk::session
