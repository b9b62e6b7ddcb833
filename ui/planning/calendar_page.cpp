#include "ui/planning/calendar_page.h"

#include "base/text/text.h"
#include "session/reporting/terms_so_far.h"
#include "ui/asking/read_date.h"
#include "ui/keys/cap_button.h"
#include "ui/keys/flow_layout.h"
#include "ui/keys/key_button.h"
#include "ui/keys/page_head.h"
#include "ui/lists/cell_delegate.h"
#include "ui/lists/last_column.h"
#include "ui/look/choice_box.h"
#include "ui/look/style.h"
#include "ui/models/table_model.h"
#include "ui/support/retired.h"
#include "ui/support/text.h"

#include <QComboBox>
#include <QGridLayout>
#include <QHeaderView>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QTableView>
#include <QVBoxLayout>

#include <algorithm>

namespace gk::ui {

CalendarPage::CalendarPage(Context& context, QWidget* parent)
    : Page(context, parent), model_(new TableModel(this)) {
  setObjectName(u"calendarPage"_s);
  layOut();
}

QLineEdit* CalendarPage::line(const QString& words, const QString& name) {
  auto* made = new QLineEdit(this);
  made->setObjectName(name);
  made->setAccessibleName(words);
  made->setPlaceholderText(words);
  return made;
}

void CalendarPage::layOut() {
  auto* head =
      new PageHead(wordsLabel(u"Calendar"_s, u"title"_s, u"planTitle"_s, this), nullptr, this);
  term_ = new ChoiceBox(this);
  term_->setObjectName(u"planTerm"_s);
  term_->setAccessibleName(u"Term"_s);
  connect(term_, &QComboBox::currentIndexChanged, this, [this] {
    if (reading_) return;
    clearForm();
    countPast();
    showDays();
  });
  auto* keys = new FlowLayout(6);
  keys->addWidget(term_);
  const auto key = [&](const QString& words, const QKeySequence& hint, const QString& name,
                       auto act) {
    auto* made = keyButton(words, hint, name, this);
    connect(made, &QPushButton::clicked, this, act);
    keys->addWidget(made);
    return made;
  };
  key(u"New day"_s, QKeySequence(Qt::ALT | Qt::Key_N), u"planNew"_s, [this] {
    clearForm();
    date_->setFocus();
  });
  key(u"Change day"_s, QKeySequence(Qt::ALT | Qt::Key_K), u"planChange"_s, [this] { change(); });
  key(u"Cancel day"_s, QKeySequence(Qt::ALT | Qt::Key_X), u"planCancel"_s,
      [this] { cancelPlan(); });
  key(u"Print"_s, QKeySequence(Qt::ALT | Qt::Key_P), u"planPrint"_s, [this] { print(); });
  key(u"Export calendar"_s, QKeySequence(Qt::ALT | Qt::Key_E), u"planExport"_s,
      [this] { exportDays(); });
  table_ = new QTableView(this);
  table_->setObjectName(u"planTable"_s);
  table_->setAccessibleName(u"Planned days of the term"_s);
  table_->setModel(model_);
  table_->setItemDelegate(new CellDelegate(table_));
  table_->setSelectionBehavior(QAbstractItemView::SelectRows);
  table_->setSelectionMode(QAbstractItemView::SingleSelection);
  table_->setTabKeyNavigation(false);
  table_->verticalHeader()->hide();
  new LastColumn(*table_);
  style::whenDressed(table_,
                     [this] { table_->verticalHeader()->setDefaultSectionSize(style::px(28)); });
  connect(table_->selectionModel(), &QItemSelectionModel::currentRowChanged, this,
          [this] { showChosen(); });
  words_ = wordsLabel({}, u"field"_s, u"planWords"_s, this);
  auto* form = new QGridLayout;
  form->setHorizontalSpacing(8);
  form->setVerticalSpacing(4);
  date_ = line(u"Date, such as 11/24/2026"_s, u"planDate"_s);
  school_ = new ChoiceBox(this);
  school_->setObjectName(u"planSchool"_s);
  school_->setAccessibleName(u"School"_s);
  team_ = line(u"Team, 1"_s, u"planTeam"_s);
  chairs_ = line(u"Chairs, 1"_s, u"planChairs"_s);
  people_ = line(u"People, initials"_s, u"planPeople"_s);
  note_ = line(u"Note, no students' names"_s, u"planNote"_s);
  reason_ = line(u"Reason for the change, kept in the history"_s, u"planReason"_s);
  form->addWidget(date_, 0, 0);
  form->addWidget(school_, 0, 1);
  form->addWidget(team_, 0, 2);
  form->addWidget(chairs_, 0, 3);
  form->addWidget(people_, 1, 0);
  form->addWidget(note_, 1, 1, 1, 3);
  form->addWidget(reason_, 2, 0, 1, 4);
  for (const auto& [column, stretch] : {std::pair(0, 3), {1, 4}, {2, 1}, {3, 1}})
    form->setColumnStretch(column, stretch);
  save_ = static_cast<CapButton*>(
      keyButton(u"Plan this day"_s, QKeySequence(Qt::ALT | Qt::Key_S), u"planSave"_s, this));
  save_->setProperty("look", u"main"_s);
  connect(save_, &QPushButton::clicked, this, &CalendarPage::save);
  for (auto* field : {date_, team_, chairs_, people_, note_, reason_})
    connect(field, &QLineEdit::returnPressed, this, &CalendarPage::save);
  auto* whole = new QVBoxLayout(this);
  whole->setContentsMargins(18, 4, 18, 6);
  whole->setSpacing(8);
  whole->addWidget(head);
  whole->addLayout(keys);
  whole->addWidget(table_, 1);
  whole->addWidget(words_);
  whole->addLayout(form);
  whole->addWidget(save_, 0, Qt::AlignLeft);
  setFocusProxy(table_);
  clearForm();
}

std::optional<roster::TermId> CalendarPage::term() const {
  const auto at = term_->currentIndex();
  if (at < 0 || at >= static_cast<int>(terms_.size())) return std::nullopt;
  return terms_[static_cast<std::size_t>(at)];
}

std::optional<base::Recorded<roster::PlannedDay>> CalendarPage::chosen() const {
  const auto row = table_->currentIndex().row();
  if (row < 0 || row >= static_cast<int>(plans_.size())) return std::nullopt;
  return plans_[static_cast<std::size_t>(row)];
}

void CalendarPage::refresh() {
  readTerms();
  if (pastOf_ != term()) countPast();
  showDays();
}

void CalendarPage::readTerms() {
  const auto terms = book().terms();
  const auto schools = book().schools();
  if (!went(terms) || !went(schools)) return;
  const auto keptTerm = term();
  const auto keptSchool = school_->currentIndex();
  const auto today = context().clock.now().date();
  reading_ = true;
  terms_.clear();
  term_->clear();
  int meant = -1;
  for (const auto& one : *terms) {
    terms_.push_back(one.id);
    term_->addItem(toQt(one.value.name));
    if (keptTerm ? keptTerm == one.id : meant < 0 && today <= one.value.end)
      meant = term_->count() - 1;
  }
  term_->setCurrentIndex(meant < 0 ? term_->count() - 1 : meant);
  schools_.clear();
  school_->clear();
  for (const auto& one : *schools) {
    schools_.push_back(one.id);
    school_->addItem(toQt(roster::shownAmong(one.value, *schools)));
  }
  school_->setCurrentIndex(std::clamp(keptSchool, 0, std::max(school_->count() - 1, 0)));
  retireOthers(*school_, *schools, book().openSchools(today));
  reading_ = false;
}

void CalendarPage::countPast() {
  past_.reset();
  pastOf_ = term();
  const auto terms = book().terms();
  if (!pastOf_ || !went(terms)) return;
  const auto of = std::ranges::find(*terms, *pastOf_, &base::Recorded<roster::Term>::id);
  if (of == terms->end()) return;
  const auto before = of->value.start.plusDays(-1);
  const auto today = context().clock.now().date();
  context().work.runOnCopy(
      LongKind::totals, this, book(),
      [before, today](session::Snapshot& copy,
                      const base::Progress& progress) -> base::Result<reports::PastCare> {
        const auto totals = session::termsSoFar(copy, before, today, progress);
        if (!totals) return totals.error();
        return reports::pastCare(*totals);
      },
      [this](const base::Result<reports::PastCare>& past) {
        if (!past) return; // without it nothing is expected but the children
        past_ = *past;
        showDays();
      });
}

void CalendarPage::showDays() {
  const auto of = term();
  if (!of) return words_->setText(u"No term yet. Enter it first: Desk (F8), Terms."_s);
  const auto kept = chosen();
  auto plans = book().plannedDays(*of);
  const auto part = book().oneSchool();
  if (!went(plans) || !went(part)) return;
  isPart_ = part->has_value();
  if (isPart_) // who is seen at the other schools is in the whole logbook
    std::erase_if(*plans, [&](const auto& plan) { return plan.value.school != (*part)->school; });
  plans_ = std::move(*plans);
  seen_.clear();
  std::vector<reports::PlannedLine> lines;
  for (const auto& plan : plans_) {
    auto line = lineOf(plan);
    if (!line) return;
    lines.push_back(std::move(*line));
  }
  days_ = reports::planTable(toStd(term_->currentText()), lines);
  packing_ = reports::packingTable(toStd(term_->currentText()), lines);
  model_->show(days_);
  table_->resizeColumnsToContents();
  const auto at = kept
                      ? std::ranges::find(plans_, kept->id, &base::Recorded<roster::PlannedDay>::id)
                      : plans_.end();
  if (at != plans_.end())
    table_->setCurrentIndex(model_->index(static_cast<int>(at - plans_.begin()), 0));
  else if (!plans_.empty())
    table_->setCurrentIndex(model_->index(0, 0));
  showChosen();
}

void CalendarPage::showChosen() {
  const auto plan = chosen();
  if (!plan) return words_->setText(u"No day planned yet. Date, school, Alt+S plans one."_s);
  const auto line = lineOf(*plan);
  if (!line) return;
  const auto day = toQt(line->day.weekday() + ", " + line->day.words());
  // In the list a long note ends where the window does.
  const auto& written = plan->value.note;
  const auto note = written.empty() ? QString() : u" Note: "_s + toQt(written);
  if (!line->children)
    return words_->setText(
        u"%1, %2. %3"_s.arg(day, toQt(line->school),
                            line->canceled ? u"Canceled."_s : u"This day is over."_s) +
        note);
  words_->setText((line->basis.empty() ? QString() : toQt(line->basis) + u". "_s) +
                  u"%1, %2. To pack: %3."_s.arg(day, toQt(line->school), toQt(line->supplies)) +
                  note);
}

void CalendarPage::clearForm() {
  changing_.reset();
  for (auto* field : {date_, team_, chairs_, people_, note_, reason_})
    field->clear();
  reason_->hide();
  save_->setWords(u"Alt+S"_s, u"Plan this day"_s);
}

void CalendarPage::change() {
  const auto plan = chosen();
  if (!plan) return Q_EMIT said(u"Select a planned day first."_s);
  changing_ = plan->id;
  const auto& day = plan->value;
  date_->setText(toQt(day.date.shortWords()));
  team_->setText(QString::number(day.team));
  chairs_->setText(QString::number(day.chairs));
  people_->setText(toQt(day.people));
  note_->setText(toQt(day.note));
  const auto at = std::ranges::find(schools_, day.school);
  school_->setCurrentIndex(static_cast<int>(at - schools_.begin()));
  reason_->show();
  save_->setWords(u"Alt+S"_s, u"Save the change"_s);
  date_->setFocus();
}

std::optional<roster::PlannedDay> CalendarPage::typed() {
  const auto of = term();
  const auto at = school_->currentIndex();
  if (!of || at < 0 || at >= static_cast<int>(schools_.size())) {
    Q_EMIT said(u"Enter a term and a school first: Desk (F8)."_s);
    return std::nullopt;
  }
  const auto date = readDate(date_->text(), context().prompter);
  if (!went(date)) {
    date_->setFocus();
    return std::nullopt;
  }
  roster::PlannedDay plan{
      .term = *of, .school = schools_[static_cast<std::size_t>(at)], .date = *date};
  for (auto [field, into] : {std::pair(team_, &plan.team), {chairs_, &plan.chairs}}) {
    const auto text = toStd(field->text().trimmed());
    if (text.empty()) continue;
    const auto number = base::parseInt(text);
    if (!went(number)) {
      field->setFocus();
      return std::nullopt;
    }
    *into = static_cast<int>(std::clamp<std::int64_t>(*number, -1, 1000));
  }
  plan.people = toStd(people_->text().trimmed());
  plan.note = toStd(note_->text().trimmed());
  return plan;
}

template <class Act>
bool CalendarPage::asking(Act act) {
  auto done = act(session::Confirmed::no);
  if (!done && done.error().code == base::ErrorCode::ruleDate) {
    if (!context().prompter.confirm(capital(toQt(done.error().detail)) + u". Plan it anyway?"_s))
      return false;
    done = act(session::Confirmed::yes);
  }
  return went(done);
}

void CalendarPage::save() {
  const auto plan = typed();
  if (!plan) return;
  const auto by = context().acting.byAtDesk(base::Station::desk);
  const auto reason = toStd(reason_->text().trimmed());
  const bool done = changing_ ? asking([&](session::Confirmed sure) {
    return book().correctPlan(by, *changing_, *plan, reason, sure);
  })
                              : asking([&](session::Confirmed sure) -> base::Result<base::Done> {
                                  const auto id = book().planDay(by, *plan, sure);
                                  if (!id) return id.error();
                                  return base::Done{};
                                });
  if (!done) return;
  const auto words = toQt(plan->date.weekday() + ", " + plan->date.words());
  clearForm();
  showDays();
  date_->setFocus();
  Q_EMIT said(
      u"Planned: %1. Nothing is opened: open the day on its date (F1, Alt+O)."_s.arg(words));
}

void CalendarPage::cancelPlan() {
  const auto plan = chosen();
  if (!plan) return Q_EMIT said(u"Select a planned day first."_s);
  const auto reason = context().prompter.text(u"Reason for canceling this planned day?"_s, {});
  if (!reason) return;
  auto canceled = plan->value;
  canceled.canceled = true;
  if (!went(book().correctPlan(context().acting.byAtDesk(base::Station::desk), plan->id, canceled,
                               toStd(reason->trimmed()))))
    return;
  showDays();
  Q_EMIT said(u"Canceled. It stays in the list, and an export says so."_s);
}

} // namespace gk::ui
