#include "ui/board/late_form.h"

#include "reports/display_names.h"
#include "ui/asking/left_question.h"
#include "ui/asking/read_date.h"
#include "ui/keys/key_button.h"
#include "ui/look/choice_box.h"
#include "ui/support/text.h"

#include <QCheckBox>
#include <QComboBox>
#include <QFormLayout>
#include <QGridLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>

#include <algorithm>

namespace gk::ui {

namespace {

template <class E>
QStringList namesOf() {
  QStringList names;
  for (const auto name : base::displayNamesOf<E>())
    names += toQt(name);
  return names;
}

template <class E>
E chosen(const QComboBox* box) {
  return static_cast<E>(box->currentIndex());
}

std::string typed(const QLineEdit* line) {
  return toStd(line->text().trimmed());
}

/// A form holds for one school year unless it says otherwise; 30 June is common practice.
base::Date endOfSchoolYear(base::Date today) {
  const bool isAutumn = today.month() > 6;
  return *base::Date::of(today.year() + (isAutumn ? 1 : 0), 6, 30);
}

} // namespace

LateForm::LateForm(Context& context, QWidget* parent)
    : Page(context, parent), known_(wordsLabel({}, u"counts"_s, u"lateKnown"_s, this)) {
  auto* grid = new QGridLayout(this);
  grid->addWidget(wordsLabel(u"A form came back today"_s, u"title"_s, {}, this), 0, 0, 1, 2);
  auto* left = new QFormLayout;
  auto* right = new QFormLayout;
  for (auto* column : {left, right}) {
    column->setVerticalSpacing(5);
    column->setHorizontalSpacing(12);
  }
  layOutChild(left);
  layOutForm(right);
  // Made last, Tab comes to them last.
  auto* save =
      keyButton(u"Enter the form"_s, QKeySequence(Qt::CTRL | Qt::Key_Return), u"lateSave"_s, this);
  auto* back = keyButton(u"Back"_s, QKeySequence(Qt::Key_Escape), u"lateBack"_s, this);
  grid->addLayout(left, 1, 0);
  grid->addLayout(right, 1, 1);
  grid->addWidget(known_, 2, 0, 1, 2);
  grid->addWidget(save, 3, 0);
  grid->addWidget(back, 3, 1);
  grid->setRowStretch(4, 1);
  grid->setColumnStretch(0, 1);
  grid->setColumnStretch(1, 1);
  grid->setHorizontalSpacing(24);
  connect(number_, &QLineEdit::editingFinished, this, &LateForm::lookUp);
  connect(save, &QPushButton::clicked, this, &LateForm::save);
  connect(back, &QPushButton::clicked, this, &LateForm::backedOut);
}

QLineEdit* LateForm::line(QFormLayout* into, const QString& words, const QString& name) {
  auto* made = new QLineEdit(this);
  made->setObjectName(name);
  made->setAccessibleName(words);
  into->addRow(words, made);
  return made;
}

QComboBox* LateForm::choice(QFormLayout* into, const QString& words, const QString& name,
                            const QStringList& options) {
  auto* made = new ChoiceBox(this);
  made->setObjectName(name);
  made->setAccessibleName(words);
  made->addItems(options);
  into->addRow(words, made);
  return made;
}

void LateForm::layOutChild(QFormLayout* into) {
  number_ = line(into, u"Number, from the slip or roster"_s, u"lateNumber"_s);
  first_ = line(into, u"First name on the form"_s, u"lateFirst"_s);
  last_ = line(into, u"Last name or names"_s, u"lateLast"_s);
  used_ = line(into, u"Goes by, if different"_s, u"lateUsed"_s);
  birth_ = line(into, u"Born, 3/31/2019"_s, u"lateBirth"_s);
  sex_ = choice(into, u"Sex, as on the form"_s, u"lateSex"_s, namesOf<dentition::Sex>());
  grade_ = line(into, u"Grade, K or 1 to 12"_s, u"lateGrade"_s);
  room_ = line(into, u"Room"_s, u"lateRoom"_s);
  guardian_ = line(into, u"Guardian's name"_s, u"lateGuardian"_s);
  phone_ = line(into, u"Guardian's phone"_s, u"latePhone"_s);
  language_ = line(into, u"Language for letters"_s, u"lateLanguage"_s);
  provisional_ = new QCheckBox(u"Not on the school's roster yet"_s, this);
  provisional_->setObjectName(u"lateProvisional"_s);
  into->addRow(provisional_);
  ofNewChild_ = {first_, last_,  used_,     birth_,    sex_,        grade_,
                 room_,  phone_, guardian_, language_, provisional_};
}

void LateForm::layOutForm(QFormLayout* into) {
  state_ = choice(into, u"The form says"_s, u"lateState"_s, namesOf<roster::ConsentState>());
  signer_ = choice(into, u"Signed by"_s, u"lateSigner"_s, namesOf<roster::Relation>());
  reviewed_ = new QCheckBox(u"An \"other\" signer was reviewed"_s, this);
  reviewed_->setObjectName(u"lateReviewed"_s);
  into->addRow(reviewed_);
  signed_ = line(into, u"Signed on"_s, u"lateSigned"_s);
  from_ = line(into, u"Valid from"_s, u"lateFrom"_s);
  until_ = line(into, u"Valid through"_s, u"lateUntil"_s);
  history_ = choice(into, u"Health history answered"_s, u"lateHistory"_s,
                    namesOf<roster::HistoryAnswered>());
  auto* ticks = new QGridLayout;
  ticks->setVerticalSpacing(2);
  for (const auto service : roster::ServiceSet::all().values()) {
    auto* tick = new QCheckBox(capital(toQt(base::displayName(service))), this);
    tick->setObjectName(u"lateService%1"_s.arg(services_.size()));
    ticks->addWidget(tick, static_cast<int>(services_.size() / 2),
                     static_cast<int>(services_.size() % 2));
    services_.push_back(tick);
  }
  into->addRow(wordsLabel(u"Checked on the form (unchecked = no):"_s, {}, {}, this));
  into->addRow(ticks);
  flag_ = choice(into, u"Health alert"_s, u"lateFlag"_s,
                 QStringList(u"none"_s) + namesOf<roster::FlagKind>());
  action_ = choice(into, u"Action"_s, u"lateAction"_s, namesOf<roster::FlagAction>());
  note_ = line(into, u"Limits or remarks, no names"_s, u"lateNote"_s);
}

void LateForm::begin(const base::Recorded<roster::ClinicDay>& day) {
  day_ = day;
  for (auto* edit : findChildren<QLineEdit*>())
    edit->clear();
  for (auto* tick : findChildren<QCheckBox*>())
    tick->setChecked(false);
  for (auto* box : findChildren<QComboBox*>())
    box->setCurrentIndex(0);
  sex_->setCurrentIndex(static_cast<int>(dentition::Sex::notStated));
  const auto today = context().clock.now().date();
  signed_->setText(toQt(today.shortWords()));
  from_->setText(toQt(today.shortWords()));
  until_->setText(toQt(endOfSchoolYear(today).shortWords()));
  language_->setText(u"English"_s);
  number_->setText(toQt(nextNumber()));
  knowChild({}, {});
  number_->setFocus();
  number_->selectAll();
}

std::string LateForm::nextNumber() {
  const auto next = book().nextNumber();
  return went(next) ? *next : std::string();
}

void LateForm::lookUp() {
  const auto text = typed(number_);
  const auto number = roster::parseChildNumber(text);
  if (number) {
    number_->setText(toQt(*number));
    const auto found = book().findChildren(*number);
    if (!went(found)) return;
    for (const auto& one : *found)
      if (one.number == *number) return know(one);
  }
  // Said at once, asked when the form is entered: a question here would meet whoever tabs on.
  if (text.empty()) return knowChild({}, {});
  const auto near = book().nearMatches(text);
  if (!went(near)) return;
  if (near->empty())
    return knowChild({}, number.has_value()
                             ? QString()
                             : u"Incomplete number: the check digit is missing or wrong."_s);
  knowChild({}, u"No student has this number. Did you mean %1, %2, room %3?"_s.arg(
                    toQt(near->front().child.number), toQt(near->front().child.name),
                    toQt(near->front().child.room)));
}

void LateForm::know(const session::Found& child) {
  number_->setText(toQt(child.number));
  knowChild(child.child, u"In the logbook: %1, room %2. Only the form is entered."_s.arg(
                             toQt(child.name), toQt(child.room)));
}

void LateForm::knowChild(const std::optional<roster::ChildId>& child, const QString& words) {
  child_ = child;
  known_->setText(words);
  for (auto* field : ofNewChild_)
    field->setEnabled(!child_);
}

bool LateForm::askWhichChild(const std::vector<session::NearMatch>& near) {
  QStringList options;
  for (const auto& one : near)
    options += u"Yes: %1 %2, room %3 (%4)"_s.arg(toQt(one.child.number), toQt(one.child.name),
                                                 toQt(one.child.room),
                                                 toQt(std::string(roster::words(one.why))));
  options += u"No: different student, new to the logbook"_s;
  const auto chosen = context().prompter.decide(
      u"The logbook has a similar student. Is the form for that student? Nothing is saved yet."_s,
      options);
  if (!chosen) return false;
  const auto place = static_cast<std::size_t>(*chosen);
  if (place < near.size()) know(near[place].child);
  return true;
}

std::optional<LateForm::Newcomer> LateForm::newcomer() {
  const auto today = context().clock.now().date();
  const auto grade = typed(grade_);
  const auto birth = readDate(birth_->text(), context().prompter, {.child = OfChild{grade, today}});
  if (!went(birth)) {
    birth_->setFocus();
    return std::nullopt;
  }
  birth_->setText(toQt(birth->shortWords()));
  if (!went(roster::gradeNumber(grade))) return std::nullopt;
  session::Identity identity{.first = typed(first_),
                             .last = typed(last_),
                             .nameUsed = typed(used_),
                             .birth = *birth,
                             .room = typed(room_)};
  if (!guardian_->text().trimmed().isEmpty())
    identity.guardians.push_back({typed(guardian_),
                                  std::string(base::displayName(chosen<roster::Relation>(signer_))),
                                  typed(phone_), typed(language_)});
  Newcomer made{{{.number = typed(number_),
                  .birth = {birth->year(), birth->month()},
                  .sex = chosen<dentition::Sex>(sex_),
                  .school = day_->value.school,
                  .grade = grade,
                  .room = typed(room_),
                  .provisional = provisional_->isChecked(),
                  .note = {}},
                 identity}};
  const auto near = book().nearMatches(made.child.child.number, identity);
  if (!went(near)) return std::nullopt;
  if (!near->empty()) {
    if (!askWhichChild(*near) || child_) return std::nullopt;
    made.isAnother = session::Confirmed::yes;
  }
  if (roster::judgeBirthDate(*birth, grade, today) == roster::BirthVerdict::askUnusualForGrade) {
    if (!context().prompter.confirm(
            u"Born %1, grade %2: unusual. Does the school confirm the birth date?"_s.arg(
                toQt(birth->words()), toQt(grade))))
      return std::nullopt;
    made.schoolConfirmsAge = session::Confirmed::yes;
  }
  return made;
}

std::optional<roster::Consent> LateForm::consentFor(const roster::ChildId& child) {
  roster::Consent form{.child = child,
                       .term = day_->value.term,
                       .state = chosen<roster::ConsentState>(state_),
                       .allowed = {},
                       .signer = chosen<roster::Relation>(signer_),
                       .signerReviewed = reviewed_->isChecked(),
                       .signedOn = {},
                       .receivedOn = context().clock.now().date(),
                       .validFrom = {},
                       .validUntil = {},
                       .history = chosen<roster::HistoryAnswered>(history_),
                       .note = typed(note_)};
  for (std::size_t i = 0; i < services_.size(); ++i)
    if (services_[i]->isChecked()) form.allowed.add(static_cast<roster::Service>(i));
  for (auto [field, into] :
       {std::pair(signed_, &form.signedOn), {from_, &form.validFrom}, {until_, &form.validUntil}}) {
    if (field->text().trimmed().isEmpty()) continue;
    const LikelyDate likely{.until = field == signed_ ? std::optional(context().clock.now().date())
                                                      : std::nullopt};
    const auto date = readDate(field->text(), context().prompter, likely);
    if (!went(date)) {
      field->setFocus();
      return std::nullopt;
    }
    *into = *date;
  }
  return form;
}

std::optional<roster::MedicalFlag> LateForm::alertOf(const roster::ChildId& child) const {
  if (flag_->currentIndex() == 0) return std::nullopt;
  return roster::MedicalFlag{.child = child,
                             .kind = static_cast<roster::FlagKind>(flag_->currentIndex() - 1),
                             .action = chosen<roster::FlagAction>(action_),
                             .detail = typed(note_),
                             .decided = {}};
}

void LateForm::enterFor(const roster::ChildId& child) {
  const auto form = consentFor(child);
  if (!form) return;
  const auto left = askWhoLeft(context(), child);
  if (!left || !went(book().enterConsent(context().acting.by(base::Station::board), *form,
                                         alertOf(child), *left)))
    return;
  Q_EMIT entered(child);
}

void LateForm::save() {
  if (!day_) return;
  if (child_) return enterFor(*child_);
  auto made = newcomer();
  // The question may have found that the child is no newcomer.
  if (child_) return enterFor(*child_);
  if (!made) return;
  const auto nobody = roster::ChildId(base::Uuid{});
  const auto form = consentFor(nobody);
  if (!form) return;
  made->child.form = [form](roster::ChildId child) {
    auto of = *form;
    of.child = child;
    return of;
  };
  if (const auto alert = alertOf(nobody))
    made->child.alert = [alert](roster::ChildId child) {
      auto of = *alert;
      of.child = child;
      return of;
    };
  // Child, form and alert at once, or nothing: backing out later leaves nothing behind.
  const auto child = book().enrollChild(context().acting.by(base::Station::board), made->child,
                                        made->schoolConfirmsAge, made->isAnother);
  if (went(child)) Q_EMIT entered(*child);
}

} // namespace gk::ui
