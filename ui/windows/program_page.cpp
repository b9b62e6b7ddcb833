#include "ui/windows/program_page.h"

#include "ui/support/message.h"
#include "ui/support/read_date.h"
#include "ui/support/style.h"
#include "ui/support/text.h"
#include "ui/widgets/key_button.h"

#include <QComboBox>
#include <QFormLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>

namespace gk::ui {

namespace {

template <class E>
QStringList wordsOfEach() {
  QStringList words;
  for (const auto name : base::enumNames<E>)
    words += capital(toQt(name));
  return words;
}

std::string inLine(const QLineEdit* line) {
  return toStd(line->text().trimmed());
}

} // namespace

ProgramPage::ProgramPage(Prompter& prompter, const QString& why, const QString& save,
                         QWidget* parent)
    : QWidget(parent), prompter_(prompter),
      trouble_(wordsLabel({}, u"counts"_s, u"programTrouble"_s, this)) {
  setObjectName(u"programPage"_s);
  const roster::Program usual;
  auto* form = new QFormLayout(this);
  form->setContentsMargins(80, 30, 80, 20);
  form->setVerticalSpacing(8);
  form->addRow(wordsLabel(u"Your program"_s, u"title"_s, {}, this));
  form->addRow(wordsLabel(why, {}, u"programWhy"_s, this));
  name_ = line(form, u"Program, as printed on letters"_s, u"programName"_s);
  county_ = line(form, u"County"_s, u"programCounty"_s);
  phone_ = line(form, u"Phone, as printed on letters"_s, u"programPhone"_s);
  supervision_ = choice(form, u"Supervision"_s, u"programSupervision"_s,
                        wordsOfEach<roster::Supervision>(), static_cast<int>(usual.supervision));
  dentist_ = line(form, u"Authorizing dentist"_s, u"programDentist"_s);
  until_ = line(form, u"Agreement ends on"_s, u"programUntil"_s);
  until_->setPlaceholderText(u"a date, or empty when there is none"_s);
  footing_ = line(form, u"Privacy: which law, who decided, when"_s, u"programFooting"_s);
  notation_ =
      choice(form, u"Tooth numbers"_s, u"programNotation"_s,
             {u"Universal, 1 to 32"_s, u"Two-digit, 11 to 48"_s}, static_cast<int>(usual.notation));
  auto* take = keyButton(save, QKeySequence(Qt::ALT | Qt::Key_M), u"programSave"_s, this);
  form->addRow(take);
  form->addRow(trouble_);
  trouble_->setWordWrap(true);
  connect(take, &QPushButton::clicked, this, &ProgramPage::save);
  style::whenDressed(this, [this, take] {
    take->setFixedWidth(style::px(420));
    for (auto* field : {name_, county_, phone_, dentist_, until_, footing_})
      field->setMaximumWidth(style::px(520));
    for (auto* box : {supervision_, notation_})
      box->setMaximumWidth(style::px(520));
  });
  setFocusProxy(name_);
}

QLineEdit* ProgramPage::line(QFormLayout* into, const QString& words, const QString& name) {
  auto* field = new QLineEdit(this);
  field->setObjectName(name);
  field->setAccessibleName(words);
  into->addRow(words, field);
  return field;
}

QComboBox* ProgramPage::choice(QFormLayout* into, const QString& words, const QString& name,
                               const QStringList& options, int usual) {
  auto* box = new QComboBox(this);
  box->setObjectName(name);
  box->setAccessibleName(words);
  box->addItems(options);
  box->setCurrentIndex(usual);
  into->addRow(words, box);
  return box;
}

void ProgramPage::refuse(const QString& words) {
  trouble_->setText(words.isEmpty() ? words : u"✖ "_s + words);
  trouble_->setAccessibleName(words);
}

void ProgramPage::save() {
  refuse({});
  roster::Program program;
  program.name = inLine(name_);
  program.county = inLine(county_);
  program.phone = inLine(phone_);
  program.supervision = static_cast<roster::Supervision>(supervision_->currentIndex());
  program.authorizingDentist = inLine(dentist_);
  program.privacyFooting = inLine(footing_);
  program.notation = static_cast<dentition::Notation>(notation_->currentIndex());
  if (!until_->text().trimmed().isEmpty()) {
    const auto until = readDate(until_->text(), prompter_);
    if (!until) {
      until_->setFocus();
      return refuse(inOneLine(describe(until.error())));
    }
    program.agreementUntil = *until;
  }
  if (const auto sound = roster::soundProgram(program); !sound) {
    for (auto* field : {phone_, county_, name_})
      if (field->text().trimmed().isEmpty()) field->setFocus();
    return refuse(inOneLine(describe(sound.error())));
  }
  Q_EMIT given(program);
}

void ProgramPage::keyPressEvent(QKeyEvent* event) {
  if (event->key() == Qt::Key_Escape)
    Q_EMIT left();
  else
    QWidget::keyPressEvent(event);
}

} // namespace gk::ui
