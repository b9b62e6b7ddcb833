#include "ui/windows/start_page.h"

#include "ui/keys/key_button.h"
#include "ui/look/style.h"
#include "ui/support/text.h"
#include "ui/widgets/brand_panel.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QScrollArea>
#include <QVBoxLayout>

#include <array>

namespace gk::ui {

StartPage::StartPage(Prompter& prompter, const base::Path& recent, QWidget* parent)
    : QWidget(parent), prompter_(prompter),
      recent_(keyButton(u"Open "_s + toQt(recent.filename().string()),
                        QKeySequence(Qt::ALT | Qt::Key_R), u"startRecent"_s, this)),
      demo_(keyButton(u"Open the demo"_s, QKeySequence(Qt::ALT | Qt::Key_D), u"startDemo"_s, this)),
      passphrase_(new QLineEdit(this)), again_(new QLineEdit(this)),
      trouble_(wordsLabel({}, u"counts"_s, u"startTrouble"_s, this)) {
  setObjectName(u"startPage"_s);
  recent_->setVisible(!recent.empty());
  auto* open =
      keyButton(u"Open a logbook"_s, QKeySequence(Qt::ALT | Qt::Key_O), u"startOpen"_s, this);
  auto* make =
      keyButton(u"Next: your program"_s, QKeySequence(Qt::ALT | Qt::Key_M), u"startNew"_s, this);
  for (auto [line, name, words] :
       {std::tuple(passphrase_, u"startPassphrase"_s, u"Passphrase, 8 characters or more"_s),
        {again_, u"startAgain"_s, u"Confirm passphrase"_s}}) {
    line->setObjectName(name);
    line->setAccessibleName(words);
    line->setEchoMode(QLineEdit::Password);
  }
  auto* restore =
      keyButton(u"Restore a backup"_s, QKeySequence(Qt::ALT | Qt::Key_T), u"startRestore"_s, this);
  connect(restore, &QPushButton::clicked, this, &StartPage::restoreWanted);
  auto* envelope = keyButton(u"Open a day envelope"_s, QKeySequence(Qt::ALT | Qt::Key_E),
                             u"startEnvelope"_s, this);
  connect(envelope, &QPushButton::clicked, this, &StartPage::envelopeWanted);
  auto* inside = new QWidget(this);
  auto* form = new QVBoxLayout(inside);
  form->setContentsMargins(72, 40, 72, 24);
  form->setSpacing(10);
  auto* known = wordsLabel(u"Open a logbook"_s, u"title"_s, {}, inside);
  form->addWidget(known);
  for (auto* button : {recent_, open, envelope, restore, demo_}) {
    button->setParent(inside);
    form->addWidget(button, 0, Qt::AlignLeft);
  }
  form->addSpacing(18);
  form->addWidget(wordsLabel(u"A new logbook"_s, u"title"_s, {}, inside));
  form->addWidget(
      wordsLabel(u"Without its passphrase, the names cannot be read again. Keep a sealed copy "
                 "in the office."_s,
                 u"note"_s, {}, inside));
  for (const auto& [line, words] : {std::pair(passphrase_, u"Passphrase, 8 characters or more"_s),
                                    {again_, u"Confirm passphrase"_s}}) {
    auto* label = wordsLabel(words, u"field"_s, {}, inside);
    label->setBuddy(line);
    line->setParent(inside);
    form->addWidget(label);
    form->addWidget(line);
  }
  form->addSpacing(6);
  make->setParent(inside);
  make->setProperty("look", u"main"_s);
  form->addWidget(make, 0, Qt::AlignLeft);
  trouble_->setParent(inside);
  form->addWidget(trouble_);
  form->addStretch(1);
  auto* scroll = new QScrollArea(this);
  scroll->setWidget(inside);
  scroll->setWidgetResizable(true);
  scroll->setFrameShape(QFrame::NoFrame);
  scroll->setFocusPolicy(Qt::NoFocus);
  auto* sides = new QHBoxLayout(this);
  sides->setContentsMargins(0, 0, 0, 0);
  sides->setSpacing(0);
  sides->addWidget(new BrandPanel(this));
  sides->addWidget(scroll, 1);
  connect(recent_, &QPushButton::clicked, this,
          [this, path = toQt(recent.string())] { Q_EMIT openWanted(path); });
  demo_->hide();
  connect(demo_, &QPushButton::clicked, this, [this] {
    trouble_->setText(u"Creating the demo: a fictional county, about half a minute ..."_s);
    trouble_->repaint();
    Q_EMIT demoWanted();
  });
  connect(open, &QPushButton::clicked, this, &StartPage::open);
  connect(make, &QPushButton::clicked, this, &StartPage::create);
  connect(again_, &QLineEdit::returnPressed, this, &StartPage::create);
  style::whenDressed(this, [this, open, make, restore, envelope] {
    for (auto* button : {recent_, open, envelope, demo_, make, restore})
      button->setFixedWidth(style::px(440));
    for (auto* line : {passphrase_, again_})
      line->setMaximumWidth(style::px(440));
  });
  // Each was moved into the column, in another order than it stands there.
  const std::array order{static_cast<QWidget*>(recent_),  static_cast<QWidget*>(open),
                         static_cast<QWidget*>(envelope), static_cast<QWidget*>(restore),
                         static_cast<QWidget*>(demo_),    static_cast<QWidget*>(passphrase_),
                         static_cast<QWidget*>(again_),   static_cast<QWidget*>(make)};
  for (std::size_t i = 1; i < order.size(); ++i)
    setTabOrder(order[i - 1], order[i]);
  setFocusProxy(recent.empty() ? open : recent_);
}

void StartPage::refuse(const QString& words) {
  trouble_->setText(words.isEmpty() ? words : u"✖ "_s + words);
  trouble_->setAccessibleName(words);
}

void StartPage::offerDemo() {
  demo_->show();
}

void StartPage::open() {
  const auto path = prompter_.openFile(u"Open a logbook"_s, u"Logbook (*.gkbook)"_s);
  if (path) Q_EMIT openWanted(*path);
}

void StartPage::create() {
  const auto passphrase = passphrase_->text();
  if (passphrase.size() < 8) {
    passphrase_->setFocus();
    return refuse(u"The passphrase needs 8 characters or more."_s);
  }
  if (passphrase != again_->text()) {
    again_->setFocus();
    again_->selectAll();
    return refuse(u"The two passphrases differ. Type the second again."_s);
  }
  passphrase_->clear();
  again_->clear();
  refuse({});
  Q_EMIT newWanted(passphrase);
}

} // namespace gk::ui
