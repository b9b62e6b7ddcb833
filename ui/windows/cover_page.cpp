#include "ui/windows/cover_page.h"

#include "ui/support/style.h"
#include "ui/support/text.h"
#include "ui/widgets/key_button.h"

#include <QLabel>
#include <QLineEdit>
#include <QVBoxLayout>

namespace gk::ui {

CoverPage::CoverPage(std::function<QString()> timer, QWidget* parent)
    : QWidget(parent), timer_(std::move(timer)),
      title_(wordsLabel({}, u"title"_s, u"coverTitle"_s, this)),
      numerals_(wordsLabel({}, u"numerals"_s, u"coverTimer"_s, this)),
      passphrase_(new QLineEdit(this)),
      trouble_(wordsLabel({}, u"counts"_s, u"coverTrouble"_s, this)) {
  setObjectName(u"coverPage"_s);
  passphrase_->setObjectName(u"coverPassphrase"_s);
  passphrase_->setAccessibleName(u"Passphrase"_s);
  passphrase_->setPlaceholderText(u"Passphrase, then Enter"_s);
  passphrase_->setEchoMode(QLineEdit::Password);
  style::whenDressed(passphrase_, [this] { passphrase_->setMaximumWidth(style::px(520)); });
  auto* column = new QVBoxLayout(this);
  column->addStretch(1);
  for (auto* widget : {static_cast<QWidget*>(title_), static_cast<QWidget*>(passphrase_),
                       static_cast<QWidget*>(trouble_), static_cast<QWidget*>(numerals_)})
    column->addWidget(widget);
  column->addStretch(2);
  column->setContentsMargins(80, 20, 80, 20);
  pulse_.setInterval(100);
  connect(&pulse_, &QTimer::timeout, this, &CoverPage::readTimer);
  connect(passphrase_, &QLineEdit::returnPressed, this, [this] {
    const auto given = passphrase_->text();
    passphrase_->clear();
    trouble_->setText(u"Looking ..."_s);
    trouble_->repaint();
    Q_EMIT passphraseGiven(given);
  });
}

void CoverPage::lock(const QString& why) {
  lock_ = true;
  title_->setText(why);
  passphrase_->show();
  passphrase_->clear();
  trouble_->clear();
  setFocusProxy(passphrase_);
  passphrase_->setFocus();
}

void CoverPage::hideScreen() {
  lock_ = false;
  title_->setText(u"The screen is hidden. F11 shows it again."_s);
  passphrase_->hide();
  trouble_->clear();
  setFocusProxy(nullptr);
}

void CoverPage::refuse(const QString& words) {
  trouble_->setText(u"✖ "_s + words);
  trouble_->setAccessibleName(words);
  passphrase_->setFocus();
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
