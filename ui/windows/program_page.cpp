#include "ui/windows/program_page.h"

#include "ui/forms/area.h"
#include "ui/forms/field_form.h"
#include "ui/keys/key_button.h"
#include "ui/look/style.h"
#include "ui/support/message.h"

#include <QKeyEvent>
#include <QLabel>
#include <QPushButton>
#include <QScrollArea>
#include <QVBoxLayout>

namespace gk::ui {

ProgramPage::ProgramPage(Prompter& prompter, const QString& why, const QString& save,
                         QWidget* parent)
    : QWidget(parent), form_(new FieldForm(u"program"_s, prompter, this)),
      trouble_(wordsLabel({}, u"wrong"_s, u"programTrouble"_s, this)) {
  setObjectName(u"programPage"_s);
  form_->ask(programFields());
  form_->show(valuesOfProgram(roster::Program()));
  auto* scroll = new QScrollArea(this);
  scroll->setWidget(form_);
  scroll->setWidgetResizable(true);
  scroll->setFrameShape(QFrame::NoFrame);
  scroll->setFocusPolicy(Qt::NoFocus);
  scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  auto* take = keyButton(save, QKeySequence(Qt::ALT | Qt::Key_M), u"programSave"_s, this);
  take->setProperty("look", u"main"_s);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(60, 16, 60, 16);
  column->addWidget(wordsLabel(u"Your program"_s, u"title"_s, {}, this));
  column->addWidget(wordsLabel(why, {}, u"programWhy"_s, this));
  column->addWidget(scroll, 1);
  column->addWidget(trouble_);
  column->addWidget(take, 0, Qt::AlignLeft);
  connect(take, &QPushButton::clicked, this, &ProgramPage::save);
  connect(form_, &FieldForm::edited, this, [this] { refuse({}); });
  refuse({});
  form_->takeFocusFor(*this);
}

void ProgramPage::refuse(const QString& words) {
  trouble_->setText(words.isEmpty() ? words : u"✖ "_s + words);
  trouble_->setAccessibleName(words);
  trouble_->setVisible(!words.isEmpty());
}

void ProgramPage::save() {
  refuse({});
  const auto values = form_->read();
  if (!values) return refuse(form_->trouble());
  const auto program = roster::soundProgram(programFrom(*values));
  if (!program) return refuse(inOneLine(describe(program.error())));
  Q_EMIT given(*program);
}

void ProgramPage::keyPressEvent(QKeyEvent* event) {
  if (event->key() == Qt::Key_Escape)
    Q_EMIT left();
  else
    QWidget::keyPressEvent(event);
}

} // namespace gk::ui
