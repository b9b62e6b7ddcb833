#include "ui/board/open_day_form.h"

#include "ui/asking/read_date.h"
#include "ui/keys/key_button.h"
#include "ui/look/choice_box.h"
#include "ui/look/style.h"
#include "ui/support/retired.h"
#include "ui/support/text.h"

#include <QComboBox>
#include <QFormLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QSignalBlocker>
#include <QSpinBox>

#include <algorithm>

namespace gk::ui {

OpenDayForm::OpenDayForm(Context& context, QWidget* parent)
    : Page(context, parent), school_(new ChoiceBox(this)), date_(new QLineEdit(this)),
      team_(new QSpinBox(this)), reason_(new QLineEdit(this)),
      question_(wordsLabel({}, u"counts"_s, u"dayQuestion"_s, this)) {
  school_->setObjectName(u"daySchool"_s);
  date_->setObjectName(u"dayDate"_s);
  team_->setObjectName(u"dayTeam"_s);
  team_->setRange(1, 9);
  team_->setButtonSymbols(QAbstractSpinBox::NoButtons); // typed, or the arrow keys
  reason_->setObjectName(u"dayReason"_s);
  reason_->setPlaceholderText(u"only if the date needs one"_s);
  auto* open =
      keyButton(u"Open this day"_s, QKeySequence(Qt::CTRL | Qt::Key_Return), u"openDayNow"_s, this);
  auto* back = keyButton(u"Back"_s, QKeySequence(Qt::Key_Escape), u"openDayBack"_s, this);

  auto* form = new QFormLayout(this);
  form->setHorizontalSpacing(12);
  form->addRow(wordsLabel(u"Open a school day"_s, u"title"_s, {}, this));
  form->addRow(u"&School"_s, school_);
  form->addRow(u"&Date, 11/17/2026"_s, date_);
  form->addRow(u"&Team (2 when a second team works here that day)"_s, team_);
  form->addRow(u"&Reason"_s, reason_);
  form->addRow(question_);
  form->addRow(open);
  form->addRow(back);

  style::whenDressed(this, [this, open, back] {
    for (auto* field : {static_cast<QWidget*>(school_), static_cast<QWidget*>(date_),
                        static_cast<QWidget*>(team_), static_cast<QWidget*>(reason_)})
      field->setMaximumWidth(style::px(620));
    for (auto* button : {open, back})
      button->setFixedWidth(style::px(300));
  });

  connect(school_, &QComboBox::activated, this, [this] { isChosen_ = true; });
  connect(team_, &QSpinBox::valueChanged, this, [this] { isTeamChosen_ = true; });
  connect(date_, &QLineEdit::textChanged, this, &OpenDayForm::question);
  for (auto* line : {date_, reason_})
    connect(line, &QLineEdit::returnPressed, this, &OpenDayForm::open);
  connect(open, &QPushButton::clicked, this, &OpenDayForm::open);
  connect(back, &QPushButton::clicked, this, &OpenDayForm::backedOut);
}

void OpenDayForm::begin() {
  isChosen_ = false;
  isTeamChosen_ = false;
  refresh();
  date_->setText(toQt(context().clock.now().date().shortWords()));
  reason_->clear();
  plannedOn_.reset();
  question();
  school_->setFocus();
}

void OpenDayForm::refresh() {
  const auto schools = book().schools();
  const auto terms = book().terms();
  if (!went(schools) || !went(terms)) return;
  schools_ = *schools;
  terms_ = *terms;
  offeredOn_.reset();
  plannedOn_.reset();
  offerSchools(context().clock.now().date());
}

/// Those where the program worked on that day: a day from paper may be from before a closing.
void OpenDayForm::offerSchools(base::Date on) {
  if (offeredOn_ == on && school_->count() == static_cast<int>(schools_.size())) return;
  offeredOn_ = on;
  const auto kept = school_->currentIndex();
  school_->clear();
  for (const auto& school : schools_)
    school_->addItem(toQt(roster::shownAmong(school.value, schools_)));
  if (kept >= 0 && kept < school_->count()) school_->setCurrentIndex(kept);
  retireOthers(*school_, schools_, book().openSchools(on));
}

/// Not over one that a person chose.
void OpenDayForm::offerTeam(int team) {
  if (isChosen_ || isTeamChosen_) return;
  const QSignalBlocker byUs(team_);
  team_->setValue(team);
}

void OpenDayForm::offerPlanned(base::Date on) {
  if (plannedOn_ == on) return;
  plannedOn_ = on;
  planned_.clear();
  offerTeam(1);
  const auto term = termOn(on);
  if (!term) return;
  const auto plans = book().plannedDays(term->id);
  const auto opened = book().days(term->id);
  if (!went(plans) || !went(opened)) return;
  QStringList all;
  for (const auto& plan : *plans) {
    const auto& day = plan.value;
    if (day.canceled || day.date != on || std::ranges::any_of(*opened, [&](const auto& one) {
          return !one.value.canceled && one.value.date == on && one.value.school == day.school &&
                 one.value.team == day.team;
        }))
      continue;
    const auto at = std::ranges::find(schools_, day.school, &base::Recorded<roster::School>::id);
    if (at == schools_.end()) continue;
    if (all.isEmpty() && !isChosen_) {
      school_->setCurrentIndex(static_cast<int>(at - schools_.begin()));
      offerTeam(day.team);
    }
    all += toQt(roster::shownAmong(at->value, schools_)) +
           (day.team > 1 ? u", team %1"_s.arg(day.team) : QString());
  }
  if (!all.isEmpty()) planned_ = u" Planned: "_s + all.join(u"; "_s) + u'.';
}

std::optional<base::Recorded<roster::Term>> OpenDayForm::termOn(base::Date date) const {
  std::optional<base::Recorded<roster::Term>> found;
  for (const auto& term : terms_) {
    if (term.value.start <= date && date <= term.value.end) return term;
    if (!found || (term.value.start <= date && term.value.start > found->value.start)) found = term;
  }
  return found;
}

void OpenDayForm::question() {
  question_->clear();
  const auto typed = toStd(date_->text().trimmed());
  auto date = base::parsePlainDate(typed);
  if (!date)
    if (const auto readings = base::parseNumericDate(typed)) date = readings->monthFirst;
  if (!date) return;
  offerSchools(*date);
  offerPlanned(*date);
  QString words = toQt(date->weekday() + ", " + date->words()) + u'.' + planned_;
  if (const auto term = termOn(*date)) {
    const auto odd = roster::dateQuestion(term->value, *date);
    if (!odd.empty()) words = u"▲ "_s + toQt(odd) + u". Open it only with a reason."_s;
  }
  question_->setText(words);
}

void OpenDayForm::open() {
  const auto date = readDate(date_->text(), context().prompter);
  if (!went(date)) return;
  date_->setText(toQt(date->shortWords()));
  const auto term = termOn(*date);
  const auto place = school_->currentIndex();
  if (!term || place < 0) {
    Q_EMIT failed({u"There is no term or no school in this logbook yet."_s, u"Nothing is lost."_s,
                   u"Enter both at the desk first: F8."_s});
    return;
  }
  const auto day =
      book().openDay(context().acting.by(), {.term = term->id,
                                             .school = schools_[static_cast<std::size_t>(place)].id,
                                             .date = *date,
                                             .team = team_->value(),
                                             .reason = toStd(reason_->text().trimmed())});
  if (!went(day)) return reason_->setFocus();
  Q_EMIT opened(*day);
}

} // namespace gk::ui
