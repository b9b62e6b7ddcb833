#include "roster/display_names.h"
#include "ui/asking/context.h"
#include "ui/forms/area.h"
#include "ui/setup/laptop_area.h"

namespace gk::ui {

namespace {

using base::ErrorCode;

std::vector<Field> yearFields(const Thing&) {
  return {{.key = u"Name"_s,
           .words = u"Name"_s,
           .hint = u"Such as 2026-27; on reports"_s,
           .isNeeded = true},
          {.key = u"Kind"_s,
           .words = u"Kind"_s,
           .hint = u"As the state or the funder counts it"_s,
           .kind = FieldKind::choice,
           .options = optionsOf<roster::YearKind>()},
          {.key = u"Start"_s,
           .words = u"First day"_s,
           .hint = u"7/1/2026 or 2026-07-01"_s,
           .kind = FieldKind::date,
           .isNeeded = true},
          {.key = u"End"_s,
           .words = u"Last day"_s,
           .hint = u"School days on it still count"_s,
           .kind = FieldKind::date,
           .isNeeded = true}};
}

Values valuesOfYear(const roster::ProgramYear& year) {
  Values values;
  values.set(u"Name"_s, year.name);
  values.set(u"Kind"_s, year.kind);
  values.set(u"Start"_s, std::optional(year.start));
  values.set(u"End"_s, std::optional(year.end));
  return values;
}

roster::ProgramYear yearFrom(const Values& values) {
  return {values.text(u"Name"_s), values.choice<roster::YearKind>(u"Kind"_s),
          *values.date(u"Start"_s), *values.date(u"End"_s)};
}

const std::map<ErrorCode, QString> yearRefusals{{ErrorCode::ruleDate, u"End"_s},
                                                {ErrorCode::textMalformed, u"Name"_s}};

} // namespace

AreaSpec yearsArea(Context& context, const Telling& telling) {
  auto& book = context.session;
  AreaForm add{.name = u"Add"_s,
               .words = u"Add a year"_s,
               .key = Qt::Key_N,
               .isOfThing = false,
               .save = u"Save year"_s,
               .note = u"A state report counts each student once over a year. Terms do not "
                       "change; years of different kinds may overlap."_s,
               .fields = yearFields,
               .values = [](const Thing&) -> Result<Values> { return Values(); },
               .act = [&book](By by, const Thing&, const Values& values) -> Result<QString> {
                 const auto year = yearFrom(values);
                 return saidIf(book.enterYear(by, year),
                               toQt(roster::wordsOf(year)) + u" is saved."_s);
               },
               .refusedAt = yearRefusals};
  AreaForm correct{.name = u"Correct"_s,
                   .words = u"Correct"_s,
                   .key = Qt::Key_E,
                   .asksReason = true,
                   .save = u"Save year"_s,
                   .changes = changesSaid(book, session::Area::years),
                   .fields = yearFields,
                   .values = [&book](const Thing& id) -> Result<Values> {
                     const auto year = thingOf(book.years(), id);
                     if (!year) return year.error();
                     return valuesOfYear(year->value);
                   },
                   .act = [&book](By by, const Thing& id, const Values& values) -> Result<QString> {
                     const auto year = yearFrom(values);
                     return saidIf(
                         book.correctYear(by, roster::YearId(*id), year, values.text(reasonKey)),
                         toQt(roster::wordsOf(year)) +
                             u" is saved. The previous entry is kept in history."_s);
                   },
                   .refusedAt = yearRefusals};
  const auto remove = removalForm(
      u"Remove year"_s, u"For a year entered by mistake. School days and terms do not change."_s,
      [&book](By by, const Thing& id, const std::string& reason) {
        return saidIf(book.removeYear(by, roster::YearId(*id), reason), u"The year is removed."_s);
      });
  return {.name = u"Years"_s,
          .title = u"School, grant and fiscal years"_s,
          .station = base::Station::program,
          .area = session::Area::years,
          .columns = {{"Year"}, {"Kind"}, {"First day"}, {"Last day"}},
          .rows = [&book](const QString&) -> Result<std::vector<AreaRow>> {
            const auto years = book.years();
            if (!years) return years.error();
            return rowsOf(*years, [](const roster::ProgramYear& year) -> std::vector<std::string> {
              return {year.name, std::string(base::displayName(year.kind)), year.start.words(),
                      year.end.words()};
            });
          },
          .history =
              [&book](const base::Uuid& id) {
                return revisionsOf(book.revisions<roster::ProgramYear>(roster::YearId(id)),
                                   valuesOfYear);
              },
          .forms = {add, correct, archivingYear(context, telling), remove}};
}

} // namespace gk::ui
