#include "ui/asking/pin_pad.h"

#include "ui/look/style.h"
#include "ui/look/touch.h"
#include "ui/support/text.h"

#include <QGridLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QPushButton>
#include <QVariant>

#include <algorithm>

namespace gk::ui {

namespace {

constexpr qsizetype mostDigits = 6; // as a PIN has at most

} // namespace

PinPad::PinPad(QWidget* parent) : QWidget(parent), dots_(new QLabel(this)) {
  setObjectName(u"pinPad"_s);
  setFocusPolicy(Qt::StrongFocus);
  setAccessibleName(u"PIN: digits, then Enter"_s);
  dots_->setObjectName(u"pinDots"_s);
  dots_->setProperty("look", u"title"_s);
  auto* grid = new QGridLayout(this);
  grid->setContentsMargins(0, 0, 0, 0);
  grid->setSpacing(style::touchGap());
  grid->addWidget(dots_, 0, 0, 1, 3);
  const auto key = [&](const QString& words, const QString& name, int row, int column, auto act) {
    auto* made = new QPushButton(words, this);
    made->setObjectName(name);
    made->setAccessibleName(name == u"pinBack"_s ? u"Delete the last digit"_s : words);
    made->setFocusPolicy(Qt::NoFocus);
    made->setAutoDefault(false);
    style::whenDressed(made, [made] {
      const int side = std::max(style::touch(), style::px(60));
      made->setFixedSize(side + side / 2, side);
    });
    connect(made, &QPushButton::clicked, this, act);
    grid->addWidget(made, row, column);
  };
  for (int digit = 1; digit <= 9; ++digit)
    key(QString::number(digit), u"pinKey%1"_s.arg(digit), 1 + (digit - 1) / 3, (digit - 1) % 3,
        [this, digit] { put(QChar(u'0' + digit)); });
  key(u"⌫"_s, u"pinBack"_s, 4, 0, [this] { takeBack(); });
  key(u"0"_s, u"pinKey0"_s, 4, 1, [this] { put(u'0'); });
  key(u"Enter"_s, u"pinEnter"_s, 4, 2, [this] { give(); });
  grid->setColumnStretch(3, 1);
  showDots();
}

void PinPad::clear() {
  digits_.fill(u'0'); // what the string's own memory held
  digits_.clear();
  showDots();
}

void PinPad::keyPressEvent(QKeyEvent* event) {
  const int key = event->key();
  if (event->isAutoRepeat()) return event->accept();
  if (key >= Qt::Key_0 && key <= Qt::Key_9)
    put(QChar(u'0' + (key - Qt::Key_0)));
  else if (key == Qt::Key_Backspace)
    takeBack();
  else if (key == Qt::Key_Return || key == Qt::Key_Enter)
    give();
  else
    QWidget::keyPressEvent(event);
}

void PinPad::put(QChar digit) {
  if (digits_.size() >= mostDigits) return;
  digits_ += digit;
  showDots();
  Q_EMIT typed();
}

void PinPad::takeBack() {
  digits_.chop(1);
  showDots();
}

void PinPad::give() {
  if (digits_.isEmpty()) return;
  auto pin = digits_;
  pin.detach();
  clear();
  Q_EMIT given(pin);
  pin.fill(u'0');
}

void PinPad::showDots() {
  dots_->setText(digits_.isEmpty() ? u"PIN"_s : QString(digits_.size(), u'●'));
}

} // namespace gk::ui
