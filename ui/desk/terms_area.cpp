#include "ui/asking/context.h"
#include "ui/forms/area.h"

namespace gk::ui {

namespace {

using base::ErrorCode;

std::vector<Field> termFields(const Thing&) {
  return {{.key = u"Name"_s,
           .words = u"Name"_s,
           .hint = u"Such as Fall 2026; on reports"_s,
           .isNeeded = true},
          {.key = u"Start"_s,
           .words = u"First day"_s,
           .hint = u"8/24/2026"_s,
           .kind = FieldKind::date,
           .isNeeded = true},
          {.key = u"End"_s,
           .words = u"Last day"_s,
           .hint = u"Consent forms without an end date are valid until then"_s,
           .kind = FieldKind::date,
           .isNeeded = true},
          {.key = u"Holidays"_s,
           .words = u"Holidays and days without school"_s,
           .hint = u"Dates separated by commas. Opening a day on one of them needs a reason"_s,
           .kind = FieldKind::dates,
           .span = 3}};
}

Values valuesOfTerm(const roster::Term& term) {
  Values values;
  values.set(u"Name"_s, term.name);
  values.set(u"Start"_s, std::optional(term.start));
  values.set(u"End"_s, std::optional(term.end));
  QStringList holidays;
  for (const auto& holiday : term.holidays)
    holidays += toQt(holiday.iso());
  values.set(u"Holidays"_s, holidays.join(u", "_s));
  return values;
}

roster::Term termFrom(const Values& values) {
  return {values.text(u"Name"_s), *values.date(u"Start"_s), *values.date(u"End"_s),
          values.dates(u"Holidays"_s)};
}

const std::map<ErrorCode, QString> termRefusals{{ErrorCode::ruleDate, u"End"_s},
                                                {ErrorCode::textMalformed, u"Name"_s}};

} // namespace

AreaSpec termsArea(Context& context) {
  auto& book = context.session;
  AreaForm add{.name = u"Add"_s,
               .words = u"Add a term"_s,
               .key = Qt::Key_N,
               .isOfThing = false,
               .save = u"Save term"_s,
               .fields = termFields,
               .values = [](const Thing&) -> Result<Values> { return Values(); },
               .act = [&book](By by, const Thing&, const Values& values) -> Result<QString> {
                 const auto term = termFrom(values);
                 return saidIf(book.enterTerm(by, term), toQt(term.name) + u" is saved."_s);
               },
               .refusedAt = termRefusals};
  AreaForm correct{
      .name = u"Correct"_s,
      .words = u"Correct"_s,
      .key = Qt::Key_E,
      .asksReason = true,
      .save = u"Save term"_s,
      .changes = changesSaid(book, session::Area::terms),
      .fields = termFields,
      .values = [&book](const Thing& id) -> Result<Values> {
        const auto term = thingOf(book.terms(), id);
        if (!term) return term.error();
        return valuesOfTerm(term->value);
      },
      .act = [&book](By by, const Thing& id, const Values& values) -> Result<QString> {
        const auto term = termFrom(values);
        return saidIf(book.correctTerm(by, roster::TermId(*id), term, values.text(reasonKey)),
                      toQt(term.name) + u" is saved. The previous entry stays in the history."_s);
      },
      .refusedAt = termRefusals};
  const auto remove = removalForm(
      u"Remove term"_s,
      u"For a term entered by mistake. One with school days, enrollment, forms or issued reports stays."_s,
      [&book](By by, const Thing& id, const std::string& reason) {
        return saidIf(book.removeTerm(by, roster::TermId(*id), reason), u"The term is removed."_s);
      });
  return {.name = u"Terms"_s,
          .title = u"Terms and holidays"_s,
          .station = base::Station::program,
          .area = session::Area::terms,
          .columns = {{"Term"}, {"First day"}, {"Last day"}, {"Holidays", reports::Kind::count}},
          .rows = [&book](const QString&) -> Result<std::vector<AreaRow>> {
            const auto terms = book.terms();
            if (!terms) return terms.error();
            return rowsOf(*terms, [](const roster::Term& term) -> std::vector<std::string> {
              return {term.name, term.start.words(), term.end.words(),
                      std::to_string(term.holidays.size())};
            });
          },
          .history =
              [&book](const base::Uuid& id) {
                return revisionsOf(book.revisions<roster::Term>(roster::TermId(id)), valuesOfTerm);
              },
          .forms = {add, correct, remove}};
}

} // namespace gk::ui
