#include "ui/keys/key_bar.h"

#include "ui/keys/cap_button.h"
#include "ui/look/style.h"
#include "ui/look/touch.h"
#include "ui/support/text.h"

#include <QKeyEvent>
#include <QKeySequence>
#include <QVariant>

#include <algorithm>

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
  case KeyLook::filled:
    return u"filled"_s;
  }
  return {};
}

int plainKey(int key) {
  return key == Qt::Key_Enter ? int{Qt::Key_Return} : key;
}

} // namespace

QString keyHint(int key) {
  if (key == 0) return {};
  if (key == Qt::Key_Return) return u"Enter"_s;
  if (key == Qt::Key_Backspace) return u"Bksp"_s; // no wider than a word below it
  return QKeySequence(key).toString(QKeySequence::NativeText);
}

KeyBar::KeyBar(int columns, QWidget* parent) : QWidget(parent), columns_(columns) {
  QSizePolicy policy(QSizePolicy::Expanding, QSizePolicy::Minimum);
  policy.setHeightForWidth(true);
  setSizePolicy(policy);
  style::whenDressed(this, [this] {
    updateGeometry();
    place();
  });
}

CapButton* KeyBar::button(std::size_t place) {
  while (buttons_.size() <= place) {
    const auto next = buttons_.size();
    auto* made = new CapButton(this);
    made->setFocusPolicy(Qt::NoFocus);
    made->setWraps(true);
    connect(made, &QPushButton::clicked, this, [this, next] { act(next); });
    buttons_.push_back(made);
  }
  return buttons_[place];
}

void KeyBar::setActions(std::vector<KeyAction> actions) {
  actions_ = std::move(actions);
  // Many keys side by side: the words go under the key, to be large enough.
  const auto where =
      oneRow_ || property("dense").toBool() ? CapButton::Cap::above : CapButton::Cap::before;
  // All of them first: showing one lays the bar out.
  if (!actions_.empty()) button(actions_.size() - 1);
  for (std::size_t place = 0; place < actions_.size(); ++place) {
    const auto& action = actions_[place];
    auto* shown = button(place);
    const auto hint = keyHint(action.key);
    shown->setWords(hint, action.label, where);
    shown->setSub(action.sub);
    shown->setSign(action.sign);
    shown->setObjectName(action.name);
    shown->setAccessibleName(hint.isEmpty() ? action.label : action.label + u", key "_s + hint);
    shown->setEnabled(action.enabled);
    style::wear(*shown, lookName(action.look));
    shown->show();
  }
  for (std::size_t place = actions_.size(); place < buttons_.size(); ++place) {
    buttons_[place]->setObjectName({});
    buttons_[place]->hide();
  }
  updateGeometry();
  place();
}

void KeyBar::setLetters(int pixels) {
  const auto wanted = pixels > 0 ? u"QPushButton { font-size: %1px; }"_s.arg(pixels) : QString();
  if (styleSheet() != wanted) setStyleSheet(wanted);
  for (auto* one : buttons_)
    one->ensurePolished();
  updateGeometry();
  place();
}

int KeyBar::letters() const {
  return buttons_.empty() ? 0 : buttons_.front()->font().pixelSize();
}

void KeyBar::setOneRow() {
  oneRow_ = true;
}

std::vector<int> KeyBar::widths(int width) const {
  const auto count = std::min(actions_.size(), buttons_.size());
  std::vector<int> wide;
  int room = width + style::touchGap();
  for (std::size_t i = 0; i < count; ++i) {
    wide.push_back(std::max(buttons_[i]->sizeHint().width(), style::touch()));
    room -= wide.back() + style::touchGap();
  }
  // First whole lines where there is room, from the first key on; the rest is everyone's.
  for (std::size_t i = 0; i < count; ++i) {
    const int more = buttons_[i]->wholeWidth() - wide[i];
    if (more <= 0 || more > room) continue;
    wide[i] += more;
    room -= more;
  }
  for (std::size_t i = 0; i < count && room > 0; ++i) {
    const int share = room / static_cast<int>(count - i);
    wide[i] += share;
    room -= share;
  }
  return wide;
}

int KeyBar::columnsIn(int width) const {
  if (oneRow_) return std::max(1, static_cast<int>(actions_.size()));
  int widest = 1;
  for (std::size_t i = 0; i < std::min(actions_.size(), buttons_.size()); ++i)
    widest = std::max(widest, buttons_[i]->sizeHint().width());
  const int gap = style::touchGap();
  return std::clamp((width + gap) / (widest + gap), 1, columns_);
}

int KeyBar::rowHeight() const {
  return rowHeightIn(columnsIn(width()), width());
}

int KeyBar::rowHeightIn(int columns, int width) const {
  int high = style::touch();
  const auto count = std::min(actions_.size(), buttons_.size());
  const auto wide = oneRow_ ? widths(width) : std::vector<int>();
  const int each = (width + style::touchGap()) / std::max(columns, 1) - style::touchGap();
  for (std::size_t i = 0; i < count; ++i)
    high = std::max(high, buttons_[i]->heightIn(oneRow_ ? wide[i] : each));
  return high;
}

int KeyBar::heightForWidth(int width) const {
  if (actions_.empty()) return 0;
  const int columns = columnsIn(width);
  const int rows = (static_cast<int>(actions_.size()) + columns - 1) / columns;
  return rows * (rowHeightIn(columns, width) + style::touchGap()) - style::touchGap();
}

QSize KeyBar::sizeHint() const {
  return {width(), heightForWidth(width())};
}

QSize KeyBar::minimumSizeHint() const {
  return {style::touch(), heightForWidth(width())};
}

void KeyBar::place() {
  const int gap = style::touchGap();
  const int columns = columnsIn(width());
  const int high = rowHeight();
  if (oneRow_) {
    const auto wide = widths(width());
    int x = 0;
    for (std::size_t i = 0; i < wide.size(); ++i) {
      buttons_[i]->setGeometry(x, 0, wide[i], high);
      x += wide[i] + gap;
    }
    return;
  }
  for (std::size_t i = 0; i < std::min(actions_.size(), buttons_.size()); ++i) {
    const int column = static_cast<int>(i) % columns;
    const int left = column * (width() + gap) / columns;
    const int right = (column + 1) * (width() + gap) / columns - gap;
    buttons_[i]->setGeometry(left, static_cast<int>(i) / columns * (high + gap), right - left,
                             high);
  }
}

void KeyBar::resizeEvent(QResizeEvent* event) {
  QWidget::resizeEvent(event);
  place();
  updateGeometry(); // other rows, another height
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
