#include "ui/consent/form_desk_page.h"

#include "base/text/text.h"
#include "reports/display_names.h"
#include "ui/asking/left_question.h"
#include "ui/asking/read_date.h"
#include "ui/consent/answer_panel.h"
#include "ui/consent/form_count_page.h"
#include "ui/consent/form_lines.h"
#include "ui/keys/cap_button.h"
#include "ui/models/table_model.h"
#include "ui/support/retired.h"
#include "ui/support/text.h"
#include "ui/support/turn_to.h"

#include <QCheckBox>
#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QStackedWidget>
#include <QTableView>

#include <algorithm>

namespace gk::ui {

using roster::ConsentState;

namespace {

/// A form holds for one school year unless it says otherwise; June 30 is common practice.
base::Date usualLastDay(base::Date today) {
  const bool isFall = today.month() > 6;
  return *base::Date::of(today.year() + (isFall ? 1 : 0), 6, 30);
}

QString alertWords(const roster::MedicalFlag& alert) {
  auto words = capital(toQt(base::displayName(alert.kind))) + u" ("_s +
               toQt(base::displayName(alert.action)) + u")"_s;
  if (!alert.detail.empty()) words += u": "_s + toQt(alert.detail);
  return words;
}

} // namespace

FormDeskPage::FormDeskPage(Context& context, QWidget* parent) : Page(context, parent) {
  setObjectName(u"formDeskPage"_s);
  layOut();
  const auto today = context.clock.now().date();
  received_->setText(toQt(today.shortWords()));
  until_->setText(toQt(usualLastDay(today).shortWords()));
  connect(find_, &QLineEdit::returnPressed, this, &FormDeskPage::find);
  connect(answers_, &AnswerPanel::done, this, [this] {
    signed_->setFocus();
    signed_->selectAll();
  });
  connect(answers_, &AnswerPanel::dateBegun, this, [this](const QString& digit) {
    signed_->setFocus();
    signed_->setText(digit);
  });
  connect(who_, &QComboBox::currentIndexChanged, this,
          [this] { this->context().acting.enterAtDesk(by().author); });
  connect(signed_, &QLineEdit::returnPressed, this, &FormDeskPage::save);
  connect(reason_, &QLineEdit::returnPressed, this, &FormDeskPage::save);
  clearForm();
}

base::By FormDeskPage::by() const {
  const auto author =
      who_->currentIndex() > 0
          ? std::optional(members_.at(static_cast<std::size_t>(who_->currentIndex()) - 1))
          : std::nullopt;
  const auto& typing = context().acting.signedIn();
  return {author, author && typing != author ? typing : std::nullopt, base::Station::consent};
}

std::optional<roster::TermId> FormDeskPage::term() const {
  return chosenOf(term_, terms_);
}

void FormDeskPage::toForms() {
  ui::turnTo(*stack_, *stack_->widget(0));
  find_->setFocus();
}

void FormDeskPage::refresh() {
  readBatch();
  if (child_) readChild();
}

/// What was half typed names a child: it goes with the names.
void FormDeskPage::letGo() {
  find_->clear();
  clearForm();
  counts_->letGo();
}

void FormDeskPage::readBatch() {
  const auto members = book().members();
  const auto schools = book().schools();
  const auto terms = book().terms();
  if (!went(members) || !went(schools) || !went(terms)) return;
  const auto author = context().acting.entersAtDesk();
  const QSignalBlocker reading(who_); // it is read, not chosen
  members_.clear();
  who_->clear();
  who_->addItem(u"choose"_s);
  for (const auto& member : *members) {
    if (!member.value.may.has(roster::Task::type)) continue;
    members_.push_back(member.id);
    who_->addItem(toQt(member.value.initials + "  " + member.value.name));
    if (author == member.id) who_->setCurrentIndex(who_->count() - 1);
  }
  const auto school = chosenOf(school_, schools_);
  schools_.clear();
  school_->clear();
  for (const auto& one : *schools) {
    schools_.push_back(one.id);
    school_->addItem(toQt(roster::shownAmong(one.value, *schools)));
    if (school == one.id) school_->setCurrentIndex(school_->count() - 1);
  }
  retireOthers(*school_, *schools, book().openSchools(context().clock.now().date()));
  const auto chosen = chosenOf(term_, terms_);
  const auto today = context().clock.now().date();
  terms_.clear();
  term_->clear();
  for (const auto& one : *terms) {
    terms_.push_back(one.id);
    term_->addItem(toQt(one.value.name));
    // The term that is under way, else the next one.
    if (chosen ? chosen == one.id
               : today <= one.value.end && term_->currentIndex() <= 0 &&
                     (terms_.size() == 1 || today >= one.value.start))
      term_->setCurrentIndex(term_->count() - 1);
  }
}

bool FormDeskPage::isTyped() const {
  if (!child_) return false;
  return answers_->state().has_value() || !alerts_.empty() || correcting_ ||
         !signed_->text().trimmed().isEmpty() || !note_->text().trimmed().isEmpty() ||
         guardiansTyped().has_value();
}

void FormDeskPage::clearForm() {
  child_.reset();
  correcting_.reset();
  childWords_.clear();
  guardiansKnown_.clear();
  formsKnown_.clear();
  alerts_.clear();
  answers_->clear();
  for (auto* line : {signed_, from_, note_, detail_, reason_})
    line->clear();
  for (auto& adult : guardians_)
    for (auto* line : {adult.name, adult.relation, adult.phone, adult.language})
      line->clear();
  signer_->setCurrentIndex(0);
  reviewed_->setChecked(false);
  reasonPart_->hide();
  save_->setWords(u"Ctrl+Enter"_s, u"Save form"_s);
  known_->setText(u"Waiting for a form."_s);
  model_->show({});
  earlier_->hide();
  history_->clear();
  showAlerts();
}

void FormDeskPage::startOver() {
  if (isTyped() &&
      !context().prompter.confirm(u"Discard the form of %1? It is not saved."_s.arg(childWords_)))
    return;
  clearForm();
  find_->clear();
  find_->setFocus();
}

void FormDeskPage::offerThese() {
  const auto checked = answers_->allowed();
  if (checked.isEmpty())
    return Q_EMIT said(u"Check the services that this form version asks for, then Alt+Y."_s);
  answers_->setOffered(checked);
  Q_EMIT said(
      u"Y now checks %1."_s.arg(counted(std::ssize(checked.values()), "service", "services")));
}

void FormDeskPage::addAlert() {
  if (!child_) return Q_EMIT said(u"Find the student first."_s);
  if (correcting_)
    return Q_EMIT said(u"A correction is of the form alone. Enter the alert at the chair or with a "
                       u"new form."_s);
  alerts_.push_back({.child = *child_,
                     .kind = static_cast<roster::FlagKind>(flag_->currentIndex()),
                     .action = static_cast<roster::FlagAction>(action_->currentIndex()),
                     .detail = lineText(detail_),
                     .decided = {}});
  detail_->clear();
  showAlerts();
  flag_->setFocus();
}

void FormDeskPage::dropAlert() {
  if (!alerts_.empty()) alerts_.pop_back();
  showAlerts();
}

void FormDeskPage::showAlerts() {
  QStringList lines;
  for (const auto& alert : alerts_)
    lines += alertWords(alert);
  alertList_->setText(lines.isEmpty() ? u"No health alert on this form."_s : lines.join(u'\n'));
}

/// None where all of it is as it is known.
std::optional<std::vector<session::Guardian>> FormDeskPage::guardiansTyped() const {
  std::vector<session::Guardian> typed;
  for (const auto& adult : guardians_) {
    const session::Guardian one{lineText(adult.name), lineText(adult.relation),
                                lineText(adult.phone), lineText(adult.language)};
    if (one != session::Guardian()) typed.push_back(one);
  }
  const auto shown = std::min(guardiansKnown_.size(), guardians_.size());
  if (std::ranges::equal(typed, std::span(guardiansKnown_).first(shown))) return std::nullopt;
  return typed;
}

std::optional<base::Date> FormDeskPage::dateOf(QLineEdit* line, bool isSigning) {
  const auto text = line->text();
  const LikelyDate past{.until = context().clock.now().date()};
  if (isSigning) {
    const auto received = readDate(received_->text(), context().prompter, past);
    if (received)
      if (const auto quick = roster::readSignedDate(toStd(text), *received)) {
        line->setText(toQt(quick->shortWords()));
        return *quick;
      }
  }
  const bool isPast = isSigning || line == received_;
  const auto date = readDate(text, context().prompter, isPast ? past : LikelyDate{});
  if (!went(date)) {
    line->setFocus();
    line->selectAll();
    return std::nullopt;
  }
  line->setText(toQt(date->shortWords()));
  return *date;
}

std::optional<roster::Consent> FormDeskPage::formTyped() {
  if (!child_) {
    find_->setFocus();
    Q_EMIT said(u"Find the student first: number or name, then Enter."_s);
    return std::nullopt;
  }
  const auto of = term();
  if (!of) {
    Q_EMIT said(u"No term yet. Enter it first: Desk (F8), Terms."_s);
    return std::nullopt;
  }
  if (!answers_->state()) {
    answers_->setFocus();
    Q_EMIT said(u"What does the form say? Y, L, N or I."_s);
    return std::nullopt;
  }
  roster::Consent form = correcting_ ? correcting_->value
                                     : roster::Consent{.child = *child_,
                                                       .term = *of,
                                                       .state = ConsentState::incomplete,
                                                       .allowed = {},
                                                       .signedOn = {},
                                                       .receivedOn = {},
                                                       .validFrom = {},
                                                       .validUntil = {},
                                                       .note = {}};
  form.state = *answers_->state();
  form.allowed = answers_->allowed();
  form.history = answers_->history();
  form.signer = static_cast<roster::Relation>(signer_->currentIndex());
  form.signerReviewed = reviewed_->isChecked();
  form.note = lineText(note_);
  const auto read = [&](QLineEdit* line, bool isSigning, std::optional<base::Date>& into) {
    into.reset();
    if (line->text().trimmed().isEmpty()) return true;
    into = dateOf(line, isSigning);
    return into.has_value();
  };
  if (!read(signed_, true, form.signedOn)) return std::nullopt;
  if (!read(received_, false, form.receivedOn)) return std::nullopt;
  if (!read(until_, false, form.validUntil)) return std::nullopt;
  if (!read(from_, false, form.validFrom)) return std::nullopt;
  if (!form.validFrom) form.validFrom = form.signedOn;
  // A no says nothing of days: it answers for its school year.
  if (form.state == ConsentState::no) {
    form.validFrom.reset();
    form.validUntil.reset();
  }
  form.version = lineText(version_);
  form.language = toStd(language_->currentText().trimmed());
  return form;
}

void FormDeskPage::save() {
  const auto form = formTyped();
  if (!form) return;
  if (!(correcting_ ? correctWith(*form) : enter(*form))) return;
  find_->clear();
  clearForm();
  find_->setFocus();
}

bool FormDeskPage::enter(const roster::Consent& form) {
  const auto words = childWords_;
  const session::FormEntry entry{form, alerts_, guardiansTyped()};
  const auto isTwice = book().isEntered(form);
  if (!went(isTwice)) return false;
  if (*isTwice && !context().prompter.confirm(
                      u"The same form is in the logbook already. Did a second one come back?"_s))
    return false;
  const auto left = askWhoLeft(context(), form.child);
  if (!left) return false;
  if (!went(
          book().enterForm(by(), entry,
                           {.isSecond = *isTwice ? session::Confirmed::yes : session::Confirmed::no,
                            .ofWhoLeft = *left}))) {
    (form.signedOn ? static_cast<QWidget*>(answers_) : signed_)->setFocus();
    return false;
  }
  ++entered_;
  tally_->setText(
      u"%1 entered since the window was opened"_s.arg(counted(entered_, "form", "forms")));
  Q_EMIT said(u"Saved: %1, %2."_s.arg(words, toQt(base::displayName(form.state))));
  return true;
}

bool FormDeskPage::correctWith(const roster::Consent& form) {
  const auto words = childWords_;
  if (!went(book().correctConsent(by(), *correcting_, form, lineText(reason_)))) {
    reason_->setFocus();
    return false;
  }
  Q_EMIT said(u"Corrected: %1, %2. What the form said before is kept."_s.arg(
      words, toQt(base::displayName(form.state))));
  return true;
}

void FormDeskPage::undo() {
  const session::UndoAt at{.station = base::Station::consent};
  const auto last = book().undoable(at);
  if (!went(last) || !context().prompter.confirm(u"Undo: %1?"_s.arg(toQt(last->words)))) return;
  const auto words = book().undo(by(), at);
  if (went(words)) Q_EMIT said(u"Undone: %1"_s.arg(toQt(*words)));
}

} // namespace gk::ui
