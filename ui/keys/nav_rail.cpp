#include "ui/keys/nav_rail.h"

#include "ui/look/style.h"
#include "ui/support/text.h"

#include <QPainter>
#include <QVBoxLayout>

#include <algorithm>

namespace gk::ui {

namespace {

QFont letters(QFont font, int pixels, QFont::Weight weight) {
  font.setPixelSize(pixels);
  font.setWeight(weight);
  return font;
}

/// Large letters need the width for the words; the icon is what gives way.
bool hasIcons() {
  return lookNow().percent <= 120;
}

constexpr int railMargin = 8;
// All places and the foot fit 700 lines in the largest letters.
constexpr int mostWords = 24;
constexpr int mostCap = 20;
constexpr int markSide = 44;
constexpr int markRoom = 70; ///< above the places

} // namespace

NavButton::NavButton(Icon icon, const QString& words, const QString& key, QWidget* parent)
    : QAbstractButton(parent), icon_(icon), key_(key) {
  setText(words);
  setAccessibleName(words + u", key "_s + key);
  setCheckable(false);
  setFocusPolicy(Qt::NoFocus);
  setSizePolicy(QSizePolicy::Minimum, QSizePolicy::Fixed); // all as wide as the widest
}

NavButton::~NavButton() = default;

QSize NavButton::sizeHint() const {
  const QFontMetrics words(letters(font(), std::min(style::px(15), mostWords), QFont::DemiBold));
  const QFontMetrics cap(letters(font(), std::min(style::px(14), mostCap), QFont::DemiBold));
  const int wide = std::max(96, words.horizontalAdvance(text()) + 2 * railMargin);
  return {wide, cap.height() + style::px(4) + words.height() + (hasIcons() ? 20 : 10)};
}

void NavButton::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  const auto& look = style::worn();
  const auto ground = isChecked() ? look.railOn : look.rail;
  const auto ink = isChecked() ? look.onRailOn : look.onRail;
  painter.setPen(Qt::NoPen);
  painter.setBrush(ground);
  painter.drawRoundedRect(rect(), 8, 8);
  const auto capLetters = letters(font(), std::min(style::px(14), mostCap), QFont::DemiBold);
  const QFontMetrics metrics(capLetters);
  const QSizeF cap(std::max(metrics.horizontalAdvance(key_) + style::px(10), style::px(24)),
                   metrics.height() + style::px(2));
  const QRectF capBox(QPointF(width() - railMargin - cap.width(), 6), cap);
  if (hasIcons()) paintIcon(painter, {railMargin + 1.0, 6, 22, 22}, icon_, ink);
  painter.setPen(QPen(ink, 1.5));
  painter.setBrush(Qt::NoBrush);
  painter.drawRoundedRect(capBox, 5, 5);
  painter.setFont(capLetters);
  painter.drawText(capBox, Qt::AlignCenter, key_);
  painter.setFont(letters(font(), std::min(style::px(15), mostWords), QFont::DemiBold));
  painter.drawText(
      QRectF(railMargin, capBox.bottom(), width() - 2 * railMargin, height() - capBox.bottom() - 2),
      Qt::AlignLeft | Qt::AlignVCenter, text());
}

NavRail::NavRail(QWidget* parent) : QWidget(parent) {
  setObjectName(u"navRail"_s);
  auto* column = new QVBoxLayout(this);
  column->setSpacing(4);
  column->addStretch(1);
  style::whenDressed(this, [this, column] {
    column->setContentsMargins(railMargin, hasIcons() ? markRoom : railMargin, railMargin,
                               railMargin);
    for (auto* button : findChildren<NavButton*>())
      button->updateGeometry();
    update();
  });
}

NavButton* NavRail::add(Part part, Icon icon, const QString& words, const QString& key,
                        const QString& name) {
  auto* button = new NavButton(icon, words, key, this);
  button->setObjectName(name);
  auto* column = static_cast<QVBoxLayout*>(layout());
  if (part == Part::foot) {
    column->addWidget(button);
    foot_.push_back(button);
  } else {
    column->insertWidget(static_cast<int>(places_.size()), button);
    places_.push_back(button);
  }
  return button;
}

void NavRail::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  painter.fillRect(rect(), style::worn().rail);
  if (hasIcons())
    paintMark(painter, QRectF((width() - markSide) / 2.0, 14, markSide, markSide),
              style::worn().railQuiet, style::cured());
  // The foot is apart from the places.
  if (foot_.empty()) return;
  const int y = foot_.front()->y() - 8;
  painter.setPen(QPen(style::worn().railQuiet, 1));
  painter.drawLine(railMargin + 6, y, width() - railMargin - 6, y);
}

} // namespace gk::ui
