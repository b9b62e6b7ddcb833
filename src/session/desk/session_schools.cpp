#include "base/text/text.h"
#include "session/session_write.h"

#include <algorithm>

// Where and when the program works: terms, schools, how many students they have.
namespace gk::session {

using base::Error;
using base::ErrorCode;

namespace {

/// As it is entered, holidays in order. `own` is the term it corrects.
Result<roster::Term> soundTerm(roster::Term term, const std::vector<Recorded<roster::Term>>& others,
                               const std::optional<roster::TermId>& own) {
  if (const auto filled = base::fillIn(term.name, "a term needs a name, such as Fall 2026");
      !filled)
    return filled.error();
  if (term.end <= term.start)
    return Error{ErrorCode::ruleDate, "the term ends before it starts; check both dates"};
  for (const auto& other : others) {
    if (other.id == own) continue;
    if (other.value.name == term.name)
      return Error{ErrorCode::textMalformed, "there is a term " + term.name + " already"};
    if (term.start <= other.value.end && other.value.start <= term.end)
      return Error{ErrorCode::ruleDate, "the term overlaps with " + other.value.name};
  }
  std::ranges::sort(term.holidays);
  const auto twice = std::ranges::unique(term.holidays);
  term.holidays.erase(twice.begin(), twice.end());
  for (const auto& holiday : term.holidays)
    if (holiday < term.start || term.end < holiday)
      return Error{ErrorCode::ruleDate,
                   "the holiday " + holiday.words() + " is not in the term; check its date"};
  return term;
}

Result<roster::School> soundSchool(roster::School school,
                                   const std::vector<Recorded<roster::School>>& others,
                                   const std::optional<roster::SchoolId>& own) {
  for (auto* text : {&school.name, &school.code})
    if (const auto filled = base::fillIn(*text, "a school needs a name and a code"); !filled)
      return filled.error();
  for (const auto& other : others)
    if (other.id != own && other.value.code == school.code)
      return Error{ErrorCode::textMalformed,
                   "the code " + school.code + " belongs to " + other.value.name};
  return school;
}

/// As it is entered. `own` is the year it corrects.
Result<roster::ProgramYear> yearAmong(const roster::ProgramYear& year,
                                      const std::vector<Recorded<roster::ProgramYear>>& others,
                                      const std::optional<roster::YearId>& own) {
  auto sound = roster::soundYear(year);
  if (!sound) return sound;
  for (const auto& other : others)
    if (other.id != own && other.value.name == sound->name)
      return Error{ErrorCode::textMalformed, "the year " + sound->name + " already exists"};
  return sound;
}

bool isIn(const roster::Term& term, base::Date date) {
  return term.start <= date && date <= term.end;
}

} // namespace

Result<roster::TermId> DeskVerbs::enterTerm(By by, const roster::Term& term) {
  const auto may = admit(Verb::enterTerm, by);
  if (!may) return may.error();
  const auto others = terms();
  if (!others) return others.error();
  const auto sound = soundTerm(term, *others, {});
  if (!sound) return sound.error();
  return write(*may, {}, [&](store::Act& act) { return act.add(*sound); });
}

Result<base::Done> DeskVerbs::correctTerm(By by, roster::TermId id, const roster::Term& term,
                                          const std::string& reason) {
  const auto may = admit(Verb::correctTerm, by, {.reason = reason});
  if (!may) return may.error();
  const auto others = terms();
  if (!others) return others.error();
  const auto sound = soundTerm(term, *others, id);
  if (!sound) return sound.error();
  const auto old = only<roster::Term>(store::subjectIs(id), "term");
  if (!old) return old.error();
  const auto opened = days(id);
  if (!opened) return opened.error();
  for (const auto& day : *opened)
    if (!day.value.canceled && isIn(old->value, day.value.date) && !isIn(*sound, day.value.date))
      return Error{ErrorCode::ruleDate, "the school day of " + day.value.date.words() +
                                            " is of this term and would be outside it"};
  auto rows = book_.current<roster::Term>(store::subjectIs(id));
  if (!rows) return rows.error();
  return write(*may, {}, [&](store::Act& act) { return replaceAll(act, *rows, *sound, reason); });
}

Result<roster::YearId> DeskVerbs::enterYear(By by, const roster::ProgramYear& year) {
  const auto may = admit(Verb::enterYear, by);
  if (!may) return may.error();
  const auto others = years();
  if (!others) return others.error();
  const auto sound = yearAmong(year, *others, {});
  if (!sound) return sound.error();
  return write(*may, {}, [&](store::Act& act) { return act.add(*sound); });
}

Result<base::Done> DeskVerbs::correctYear(By by, roster::YearId id, const roster::ProgramYear& year,
                                          const std::string& reason) {
  const auto may = admit(Verb::correctYear, by, {.reason = reason});
  if (!may) return may.error();
  const auto others = years();
  if (!others) return others.error();
  const auto sound = yearAmong(year, *others, id);
  if (!sound) return sound.error();
  auto rows = book_.current<roster::ProgramYear>(store::subjectIs(id));
  if (!rows) return rows.error();
  if (rows->empty()) return Error{ErrorCode::notFound, "no such year"};
  return write(*may, {}, [&](store::Act& act) { return replaceAll(act, *rows, *sound, reason); });
}

Result<roster::SchoolId> DeskVerbs::enterSchool(By by, const roster::School& school) {
  const auto may = admit(Verb::enterSchool, by);
  if (!may) return may.error();
  const auto others = schools();
  if (!others) return others.error();
  auto sound = soundSchool(school, *others, {});
  if (!sound) return sound.error();
  sound->closedFrom.reset();
  return write(*may, {}, [&](store::Act& act) { return act.add(*sound); });
}

Result<base::Done> DeskVerbs::correctSchool(By by, roster::SchoolId id,
                                            const roster::School& school,
                                            const std::string& reason) {
  const auto may = admit(Verb::correctSchool, by, {.reason = reason});
  if (!may) return may.error();
  const auto others = schools();
  if (!others) return others.error();
  const auto sound = soundSchool(school, *others, id);
  if (!sound) return sound.error();
  auto rows = book_.current<roster::School>(store::subjectIs(id));
  if (!rows) return rows.error();
  if (rows->empty()) return Error{ErrorCode::notFound, "no such school"};
  auto now = *sound;
  now.closedFrom = rows->back().value.closedFrom; // closeSchool's to say
  return write(*may, {}, [&](store::Act& act) { return replaceAll(act, *rows, now, reason); });
}

namespace {

/// Nothing goes that something is of; it would be of nothing.
Error isInUse(const std::string& what, std::size_t count, const char* one, const char* many,
              const char* instead = "correct it instead") {
  return Error{ErrorCode::ruleReason,
               what + " has " + base::counted(count, one, many) + " and stays; " + instead};
}

template <class T>
base::Done retractAll(store::Act& act, const std::vector<Recorded<T>>& rows,
                      const std::string& reason) {
  for (const auto& row : rows)
    act.retract(row.stamp.entry, reason);
  return {};
}

} // namespace

Result<base::Done> DeskVerbs::removeTerm(By by, roster::TermId id, const std::string& reason) {
  const auto may = admit(Verb::removeTerm, by, {.reason = reason});
  if (!may) return may.error();
  const auto rows = book_.current<roster::Term>(store::subjectIs(id));
  if (!rows) return rows.error();
  if (rows->empty()) return Error{ErrorCode::notFound, "no such term"};
  const auto& name = rows->back().value.name;
  const auto opened = days(id);
  if (!opened) return opened.error();
  if (!opened->empty()) return isInUse(name, opened->size(), "school day", "school days");
  const auto counts = enrollments(id);
  if (!counts) return counts.error();
  if (!counts->empty())
    return isInUse(name, counts->size(), "enrollment count", "enrollment counts");
  const auto issued = issuedReports(id);
  if (!issued) return issued.error();
  if (!issued->empty()) return isInUse(name, issued->size(), "issued report", "issued reports");
  const auto forms = book_.current<roster::Consent>(store::rowsOf("term", id));
  if (!forms) return forms.error();
  if (!forms->empty()) return isInUse(name, forms->size(), "consent form", "consent forms");
  return write(*may, {}, [&](store::Act& act) { return retractAll(act, *rows, reason); });
}

Result<base::Done> DeskVerbs::removeYear(By by, roster::YearId id, const std::string& reason) {
  const auto may = admit(Verb::removeYear, by, {.reason = reason});
  if (!may) return may.error();
  const auto rows = book_.current<roster::ProgramYear>(store::subjectIs(id));
  if (!rows) return rows.error();
  if (rows->empty()) return Error{ErrorCode::notFound, "no such year"};
  return write(*may, {}, [&](store::Act& act) { return retractAll(act, *rows, reason); });
}

Result<base::Done> DeskVerbs::removeSchool(By by, roster::SchoolId id, const std::string& reason) {
  const auto may = admit(Verb::removeSchool, by, {.reason = reason});
  if (!may) return may.error();
  const auto rows = book_.current<roster::School>(store::subjectIs(id));
  if (!rows) return rows.error();
  if (rows->empty()) return Error{ErrorCode::notFound, "no such school"};
  const auto& name = rows->back().value.name;
  constexpr auto closeInstead = "close it instead";
  const auto children = book_.current<roster::Child>(store::rowsOf("school", id));
  if (!children) return children.error();
  if (!children->empty())
    return isInUse(name, children->size(), "student", "students", closeInstead);
  const auto opened = book_.current<roster::ClinicDay>(store::rowsOf("school", id));
  if (!opened) return opened.error();
  if (!opened->empty())
    return isInUse(name, opened->size(), "school day", "school days", closeInstead);
  const auto counts = book_.current<roster::Enrollment>(store::rowsOf("school", id));
  if (!counts) return counts.error();
  if (!counts->empty())
    return isInUse(name, counts->size(), "enrollment count", "enrollment counts", closeInstead);
  return write(*may, {}, [&](store::Act& act) { return retractAll(act, *rows, reason); });
}

namespace {

struct Counted {
  roster::Enrollment now;
  std::vector<Recorded<roster::Enrollment>> before;
};

/// A count as it is entered, and what it takes the place of.
Result<Counted> countedNow(store::Book& book, roster::Enrollment enrollment) {
  const auto grade = roster::parseGrade(enrollment.grade);
  if (!grade) return grade.error();
  if (enrollment.students < 0)
    return Error{ErrorCode::numberMalformed, "a count of students cannot be negative"};
  enrollment.grade = *grade;
  auto rows = book.current<roster::Enrollment>(store::rowsOf("term", enrollment.term));
  if (!rows) return rows.error();
  std::erase_if(*rows, [&](const auto& row) {
    return row.value.school != enrollment.school || row.value.grade != enrollment.grade;
  });
  return Counted{std::move(enrollment), std::move(*rows)};
}

roster::EnrollmentId enterCount(store::Act& act, const Counted& count) {
  if (count.before.empty()) return act.add(count.now);
  replaceAll(act, count.before, count.now, "counted again");
  return count.before.back().id;
}

} // namespace

Result<roster::EnrollmentId> DeskVerbs::enterEnrollment(By by,
                                                        const roster::Enrollment& enrollment) {
  const auto may = admit(Verb::enterEnrollment, by);
  if (!may) return may.error();
  const auto count = countedNow(book_, enrollment);
  if (!count) return count.error();
  return write(*may, {}, [&](store::Act& act) { return enterCount(act, *count); });
}

Result<base::Done> DeskVerbs::enterEnrollments(By by,
                                               const std::vector<roster::Enrollment>& enrollments) {
  const auto may = admit(Verb::enterEnrollment, by);
  if (!may) return may.error();
  std::vector<Counted> counts;
  for (const auto& enrollment : enrollments) {
    auto count = countedNow(book_, enrollment);
    if (!count) return count.error();
    counts.push_back(std::move(*count));
  }
  return write(*may, {}, [&](store::Act& act) {
    for (const auto& count : counts)
      enterCount(act, count);
    return base::Done{};
  });
}

} // namespace gk::session
