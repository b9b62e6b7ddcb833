#include "ui/widgets/key_bar.h"

#include "ui/support/style.h"
#include "ui/support/text.h"
#include "ui/support/touch.h"

#include <QGridLayout>
#include <QKeyEvent>
#include <QKeySequence>
#include <QPushButton>
#include <QStyle>
#include <QVariant>

namespace gk::ui {

namespace {

QString lookName(KeyLook look) {
  switch (look) {
  case KeyLook::plain:
    return {};
  case KeyLook::main:
    return u"main"_s;
  case KeyLook::alarm:
    return u"alarm"_s;
  }
  return {};
}

int plainKey(int key) {
  return key == Qt::Key_Enter ? int{Qt::Key_Return} : key;
}

} // namespace

QString keyHint(int key) {
  if (key == Qt::Key_Return) return u"Enter"_s;
  return QKeySequence(key).toString(QKeySequence::NativeText);
}

KeyBar::KeyBar(int columns, QWidget* parent)
    : QWidget(parent), columns_(columns), height_(style::touch()), grid_(new QGridLayout(this)) {
  setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
  grid_->setContentsMargins(0, 0, 0, 0);
  grid_->setSpacing(6);
  for (int column = 0; column < columns_; ++column)
    grid_->setColumnStretch(column, 1);
}

QPushButton* KeyBar::button(std::size_t place) {
  while (buttons_.size() <= place) {
    const auto next = buttons_.size();
    auto* made = new QPushButton(this);
    made->setFocusPolicy(Qt::NoFocus);
    made->setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Fixed);
    connect(made, &QPushButton::clicked, this, [this, next] { act(next); });
    grid_->addWidget(made, static_cast<int>(next) / columns_, static_cast<int>(next) % columns_);
    buttons_.push_back(made);
  }
  return buttons_[place];
}

void KeyBar::setActions(std::vector<KeyAction> actions) {
  actions_ = std::move(actions);
  for (std::size_t place = 0; place < actions_.size(); ++place) {
    const auto& action = actions_[place];
    auto* shown = button(place);
    shown->setMinimumHeight(height_);
    shown->setText(keyHint(action.key) + u"  "_s + action.label);
    shown->setObjectName(action.name);
    shown->setAccessibleName(action.label + u", key "_s + keyHint(action.key));
    shown->setEnabled(action.enabled);
    if (shown->property("look").toString() != lookName(action.look)) {
      shown->setProperty("look", lookName(action.look));
      shown->style()->unpolish(shown);
      shown->style()->polish(shown);
    }
    shown->show();
  }
  for (std::size_t place = actions_.size(); place < buttons_.size(); ++place) {
    buttons_[place]->setObjectName({});
    buttons_[place]->hide();
  }
}

bool KeyBar::press(const QKeyEvent& event) {
  for (std::size_t place = 0; place < actions_.size(); ++place) {
    if (actions_[place].key != plainKey(event.key())) continue;
    if (actions_[place].enabled && !event.isAutoRepeat()) act(place);
    return true;
  }
  return false;
}

void KeyBar::act(std::size_t place) {
  if (place >= actions_.size()) return;
  const auto chosen = actions_[place].act; // acting may set new actions
  chosen();
}

} // namespace gk::ui
