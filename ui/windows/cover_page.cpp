#include "ui/windows/cover_page.h"

#include "ui/asking/pin_pad.h"
#include "ui/keys/key_button.h"
#include "ui/look/style.h"
#include "ui/look/touch.h"
#include "ui/support/text.h"
#include "ui/widgets/brand_panel.h"

#include <QFrame>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QVBoxLayout>

#include <algorithm>

namespace gk::ui {

CoverPage::CoverPage(std::function<QString()> timer, QWidget* parent)
    : QWidget(parent), timer_(std::move(timer)),
      title_(wordsLabel({}, u"title"_s, u"coverTitle"_s, this)),
      numerals_(wordsLabel({}, u"numerals"_s, u"coverTimer"_s, this)),
      passphrase_(new QLineEdit(this)), person_(wordsLabel({}, u"big"_s, u"coverPerson"_s, this)),
      another_(new QPushButton(u"Another person  ↓"_s, this)),
      enter_(new QPushButton(u"Sign in  Enter"_s, this)), pad_(new PinPad(this)),
      otherwise_(keyButton(u"Use the passphrase"_s, QKeySequence(Qt::ALT | Qt::Key_P),
                           u"coverOtherwise"_s, this)),
      trouble_(wordsLabel({}, u"counts"_s, u"coverTrouble"_s, this)) {
  setObjectName(u"coverPage"_s);
  passphrase_->setObjectName(u"coverPassphrase"_s);
  passphrase_->setAccessibleName(u"Passphrase"_s);
  passphrase_->setEchoMode(QLineEdit::Password);
  style::whenDressed(passphrase_, [this] { passphrase_->setMaximumWidth(style::px(520)); });
  another_->setObjectName(u"coverAnother"_s);
  enter_->setObjectName(u"coverEnter"_s);
  for (auto* button : {another_, enter_, otherwise_}) {
    button->setFocusPolicy(Qt::NoFocus);
    style::whenDressed(button, [button] {
      button->setMinimumHeight(style::touch());
      button->setMaximumWidth(style::px(360));
    });
  }
  auto* card = new QFrame(this);
  card->setObjectName(u"coverCard"_s);
  card->setProperty("look", u"card"_s);
  style::whenDressed(card, [card] { card->setFixedWidth((640 + style::px(640)) / 2); });
  auto* column = new QVBoxLayout(card);
  column->setContentsMargins(40, 32, 40, 32);
  column->setSpacing(14);
  column->addWidget(new BrandMark(card), 0, Qt::AlignLeft);
  for (auto* widget :
       {static_cast<QWidget*>(title_), static_cast<QWidget*>(passphrase_),
        static_cast<QWidget*>(person_), static_cast<QWidget*>(another_),
        static_cast<QWidget*>(enter_), static_cast<QWidget*>(trouble_), static_cast<QWidget*>(pad_),
        static_cast<QWidget*>(otherwise_), static_cast<QWidget*>(numerals_)})
    column->addWidget(widget);
  auto* whole = new QVBoxLayout(this);
  whole->addStretch(1);
  // Aligned, it would be as high as its words need on the whole width of the window.
  auto* middle = new QHBoxLayout;
  middle->addStretch(1);
  middle->addWidget(card);
  middle->addStretch(1);
  whole->addLayout(middle);
  whole->addStretch(2);
  pulse_.setInterval(100);
  connect(&pulse_, &QTimer::timeout, this, &CoverPage::readTimer);
  connect(passphrase_, &QLineEdit::returnPressed, this, [this] {
    const auto given = passphrase_->text();
    passphrase_->clear();
    trouble_->setText(u"Looking ..."_s);
    trouble_->repaint();
    Q_EMIT passphraseGiven(given, opener());
  });
  connect(another_, &QPushButton::clicked, this, [this] { step(1); });
  connect(enter_, &QPushButton::clicked, this,
          [this] { Q_EMIT pinGiven(people_.at(chosen_).id, {}); });
  connect(pad_, &PinPad::given, this, [this](const QString& pin) {
    if (!people_.empty()) Q_EMIT pinGiven(people_.at(chosen_).id, pin);
  });
  connect(pad_, &PinPad::typed, trouble_, &QLabel::clear);
  connect(otherwise_, &QPushButton::clicked, this, &CoverPage::passphraseWanted);
  lock({});
}

void CoverPage::ask(Asks what, const QString& title) {
  lock_ = what != Asks::nothing;
  title_->setText(title);
  trouble_->clear();
  passphrase_->clear();
  pad_->clear();
  passphrase_->setVisible(what == Asks::passphrase);
  for (auto* widget : {static_cast<QWidget*>(person_), static_cast<QWidget*>(another_),
                       static_cast<QWidget*>(enter_), static_cast<QWidget*>(pad_),
                       static_cast<QWidget*>(otherwise_)})
    widget->setVisible(what == Asks::pin);
  if (what != Asks::pin) people_.clear();
  setFocusProxy(what == Asks::passphrase ? passphrase_ : nullptr);
  if (what == Asks::passphrase) passphrase_->setFocus();
}

void CoverPage::lock(const QString& why, std::vector<Person> openers) {
  ask(Asks::passphrase, why);
  people_ = std::move(openers);
  chosen_ = 0;
  person_->setVisible(!people_.empty());
  another_->setVisible(!people_.empty());
  showOpener();
}

std::optional<base::MemberId> CoverPage::opener() const {
  if (chosen_ == 0 || people_.empty()) return std::nullopt;
  return people_.at(chosen_ - 1).id;
}

void CoverPage::showOpener() {
  person_->setText(opener() ? people_.at(chosen_ - 1).words : u"Anyone who may unlock"_s);
  passphrase_->setPlaceholderText(opener() ? u"Your own passphrase, then Enter"_s
                                           : u"The logbook's passphrase or your own, then Enter"_s);
}

void CoverPage::lockByPin(const QString& why, std::vector<Person> people,
                          const std::optional<base::MemberId>& who) {
  ask(Asks::pin, why);
  offer(std::move(people), who);
}

void CoverPage::askWho(std::vector<Person> people, const std::optional<base::MemberId>& who) {
  ask(Asks::pin, u"Who is at the keyboard?"_s);
  otherwise_->hide();
  offer(std::move(people), who);
}

void CoverPage::offer(std::vector<Person> people, const std::optional<base::MemberId>& who) {
  people_ = std::move(people);
  const auto at =
      std::ranges::find_if(people_, [&](const Person& person) { return person.id == who; });
  chosen_ = at == people_.end() ? 0 : static_cast<std::size_t>(at - people_.begin());
  another_->setVisible(people_.size() > 1);
  showPerson();
}

void CoverPage::step(std::size_t by) {
  const bool isByPassphrase = !passphrase_->isHidden();
  const auto choices = people_.size() + (isByPassphrase ? 1 : 0);
  chosen_ = (chosen_ + by) % choices;
  trouble_->clear();
  if (isByPassphrase) return showOpener();
  pad_->clear();
  showPerson();
}

void CoverPage::showPerson() {
  const auto& person = people_.at(chosen_);
  person_->setText(person.words);
  pad_->setVisible(person.hasPin);
  enter_->setVisible(!person.hasPin);
  setFocusProxy(person.hasPin ? pad_ : nullptr);
  setFocusPolicy(Qt::StrongFocus);
  setFocus();
}

void CoverPage::keyPressEvent(QKeyEvent* event) {
  const int key = event->key();
  const bool isEnter = key == Qt::Key_Return || key == Qt::Key_Enter;
  if (people_.empty()) return QWidget::keyPressEvent(event);
  if (key == Qt::Key_Down)
    step(1);
  else if (key == Qt::Key_Up)
    step(people_.size() - (passphrase_->isHidden() ? 1 : 0));
  else if (isEnter && enter_->isVisible())
    enter_->click();
  else
    QWidget::keyPressEvent(event);
}

void CoverPage::hideScreen() {
  ask(Asks::nothing, u"The screen is hidden. F11 shows it again."_s);
}

void CoverPage::refuse(const QString& words) {
  trouble_->setText(u"✖ "_s + words);
  trouble_->setAccessibleName(words);
  setFocus();
}

void CoverPage::showEvent(QShowEvent* event) {
  QWidget::showEvent(event);
  readTimer();
  pulse_.start();
}

void CoverPage::hideEvent(QHideEvent* event) {
  QWidget::hideEvent(event);
  pulse_.stop();
}

void CoverPage::readTimer() {
  const auto numerals = timer_();
  numerals_->setText(numerals);
  numerals_->setVisible(!numerals.isEmpty());
}

} // namespace gk::ui
