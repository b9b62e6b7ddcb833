#include "ui/consent/handouts_page.h"

#include "roster/consent/form_handout.h"
#include "ui/forms/area_page.h"
#include "ui/keys/key_button.h"

#include <QPushButton>
#include <QVBoxLayout>

#include <algorithm>

namespace gk::ui {

namespace {

using base::ErrorCode;
using roster::FormHandout;
using TermOf = std::function<std::optional<roster::TermId>()>;

std::vector<Field> handoutFields(Context& context) {
  return {{.key = u"On"_s, .words = u"Handed out on"_s, .kind = FieldKind::date, .isNeeded = true},
          schoolField(context, u"School"_s, u"School"_s),
          {.key = u"Room"_s, .words = u"Room"_s, .hint = u"Blank: the whole school"_s},
          {.key = u"Copies"_s,
           .words = u"Forms"_s,
           .kind = FieldKind::number,
           .least = 1,
           .most = roster::mostCopies,
           .isNeeded = true},
          {.key = u"Version"_s, .words = u"Form version"_s},
          {.key = u"Language"_s, .words = u"Language of the forms"_s}};
}

Values valuesOfHandout(const std::vector<base::Recorded<roster::School>>& schools,
                       const FormHandout& handout) {
  const auto at = std::ranges::find(schools, handout.school, &base::Recorded<roster::School>::id);
  Values values;
  values.set(u"On"_s, std::optional(handout.on));
  values.set(u"School"_s, std::int64_t{at - schools.begin()});
  values.set(u"Room"_s, handout.room);
  values.set(u"Copies"_s, std::int64_t{handout.copies});
  values.set(u"Version"_s, handout.version);
  values.set(u"Language"_s, handout.language);
  return values;
}

Result<base::Recorded<FormHandout>> lineOf(session::Session& book, const TermOf& term,
                                           const Thing& id) {
  const auto of = term();
  if (!of) return base::Error{ErrorCode::notFound, "there is no term yet"};
  return thingOf(book.handouts(*of), id);
}

AreaForm correctingLine(Context& context, const TermOf& term) {
  auto& book = context.session;
  return {.name = u"Correct"_s,
          .words = u"Correct"_s,
          .key = Qt::Key_E,
          .asksReason = true,
          .save = u"Save line"_s,
          .changes = [](const Thing&) -> Result<QStringList> {
            return QStringList{u"How many forms are out, and so how many are missing, in the "
                               "counts of the term."_s};
          },
          .fields = [&context](const Thing&) { return handoutFields(context); },
          .values = [&book, term](const Thing& id) -> Result<Values> {
            const auto line = lineOf(book, term, id);
            const auto schools = book.schools();
            if (!line) return line.error();
            if (!schools) return schools.error();
            return valuesOfHandout(*schools, line->value);
          },
          .act = [&book, term](By by, const Thing& id, const Values& values) -> Result<QString> {
            const auto line = lineOf(book, term, id);
            const auto schools = book.schools();
            if (!line) return line.error();
            if (!schools) return schools.error();
            auto now = line->value;
            now.on = *values.date(u"On"_s);
            const auto school = static_cast<std::size_t>(values.number(u"School"_s).value_or(-1));
            if (school < schools->size()) now.school = (*schools)[school].id;
            now.room = values.text(u"Room"_s);
            now.copies = values.number(u"Copies"_s).value_or(0);
            now.version = values.text(u"Version"_s);
            now.language = values.text(u"Language"_s);
            return saidIf(book.correctHandout(by, line->id, now, values.text(reasonKey)),
                          u"The line is corrected. What it said before stays in the history."_s);
          },
          .refusedAt = {{ErrorCode::ruleDate, u"On"_s}, {ErrorCode::numberMalformed, u"Copies"_s}}};
}

AreaForm strikingLine(session::Session& book, const TermOf& term) {
  return {.name = u"Strike"_s,
          .words = u"Not handed out"_s,
          .key = Qt::Key_X,
          .asksReason = true,
          .save = u"Count none"_s,
          .note = u"For a line entered by mistake or twice. It stays listed with 0 forms; Correct "
                  "puts a number back."_s,
          .changes = [](const Thing&) -> Result<QStringList> {
            return QStringList{u"The forms of this line no longer count as handed out."_s};
          },
          .fields = [](const Thing&) { return std::vector<Field>(); },
          .values = [](const Thing&) -> Result<Values> { return Values(); },
          .act = [&book, term](By by, const Thing& id, const Values& values) -> Result<QString> {
            const auto line = lineOf(book, term, id);
            if (!line) return line.error();
            auto none = line->value;
            none.copies = 0;
            return saidIf(book.correctHandout(by, line->id, none, values.text(reasonKey)),
                          u"The line no longer counts any forms. It stays in the history."_s);
          }};
}

AreaSpec handoutsArea(Context& context, const TermOf& term) {
  auto& book = context.session;
  return {.name = u"Handouts"_s,
          .title = u"Forms handed out this term"_s,
          .station = base::Station::consent,
          .columns = {{"Handed out"},
                      {"School"},
                      {"Room"},
                      {"Forms", reports::Kind::count},
                      {"Version"},
                      {"Language"}},
          .rows = [&book, term](const QString&) -> Result<std::vector<AreaRow>> {
            const auto of = term();
            if (!of) return std::vector<AreaRow>();
            const auto lines = book.handouts(*of);
            const auto schools = book.schools();
            if (!lines) return lines.error();
            if (!schools) return schools.error();
            return rowsOf(*lines, [&](const FormHandout& line) -> std::vector<std::string> {
              const auto at =
                  std::ranges::find(*schools, line.school, &base::Recorded<roster::School>::id);
              return {line.on.words(),
                      at == schools->end() ? std::string()
                                           : roster::shownAmong(at->value, *schools),
                      line.room.empty() ? "whole school" : line.room,
                      std::to_string(line.copies),
                      line.version,
                      line.language};
            });
          },
          .history = [&book](const base::Uuid& id) -> Result<std::vector<Revision>> {
            const auto schools = book.schools();
            if (!schools) return schools.error();
            return revisionsOf(
                book.revisions<FormHandout>(roster::HandoutId(id)),
                [&](const FormHandout& line) { return valuesOfHandout(*schools, line); });
          },
          .forms = {correctingLine(context, term), strikingLine(book, term)}};
}

} // namespace

HandoutsPage::HandoutsPage(Context& context, std::function<base::By()> by, const TermOf& term,
                           QWidget* parent)
    : Page(context, parent), area_(new AreaPage(
                                 context, handoutsArea(context, term),
                                 [by = std::move(by)](base::Station) { return by(); }, this)) {
  setObjectName(u"handoutsPage"_s);
  auto* back =
      keyButton(u"Back to counts"_s, QKeySequence(Qt::ALT | Qt::Key_B), u"handoutsBack"_s, this);
  connect(back, &QPushButton::clicked, this, [this] {
    if (area_->mayLeave()) Q_EMIT backedOut();
  });
  connect(area_, &Page::failed, this, &Page::failed);
  connect(area_, &Page::said, this, &Page::said);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->addWidget(area_, 1);
  column->addWidget(back, 0, Qt::AlignLeft);
  setFocusProxy(area_);
}

void HandoutsPage::begin() {
  area_->refresh();
  area_->begin();
}

void HandoutsPage::refresh() {
  area_->refresh();
}

} // namespace gk::ui
