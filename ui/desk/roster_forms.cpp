#include "ui/desk/roster_forms.h"

#include "base/files/files.h"
#include "ui/asking/context.h"
#include "ui/asking/long_work.h"

#include <algorithm>
#include <filesystem>

namespace gk::ui {

namespace {

using base::Error;
using base::ErrorCode;

std::vector<Field> importFields(Context& context) {
  QStringList terms;
  if (const auto all = context.session.terms())
    for (const auto& term : *all)
      terms += toQt(term.value.name);
  return {schoolField(context, u"ListSchool"_s, u"School on the list"_s),
          {.key = u"ListTerm"_s,
           .words = u"Term of the forms"_s,
           .hint = u"A form without an end date is valid to the end of the term"_s,
           .kind = FieldKind::choice,
           .options = terms}};
}

Result<Values> importValues(Context& context) {
  const auto terms = context.session.terms();
  if (!terms) return terms.error();
  Values values;
  const auto* term = session::termFor(*terms, context.clock.now().date());
  if (term) values.set(u"ListTerm"_s, std::int64_t{term - terms->data()});
  return values;
}

/// More than a school's list has, and read before a person could see that something runs.
constexpr std::uintmax_t bytesAtOnce = std::uintmax_t{256} * 1024;

void chooseList(Context& context, const Values& values, const ShowList& show,
                const FormAnswer& answer) {
  auto& book = context.session;
  const auto schools = book.schools();
  if (!schools) return answer.give(schools.error());
  const auto terms = book.terms();
  if (!terms) return answer.give(terms.error());
  const auto school = static_cast<std::size_t>(values.number(u"ListSchool"_s).value_or(-1));
  const auto term = static_cast<std::size_t>(values.number(u"ListTerm"_s).value_or(-1));
  if (school >= schools->size() || term >= terms->size())
    return answer.give(Error{ErrorCode::notFound, "enter the school and the term first"});
  const auto path = context.prompter.openFile(
      u"The school's list"_s, u"Lists (*.csv *.txt *.tsv *.xlsx *.ods);;All files (*)"_s);
  if (!path) return answer.give(QString());
  const auto& chosen = (*schools)[school];
  const auto remembered = book.listColumns(chosen.id);
  if (!remembered) return answer.give(remembered.error());
  const auto read = [file = base::Path(toStd(*path)), columns = *remembered](
                        const base::Progress& progress) -> Result<session::RosterDraft> {
    progress.at(base::Stage::reading);
    const auto bytes = base::readFile(file);
    if (!bytes) return bytes.error();
    return session::RosterDraft::read(*bytes, columns, progress);
  };
  const session::RosterAim aim{(*terms)[term], chosen.id, context.clock.now().date()};
  const auto then = [&book, aim, show, give = answer.give,
                     name = toQt(roster::shownAmong(chosen.value, *schools))](
                        Result<session::RosterDraft> draft) {
    if (!draft) return give(draft.error());
    if (const auto named = draft->meanSchool(book, aim.school); !named) return give(named.error());
    show({std::move(*draft), aim, name});
    give(QString()); // nothing is written yet; the list says what comes next
  };
  std::error_code unknown; // what is no file is refused as it is read
  const auto bytes = std::filesystem::file_size(toStd(*path), unknown);
  if (unknown || bytes <= bytesAtOnce) return then(read({}));
  context.work.run(LongKind::readList, answer.page, read, then);
}

} // namespace

AreaForm importingRoster(Context& context, const ShowList& show) {
  return {.name = u"Import"_s,
          .words = u"Import a list"_s,
          .key = Qt::Key_I,
          .isOfThing = false,
          .save = u"Choose the file"_s,
          .note = u"The list as the school sends it: CSV, text, .xlsx or .ods. What it changes is "
                  "shown before anything is written."_s,
          .fields = [&context](const Thing&) { return importFields(context); },
          .values = [&context](const Thing&) { return importValues(context); },
          .actAside =
              [&context, show](By, const Thing&, const Values& values, const FormAnswer& answer) {
                chooseList(context, values, show, answer);
              }};
}

AreaForm takingImportBack(session::Session& book) {
  return {.name = u"TakeBack"_s,
          .words = u"Undo import"_s,
          .key = Qt::Key_K,
          .asksReason = true,
          .save = u"Undo the import"_s,
          .note = u"Undoes the whole list that brought or last changed this student, if "
                  "nothing else is recorded for any of them since."_s,
          .fields = [](const Thing&) { return std::vector<Field>(); },
          .values = [](const Thing&) -> Result<Values> { return Values(); },
          .act = [&book](By by, const Thing& id, const Values& values) -> Result<QString> {
            return saidIf(book.takeBackImport(by, roster::ChildId(*id), values.text(reasonKey)),
                          u"Import undone. It stays in the history."_s);
          }};
}

void setLeaving(Values& values, const std::optional<roster::Leaving>& left) {
  values.set(u"Because"_s, left ? static_cast<std::int64_t>(left->why) : -1);
  values.set(u"From"_s, left ? std::optional(left->from) : std::nullopt);
}

AreaForm leavingStudent(Context& context) {
  auto& book = context.session;
  return {
      .name = u"Left"_s,
      .words = u"Left the program"_s,
      .key = Qt::Key_L,
      .save = u"Record as left"_s,
      .note = u"For a student who moved away, graduated or was withdrawn. A withdrawn consent "
              "alone is recorded on the day board."_s,
      .changes = [](const Thing&) -> Result<QStringList> {
        return QStringList{
            u"From that date on the student is on no day's list, and no form is chased. One that "
            "came back stays counted as back."_s,
            u"All that was done stays. Sealants placed still count in retention and totals."_s,
            u"Open referrals and calls stay to do."_s, u"It can be undone: Came back."_s};
      },
      .fields =
          [](const Thing&) {
            return std::vector<Field>{{.key = u"Because"_s,
                                       .words = u"Reason"_s,
                                       .kind = FieldKind::choice,
                                       .options = optionsOf<roster::LeftBecause>()},
                                      {.key = reasonKey,
                                       .words = u"In words"_s,
                                       .hint = u"Needed for Other. No names."_s},
                                      {.key = u"From"_s,
                                       .words = u"Left from"_s,
                                       .hint = u"The first day without the student"_s,
                                       .kind = FieldKind::date,
                                       .isNeeded = true}};
          },
      .values = [&context](const Thing& id) -> Result<Values> {
        const auto card = context.session.child(roster::ChildId(*id));
        if (!card) return card.error();
        const auto left = card->value.left.value_or(
            roster::Leaving{context.clock.now().date(), roster::LeftBecause::movedAway});
        Values values;
        setLeaving(values, left);
        return values;
      },
      .act = [&book](By by, const Thing& id, const Values& values) -> Result<QString> {
        const roster::Leaving left{*values.date(u"From"_s),
                                   values.choice<roster::LeftBecause>(u"Because"_s)};
        return saidIf(book.leaveProgram(by, {roster::ChildId(*id)}, left, values.text(reasonKey)),
                      u"Recorded. The student is expected until %1; all records stay."_s.arg(
                          toQt(left.from.plusDays(-1).words())));
      },
      .refusedAt = {{ErrorCode::ruleDate, u"From"_s}, {ErrorCode::textMalformed, reasonKey}}};
}

AreaForm returningStudent(session::Session& book) {
  return {.name = u"Back"_s,
          .words = u"Came back"_s,
          .key = Qt::Key_O,
          .asksReason = true,
          .save = u"Student is back"_s,
          .note = u"For a student recorded as having left. That stays in the history."_s,
          .fields = [](const Thing&) { return std::vector<Field>(); },
          .values = [](const Thing&) -> Result<Values> { return Values(); },
          .act = [&book](By by, const Thing& id, const Values& values) -> Result<QString> {
            return saidIf(book.comeBack(by, roster::ChildId(*id), values.text(reasonKey)),
                          u"The student is expected again."_s);
          }};
}

} // namespace gk::ui
