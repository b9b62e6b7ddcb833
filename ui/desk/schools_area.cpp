#include "ui/asking/context.h"
#include "ui/forms/area.h"

namespace gk::ui {

namespace {

using base::ErrorCode;

constexpr int mostStudents = 100000; ///< of a grade, as the schema has it

std::vector<Field> schoolFields(const Thing&) {
  return {{.key = u"Name"_s,
           .words = u"School name"_s,
           .hint = u"In full; on letters and reports"_s,
           .isNeeded = true,
           .span = 2},
          {.key = u"Code"_s,
           .words = u"Short code"_s,
           .hint = u"Such as CL; unique to this school, never reused"_s,
           .isNeeded = true}};
}

Values valuesOfSchool(const roster::School& school) {
  Values values;
  values.set(u"Name"_s, school.name);
  values.set(u"Code"_s, school.code);
  values.set(u"Closed"_s, school.closedFrom);
  return values;
}

roster::School schoolFrom(const Values& values) {
  return {values.text(u"Name"_s), values.text(u"Code"_s)};
}

const std::vector<std::string>& grades() {
  static const std::vector<std::string> all{"K", "1", "2", "3",  "4",  "5", "6",
                                            "7", "8", "9", "10", "11", "12"};
  return all;
}

/// The term that a count is of: the one of today, the next or the newest.
Result<base::Recorded<roster::Term>> termNow(Context& context) {
  const auto terms = context.session.terms();
  if (!terms) return terms.error();
  const auto* term = session::termFor(*terms, context.clock.now().date());
  if (!term)
    return base::Error{ErrorCode::notFound,
                       "there is no term yet; enter it first, under Terms and holidays"};
  return *term;
}

std::vector<Field> enrollmentFields(Context& context) {
  std::vector<Field> fields;
  for (const auto& grade : grades())
    fields.push_back({.key = u"Grade"_s + toQt(grade),
                      .words = grade == "K" ? u"Kindergarten"_s : u"Grade "_s + toQt(grade),
                      .kind = FieldKind::number,
                      .most = mostStudents});
  if (const auto term = termNow(context))
    fields.front().hint = u"All of "_s + toQt(term->value.name);
  return fields;
}

Result<Values> enrollmentOf(Context& context, const Thing& id) {
  const auto term = termNow(context);
  if (!term) return term.error();
  const auto counts = context.session.enrollments(term->id);
  if (!counts) return counts.error();
  Values values;
  for (const auto& count : *counts)
    if (count.value.school.uuid() == *id)
      values.set(u"Grade"_s + toQt(count.value.grade), std::int64_t{count.value.students});
  return values;
}

Result<QString> enterEnrollment(Context& context, By by, const Thing& id, const Values& values) {
  const auto term = termNow(context);
  if (!term) return term.error();
  const auto before = enrollmentOf(context, id);
  if (!before) return before.error();
  std::vector<roster::Enrollment> counts;
  for (const auto& grade : grades()) {
    const auto key = u"Grade"_s + toQt(grade);
    // A grade that was counted and is blank now has no student.
    const auto now = values.number(key);
    if (now != before->number(key))
      counts.push_back({term->id, roster::SchoolId(*id), grade, now.value_or(0)});
  }
  return saidIf(context.session.enterEnrollments(by, counts), u"The enrollment is saved."_s);
}

std::vector<Field> mealFields(const Thing&) {
  return {{.key = u"Percent"_s,
           .words = u"Free or reduced-price meals, percent"_s,
           .hint = u"Of the school's students, 0 to 100"_s,
           .kind = FieldKind::number,
           .most = 100,
           .isNeeded = true},
          {.key = u"Source"_s,
           .words = u"Who published it"_s,
           .hint = u"And for which year"_s,
           .isNeeded = true,
           .span = 2}};
}

Result<Values> mealsOf(Context& context, const Thing& id) {
  const auto term = termNow(context);
  if (!term) return term.error();
  const auto shares = context.session.eligibilities(term->id);
  if (!shares) return shares.error();
  Values values;
  for (const auto& share : *shares)
    if (share.value.school.uuid() == *id) {
      values.set(u"Percent"_s, std::int64_t{share.value.percent});
      values.set(u"Source"_s, share.value.source);
    }
  return values;
}

Result<QString> enterMeals(Context& context, By by, const Thing& id, const Values& values) {
  const auto term = termNow(context);
  if (!term) return term.error();
  return saidIf(context.session.enterEligibility(by, {term->id, roster::SchoolId(*id),
                                                      values.number(u"Percent"_s).value_or(0),
                                                      values.text(u"Source"_s)}),
                u"The percentage is saved."_s);
}

QStringList sentencesOf(const std::vector<std::string>& sentences) {
  QStringList said;
  for (const auto& sentence : sentences)
    said += toQt(sentence);
  return said;
}

AreaForm closingSchool(session::Session& book) {
  return {.name = u"Close"_s,
          .words = u"Close"_s,
          .key = Qt::Key_L,
          .asksReason = true,
          .save = u"Close school"_s,
          .note = u"For a school where the program no longer works. All that was done there stays. "
                  "One entered by mistake is removed instead."_s,
          .changes = [&book](const Thing& id) -> Result<QStringList> {
            const auto changes = book.changesWithClosing(roster::SchoolId(*id));
            if (!changes) return changes.error();
            return sentencesOf(*changes);
          },
          .fields =
              [](const Thing&) {
                return std::vector<Field>{{.key = u"Closed"_s,
                                           .words = u"Closed from"_s,
                                           .hint = u"The first day without the program there; it "
                                                   "may lie ahead"_s,
                                           .kind = FieldKind::date,
                                           .isNeeded = true}};
              },
          .values = [&book](const Thing& id) -> Result<Values> {
            const auto school = thingOf(book.schools(), id);
            if (!school) return school.error();
            Values values;
            values.set(u"Closed"_s, school->value.closedFrom);
            return values;
          },
          .act = [&book](By by, const Thing& id, const Values& values) -> Result<QString> {
            const auto from = *values.date(u"Closed"_s);
            return saidIf(book.closeSchool(by, roster::SchoolId(*id), from, values.text(reasonKey)),
                          u"The school is closed from %1 on. Its history and reports stay."_s.arg(
                              toQt(from.words())));
          },
          .refusedAt = {{ErrorCode::ruleDate, u"Closed"_s}}};
}

AreaForm reopeningSchool(session::Session& book) {
  return {.name = u"Reopen"_s,
          .words = u"Reopen"_s,
          .key = Qt::Key_O,
          .asksReason = true,
          .save = u"Reopen school"_s,
          .note = u"For a school that was closed by mistake, or where the program is back."_s,
          .changes = [](const Thing&) -> Result<QStringList> {
            return QStringList{u"It is offered again for days, plans, students, lists and forms. "
                               "That it was closed stays in the history."_s};
          },
          .fields = [](const Thing&) { return std::vector<Field>(); },
          .values = [](const Thing&) -> Result<Values> { return Values(); },
          .act = [&book](By by, const Thing& id, const Values& values) -> Result<QString> {
            return saidIf(book.reopenSchool(by, roster::SchoolId(*id), values.text(reasonKey)),
                          u"The school is open again."_s);
          }};
}

} // namespace

AreaSpec schoolsArea(Context& context) {
  auto& book = context.session;
  const std::map<ErrorCode, QString> refused{{ErrorCode::textMalformed, u"Code"_s}};
  AreaForm add{.name = u"Add"_s,
               .words = u"Add a school"_s,
               .key = Qt::Key_N,
               .isOfThing = false,
               .save = u"Save school"_s,
               .fields = schoolFields,
               .values = [](const Thing&) -> Result<Values> { return Values(); },
               .act = [&book](By by, const Thing&, const Values& values) -> Result<QString> {
                 const auto school = schoolFrom(values);
                 return saidIf(book.enterSchool(by, school), toQt(school.name) + u" is saved."_s);
               },
               .refusedAt = refused};
  AreaForm correct{
      .name = u"Correct"_s,
      .words = u"Correct"_s,
      .key = Qt::Key_E,
      .asksReason = true,
      .save = u"Save school"_s,
      .changes = changesSaid(book, session::Area::schools),
      .fields = schoolFields,
      .values = [&book](const Thing& id) -> Result<Values> {
        const auto school = thingOf(book.schools(), id);
        if (!school) return school.error();
        return valuesOfSchool(school->value);
      },
      .act = [&book](By by, const Thing& id, const Values& values) -> Result<QString> {
        const auto school = schoolFrom(values);
        return saidIf(book.correctSchool(by, roster::SchoolId(*id), school, values.text(reasonKey)),
                      toQt(school.name) + u" is saved. The previous entry stays in the history."_s);
      },
      .refusedAt = refused};
  AreaForm enrollment{
      .name = u"Enrollment"_s,
      .words = u"Enrollment"_s,
      .key = Qt::Key_R,
      .columns = 4,
      .save = u"Save enrollment"_s,
      .note = u"Students in each grade this term, for participation rates. Blank for grades "
              "the program does not visit."_s,
      .fields = [&context](const Thing&) { return enrollmentFields(context); },
      .values = [&context](const Thing& id) { return enrollmentOf(context, id); },
      .act = [&context](By by, const Thing& id,
                        const Values& values) { return enterEnrollment(context, by, id, values); }};
  AreaForm meals{
      .name = u"Meals"_s,
      .words = u"Meal eligibility"_s,
      .key = Qt::Key_M,
      .save = u"Save percentage"_s,
      .note = u"Funders ask for it; programs choose schools by it."_s,
      .fields = mealFields,
      .values = [&context](const Thing& id) { return mealsOf(context, id); },
      .act = [&context](By by, const Thing& id,
                        const Values& values) { return enterMeals(context, by, id, values); }};
  const auto remove = removalForm(
      u"Remove school"_s,
      u"For a school entered by mistake. One with students, school days or enrollment stays: "
      "close it instead."_s,
      [&book](By by, const Thing& id, const std::string& reason) {
        return saidIf(book.removeSchool(by, roster::SchoolId(*id), reason),
                      u"The school is removed."_s);
      });
  return {.name = u"Schools"_s,
          .title = u"Schools and enrollment"_s,
          .station = base::Station::schools,
          .area = session::Area::schools,
          .columns = {{"School"}, {"Code"}, {"Enrollment this term"}, {"Status"}},
          .rows = [&context](const QString&) -> Result<std::vector<AreaRow>> {
            const auto schools = context.session.schools();
            if (!schools) return schools.error();
            std::vector<base::Recorded<roster::Enrollment>> counts;
            if (const auto term = termNow(context)) {
              auto all = context.session.enrollments(term->id);
              if (!all) return all.error();
              counts = std::move(*all);
            }
            std::vector<AreaRow> rows;
            for (const auto& school : *schools) {
              int students = 0;
              bool isCounted = false;
              for (const auto& count : counts)
                if (count.value.school == school.id) {
                  students += count.value.students;
                  isCounted = true;
                }
              rows.push_back(
                  {school.id.uuid(),
                   {school.value.name, school.value.code,
                    isCounted ? base::counted(students, "student", "students") : "not entered",
                    school.value.closedFrom ? "closed from " + school.value.closedFrom->words()
                                            : "open"}});
            }
            return rows;
          },
          .history =
              [&book](const base::Uuid& id) {
                return revisionsOf(book.revisions<roster::School>(roster::SchoolId(id)),
                                   valuesOfSchool);
              },
          .forms = {add, correct, remove, closingSchool(book), reopeningSchool(book), enrollment,
                    meals}};
}

} // namespace gk::ui
