#include "ui/desk/roster_forms.h"

#include "base/files.h"
#include "base/text.h"
#include "session/roster_plan.h"
#include "ui/support/context.h"

#include <algorithm>

namespace gk::ui {

namespace {

using base::Error;
using base::ErrorCode;

constexpr std::size_t mostLinesSaid = 5;

std::vector<Field> importFields(session::Session& book) {
  QStringList schools;
  QStringList terms;
  if (const auto all = book.schools())
    for (const auto& school : *all)
      schools += toQt(roster::shownAmong(school.value, *all));
  if (const auto all = book.terms())
    for (const auto& term : *all)
      terms += toQt(term.value.name);
  return {{.key = u"ListSchool"_s,
           .words = u"School on the list"_s,
           .kind = FieldKind::choice,
           .options = schools},
          {.key = u"ListTerm"_s,
           .words = u"Term of the forms"_s,
           .hint = u"A form without an end date is valid to the end of the term"_s,
           .kind = FieldKind::choice,
           .options = terms},
          {.key = u"Ages"_s,
           .words = u"School confirms unusual ages"_s,
           .hint = u"Only after asking the school"_s,
           .kind = FieldKind::tick},
          {.key = u"Others"_s,
           .words = u"Similar students are different children"_s,
           .hint = u"Only after comparing both records"_s,
           .kind = FieldKind::tick,
           .span = 3}};
}

Result<Values> importValues(Context& context) {
  const auto terms = context.session.terms();
  if (!terms) return terms.error();
  Values values;
  const auto* term = session::termFor(*terms, context.clock.now().date());
  if (term) values.set(u"ListTerm"_s, std::int64_t{term - terms->data()});
  return values;
}

/// "41 students and 38 forms, 2 of them incomplete".
QString planWords(const std::vector<session::PlannedChild>& plan) {
  const auto forms =
      std::ranges::count_if(plan, [](const auto& one) { return one.form.has_value(); });
  const auto incomplete =
      std::ranges::count_if(plan, [](const auto& one) { return !one.incompleteBecause.empty(); });
  auto words = counted(std::ssize(plan), "student", "students") + u" and "_s +
               counted(forms, "form", "forms");
  if (incomplete > 0) words += u", %1 incomplete"_s.arg(incomplete);
  return words;
}

QString incompleteWords(const std::vector<session::PlannedChild>& plan) {
  QStringList lines;
  for (const auto& one : plan)
    if (!one.incompleteBecause.empty() && lines.size() < static_cast<int>(mostLinesSaid))
      lines += u"line %1: %2"_s.arg(one.line).arg(toQt(one.incompleteBecause));
  return lines.isEmpty() ? QString() : u" Entered as incomplete: "_s + lines.join(u"; "_s) + u"."_s;
}

Result<QString> importList(Context& context, By by, const Values& values) {
  auto& book = context.session;
  const auto schools = book.schools();
  if (!schools) return schools.error();
  const auto terms = book.terms();
  if (!terms) return terms.error();
  const auto school = static_cast<std::size_t>(values.number(u"ListSchool"_s).value_or(-1));
  const auto term = static_cast<std::size_t>(values.number(u"ListTerm"_s).value_or(-1));
  if (school >= schools->size() || term >= terms->size())
    return Error{ErrorCode::notFound, "enter the school and the term first"};
  const auto path = context.prompter.openFile(u"The school's list"_s, u"List, CSV (*.csv)"_s);
  if (!path) return QString();
  const auto text = base::readFile(toStd(*path));
  if (!text) return text.error();
  const auto today = context.clock.now().date();
  const auto lines = roster::readRoster(*text, today);
  if (!lines) return lines.error();
  const bool areOthers = values.tick(u"Others"_s);
  const auto plan = session::planRoster(
      book, *lines,
      {(*terms)[term], (*schools)[school].id, today, values.tick(u"Ages"_s), areOthers});
  if (!plan) return plan.error();
  // Said before anything is written: an import is taken back whole or not at all.
  if (!context.prompter.confirm(u"%1 of %2. Import them?"_s.arg(
          planWords(*plan), toQt(roster::shownAmong((*schools)[school].value, *schools)))))
    return QString();
  return saidIf(book.enrolRoster(by, session::newChildren(*plan), session::Confirmed::yes,
                                 areOthers ? session::Confirmed::yes : session::Confirmed::no),
                planWords(*plan) + u" imported."_s + incompleteWords(*plan));
}

} // namespace

AreaForm importingRoster(Context& context) {
  return {.name = u"Import"_s,
          .words = u"Import a list"_s,
          .key = Qt::Key_I,
          .isOfThing = false,
          .save = u"Choose the file"_s,
          .note = u"CSV file with the columns first, last, birth_date (2019-03-14), grade and, "
                  "if known, number, room, teacher, sex, guardian, relation, phone, language "
                  "and the form's columns. All lines are imported, or none."_s,
          .fields = [&context](const Thing&) { return importFields(context.session); },
          .values = [&context](const Thing&) { return importValues(context); },
          .act = [&context](By by, const Thing&,
                            const Values& values) { return importList(context, by, values); }};
}

AreaForm takingImportBack(session::Session& book) {
  return {.name = u"TakeBack"_s,
          .words = u"Undo import"_s,
          .key = Qt::Key_K,
          .asksReason = true,
          .save = u"Undo the import"_s,
          .note = u"Removes the whole list that this student came with, students and forms, if "
                  "nothing else is recorded for any of them."_s,
          .fields = [](const Thing&) { return std::vector<Field>(); },
          .values = [](const Thing&) -> Result<Values> { return Values(); },
          .act = [&book](By by, const Thing& id, const Values& values) -> Result<QString> {
            return saidIf(book.takeBackImport(by, roster::ChildId(*id), values.text(reasonKey)),
                          u"Import undone. It stays in the history."_s);
          }};
}

} // namespace gk::ui
