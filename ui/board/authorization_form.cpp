#include "ui/board/authorization_form.h"

#include "reports/display_names.h"
#include "ui/asking/read_date.h"
#include "ui/keys/key_button.h"
#include "ui/look/choice_box.h"
#include "ui/support/text.h"

#include <QComboBox>
#include <QFormLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QVBoxLayout>

#include <algorithm>

namespace gk::ui {

using chairside::AuthorizedHow;

AuthorizationForm::AuthorizationForm(Context& context, QWidget* parent)
    : Page(context, parent), title_(wordsLabel({}, u"title"_s, u"examTitle"_s, this)),
      known_(wordsLabel({}, u"counts"_s, u"examKnown"_s, this)) {
  setObjectName(u"authorizationForm"_s);
  known_->setWordWrap(true);
  auto* form = new QFormLayout;
  form->setHorizontalSpacing(12);
  teeth_ = line(form, u"Teeth, such as 3 14 30:O"_s, u"examTeeth"_s);
  teeth_->setPlaceholderText(u"O, B, L: only those surfaces. No letter: occlusal and pit/groove"_s);
  dentist_ = choice(form, u"Dentist"_s, u"examDentist"_s);
  how_ = choice(form, u"How"_s, u"examHow"_s);
  for (const auto name : base::displayNamesOf<AuthorizedHow>())
    how_->addItem(capital(toQt(name)));
  given_ = line(form, u"Given on, 11/17/2026"_s, u"examGiven"_s);
  until_ = line(form, u"Valid through"_s, u"examUntil"_s);
  until_->setPlaceholderText(u"program maximum"_s);
  note_ = line(form, u"Remarks, no names"_s, u"examNote"_s);
  auto* save = keyButton(u"Save authorization"_s, QKeySequence(Qt::CTRL | Qt::Key_Return),
                         u"examSave"_s, this);
  auto* withdrawing = keyButton(u"Withdraw latest authorization"_s,
                                QKeySequence(Qt::ALT | Qt::Key_W), u"examWithdraw"_s, this);
  auto* back = keyButton(u"Back"_s, QKeySequence(Qt::Key_Escape), u"examBack"_s, this);
  auto* column = new QVBoxLayout(this);
  column->addWidget(title_);
  column->addWidget(known_);
  column->addLayout(form);
  for (auto* button : {save, withdrawing, back})
    column->addWidget(button);
  column->addStretch();
  connect(save, &QPushButton::clicked, this, &AuthorizationForm::save);
  connect(withdrawing, &QPushButton::clicked, this, &AuthorizationForm::withdraw);
  connect(back, &QPushButton::clicked, this, &AuthorizationForm::backedOut);
}

QLineEdit* AuthorizationForm::line(QFormLayout* into, const QString& words, const QString& name) {
  auto* made = new QLineEdit(this);
  made->setObjectName(name);
  made->setAccessibleName(words);
  into->addRow(words, made);
  return made;
}

QComboBox* AuthorizationForm::choice(QFormLayout* into, const QString& words, const QString& name) {
  auto* made = new ChoiceBox(this);
  made->setObjectName(name);
  made->setAccessibleName(words);
  into->addRow(words, made);
  return made;
}

void AuthorizationForm::begin(const session::BoardLine& child, base::Date on) {
  child_ = child;
  on_ = on;
  for (auto* edit : {teeth_, until_, note_})
    edit->clear();
  given_->setText(toQt(on.shortWords()));
  how_->setCurrentIndex(static_cast<int>(AuthorizedHow::examAtSchool));
  refresh();
  teeth_->setFocus();
}

void AuthorizationForm::refresh() {
  if (!child_) return;
  const auto members = book().members();
  const auto words = book().dentistWords(child_->child, *on_);
  if (!went(members) || !went(words)) return;
  title_->setText(u"Dentist's exam: %1, %2"_s.arg(toQt(child_->name), toQt(child_->number)));
  known_->setText(capital(toQt(*words)));
  const auto kept = dentist_->currentIndex();
  dentists_.clear();
  dentist_->clear();
  for (const auto& member : *members)
    if (member.value.role == roster::Role::dentist) {
      dentists_.push_back(member.id);
      dentist_->addItem(toQt(member.value.name));
    }
  if (kept > 0 && kept < dentist_->count()) dentist_->setCurrentIndex(kept);
}

void AuthorizationForm::save() {
  const auto program = book().program();
  if (!child_ || !went(program)) return;
  if (dentists_.empty())
    return Q_EMIT failed({u"No dentist is in this logbook yet."_s,
                          u"Not saved; your entry is still here."_s,
                          u"Enter the dentist at the desk first: F8, Team."_s});
  const auto teeth = dentition::parseTeeth(toStd(teeth_->text()), program->value.notation);
  if (!went(teeth)) return teeth_->setFocus();
  const auto given =
      readDate(given_->text(), context().prompter, {.until = context().clock.now().date()});
  if (!went(given)) return given_->setFocus();
  auto until = given->plusDays(program->value.authorizationDays);
  if (!until_->text().trimmed().isEmpty()) {
    const auto typed = readDate(until_->text(), context().prompter);
    if (!went(typed)) return until_->setFocus();
    until = *typed;
  }
  const chairside::Authorization word{
      .child = child_->child,
      .teeth = *teeth,
      .dentist = dentists_.at(static_cast<std::size_t>(dentist_->currentIndex())),
      .how = static_cast<AuthorizedHow>(how_->currentIndex()),
      .on = *given,
      .until = until,
      .note = toStd(note_->text().trimmed())};
  if (!went(book().authorize(context().acting.by(), {word}))) return teeth_->setFocus();
  Q_EMIT said(u"Authorization saved. Alt+Z on the board undoes it."_s);
  Q_EMIT backedOut();
}

void AuthorizationForm::withdraw() {
  if (!child_) return;
  auto words = book().authorizations(child_->child);
  if (!went(words)) return;
  std::erase_if(*words, [&](const auto& one) { return !chairside::holds(one.value, *on_); });
  if (words->empty()) return Q_EMIT said(u"There is no authorization to withdraw."_s);
  const auto why = context().prompter.text(
      u"Who withdraws it, and why? Sealants already placed stay."_s, u"dentist called back"_s);
  if (why && went(book().withdrawAuthorization(context().acting.by(), words->back(),
                                               toStd(why->trimmed()))))
    Q_EMIT said(u"Authorization withdrawn. No more sealants may be placed on it."_s);
}

} // namespace gk::ui
