#include "reports/display_names.h"
#include "ui/consent/answer_panel.h"
#include "ui/consent/form_desk_page.h"
#include "ui/consent/form_lines.h"
#include "ui/keys/cap_button.h"
#include "ui/models/table_model.h"
#include "ui/support/text.h"

#include <QCheckBox>
#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QStackedWidget>
#include <QTableView>

#include <algorithm>

// The student whose form it is, and what is in the logbook of that student's forms.
namespace gk::ui {

namespace {

std::string dateText(const std::optional<base::Date>& date) {
  return date ? date->shortWords() : std::string();
}

} // namespace

void FormDeskPage::scanned(const QString& code) {
  if (stack_->currentIndex() != 0) return;
  if (isTyped())
    return Q_EMIT said(
        u"Scanned, but the form of %1 is not saved yet: save it or start over (Esc)."_s.arg(
            childWords_));
  find_->setText(code);
  find();
}

void FormDeskPage::find() {
  if (isTyped())
    return Q_EMIT said(
        u"The form of %1 is not saved yet: save it or start over (Esc)."_s.arg(childWords_));
  clearForm();
  const auto text = lineText(find_);
  if (text.empty()) return;
  // "1043" is a number without its check digit, "10430" one with it and without its dash.
  auto number = roster::parseChildNumber(text);
  const auto found = book().findChildren(number ? *number : text);
  if (!went(found)) return;
  std::vector<session::Found> children;
  for (const auto& one : *found)
    if (!number || one.number == *number) children.push_back(one);
  if (children.empty())
    return known_->setText(
        u"✖ No student has this number or name. Add the student first: Desk (F8), Students."_s);
  if (children.size() == 1) return know(children.front().child);
  QStringList options;
  for (const auto& one : children)
    options += u"%1  %2, room %3"_s.arg(toQt(one.number), toQt(one.name), toQt(one.room));
  const auto chosen = context().prompter.decide(u"Whose form is it?"_s, options);
  if (chosen) know(children.at(static_cast<std::size_t>(*chosen)).child);
}

void FormDeskPage::know(roster::ChildId child) {
  child_ = child;
  readChild();
  if (!child_) return;
  for (std::size_t i = 0; i < guardians_.size(); ++i) {
    const auto adult = i < guardiansKnown_.size() ? guardiansKnown_[i] : session::Guardian();
    guardians_[i].name->setText(toQt(adult.name));
    guardians_[i].relation->setText(toQt(adult.relation));
    guardians_[i].phone->setText(toQt(adult.phone));
    guardians_[i].language->setText(toQt(adult.language));
  }
  answers_->setFocus();
}

void FormDeskPage::readChild() {
  const auto card = book().child(*child_);
  const auto forms = book().consents(*child_);
  const auto schools = book().schools();
  if (!went(card) || !went(forms) || !went(schools)) {
    child_.reset();
    return;
  }
  const auto identity = book().identity(*child_);
  guardiansKnown_.clear();
  childWords_ = toQt(card->value.number);
  if (identity) {
    childWords_ += u"  "_s + toQt(identity->shownName());
    guardiansKnown_ = identity->guardians;
  }
  const auto school =
      std::ranges::find(*schools, card->value.school, &base::Recorded<roster::School>::id);
  auto words =
      childWords_ + u", grade %1, room %2"_s.arg(toQt(card->value.grade), toQt(card->value.room));
  if (school != schools->end()) words += u", "_s + toQt(school->value.name);
  const auto batch = chosenOf(school_, schools_);
  if (batch && *batch != card->value.school) words += u"  ▲ Another school than this stack"_s;
  if (roster::hasLeft(card->value, context().clock.now().date()))
    words += u"  ▲ Left the program on %1 (%2)"_s.arg(
        toQt(card->value.left->from.words()), toQt(base::displayName(card->value.left->why)));
  if (!forms->empty())
    words += u"  ▲ %1 in the logbook already"_s.arg(counted(std::ssize(*forms), "form", "forms"));
  known_->setText(words);
  formsKnown_ = *forms;
  showForms();
}

void FormDeskPage::showForms() {
  const auto terms = book().terms();
  if (!went(terms)) return;
  reports::Table table{"Forms",
                       {{"Term"},
                        {"Says"},
                        {"Services", reports::Kind::count},
                        {"Signed"},
                        {"Received"},
                        {"Valid through"},
                        {"Version"}}};
  for (const auto& form : formsKnown_) {
    const auto& said = form.value;
    const auto term = std::ranges::find(*terms, said.term, &base::Recorded<roster::Term>::id);
    table.rows.push_back({term == terms->end() ? std::string() : term->value.name,
                          std::string(base::displayName(said.state)), said.allowed.values().size(),
                          dateText(said.signedOn), dateText(said.receivedOn),
                          dateText(said.validUntil),
                          said.version + (said.language.empty() ? "" : " " + said.language)});
  }
  model_->show(std::move(table));
  forms_->resizeColumnsToContents();
  earlier_->setVisible(child_ && !formsKnown_.empty());
  showHistory();
}

/// The form that is chosen below, or the only one, goes into the lines above.
void FormDeskPage::correct() {
  auto row = forms_->currentIndex().row();
  if (row < 0 && formsKnown_.size() == 1) row = 0;
  if (!child_ || row < 0 || row >= static_cast<int>(formsKnown_.size()))
    return Q_EMIT said(u"Find the student, then select the form below, then Alt+K."_s);
  const auto form = formsKnown_[static_cast<std::size_t>(row)];
  correcting_ = form;
  alerts_.clear();
  showAlerts();
  answers_->show(form.value);
  signed_->setText(toQt(dateText(form.value.signedOn)));
  from_->setText(form.value.validFrom == form.value.signedOn
                     ? QString()
                     : toQt(dateText(form.value.validFrom)));
  if (form.value.receivedOn) received_->setText(toQt(form.value.receivedOn->shortWords()));
  if (form.value.validUntil) until_->setText(toQt(form.value.validUntil->shortWords()));
  version_->setText(toQt(form.value.version));
  language_->setCurrentText(toQt(form.value.language));
  signer_->setCurrentIndex(static_cast<int>(form.value.signer));
  reviewed_->setChecked(form.value.signerReviewed);
  note_->setText(toQt(form.value.note));
  reasonPart_->show();
  save_->setWords(u"Ctrl+Enter"_s, u"Save correction"_s);
  answers_->setFocus();
}

void FormDeskPage::showHistory() {
  history_->clear();
  const auto row = forms_->currentIndex().row();
  if (row < 0 || row >= static_cast<int>(formsKnown_.size())) return;
  const auto revisions = book().formRevisions(formsKnown_[static_cast<std::size_t>(row)].id);
  const auto members = book().members();
  if (!went(revisions) || !went(members)) return;
  QStringList lines;
  for (const auto& one : *revisions) {
    const auto author = std::ranges::find_if(
        *members, [&](const auto& who) { return one.stamp.by.author == who.id; });
    auto words = u"%1  %2: %3, %4, signed %5"_s.arg(
        toQt(one.stamp.at.words()),
        author == members->end() ? u"?"_s : toQt(author->value.initials),
        toQt(base::displayName(one.value.state)),
        counted(std::ssize(one.value.allowed.values()), "service", "services"),
        one.value.signedOn ? toQt(one.value.signedOn->shortWords()) : u"not said"_s);
    if (!one.stamp.reason.empty()) words += u". Reason: "_s + toQt(one.stamp.reason);
    lines += words;
  }
  history_->setText(lines.join(u'\n'));
}

} // namespace gk::ui
