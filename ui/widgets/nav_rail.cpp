#include "ui/widgets/nav_rail.h"

#include "ui/support/style.h"
#include "ui/support/text.h"

#include "base/contract.h"

#include <QPainter>
#include <QPainterPath>
#include <QSvgRenderer>
#include <QVBoxLayout>

#include <algorithm>

namespace gk::ui {

namespace {

/// Our own drawings, on a grid of 24, lines of 2 with round ends.
const char* drawingOf(Icon icon) {
  switch (icon) {
  case Icon::board:
    return "<path d='M4 6h3M4 12h3M4 18h3M10 6h10M10 12h10M10 18h10'/>";
  case Icon::chair:
    return "<path d='M5 4l3 9h8l3-4M8 13l-1 4h8M11 17v3M7 20h9'/>";
  case Icon::closeOut:
    return "<path d='M6 4h12v16H6zM9 12l2.3 2.5L15.5 9.500M9 4v-1h6v1'/>";
  case Icon::totals:
    return "<path d='M4 20h16M6.500 20v-6M12 20V6M17.500 20v-10' />";
  case Icon::desk:
    return "<path d='M4 7h9M17 7h3M4 17h3M11 17h9'/><circle cx='15' cy='7' r='2'/><cir"
           "cle cx='9' cy='17' r='2'/>";
  case Icon::flag:
    return "<path d='M6 21V4M6 4.500h11l-2.500 4 2.500 4H6'/>";
  case Icon::hide:
    return "<path d='M3 12c3-4.500 6-6 9-6s6 1.500 9 6c-3 4.500-6 6-9 6s-6-1.500-9-6zM"
           "4 4l16 16'/>";
  case Icon::lock:
    return "<path d='M6 11h12v9H6zM8.500 11V8a3.500 3.500 0 0 1 7 0v3'/>";
  }
  base::fail("no such icon");
}

void paintIcon(QPainter& painter, const QRectF& box, Icon icon, const QColor& ink) {
  const auto svg =
      u"<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 24 24' fill='none' "
      "stroke='%1' stroke-width='2' stroke-linecap='round' "
      "stroke-linejoin='round'>%2</svg>"_s.arg(ink.name(), QLatin1String(drawingOf(icon)));
  QSvgRenderer(svg.toUtf8()).render(&painter, box);
}

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

} // namespace

NavButton::NavButton(Icon icon, const QString& words, const QString& key, QWidget* parent)
    : QAbstractButton(parent), icon_(icon), key_(key) {
  setText(words);
  setAccessibleName(words + u", key "_s + key);
  setCheckable(false);
  setFocusPolicy(Qt::NoFocus);
  setSizePolicy(QSizePolicy::Fixed, QSizePolicy::Fixed);
}

NavButton::~NavButton() = default;

QSize NavButton::sizeHint() const {
  const QFontMetrics words(letters(font(), style::px(15), QFont::DemiBold));
  const QFontMetrics cap(letters(font(), style::px(14), QFont::DemiBold));
  const int wide = std::max(96, words.horizontalAdvance(text()) + 2 * railMargin);
  return {wide, cap.height() + style::px(4) + words.height() + (hasIcons() ? 16 : 10)};
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
  const auto capLetters = letters(font(), style::px(14), QFont::DemiBold);
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
  painter.setFont(letters(font(), style::px(15), QFont::DemiBold));
  painter.drawText(
      QRectF(railMargin, capBox.bottom(), width() - 2 * railMargin, height() - capBox.bottom() - 2),
      Qt::AlignLeft | Qt::AlignVCenter, text());
}

NavRail::NavRail(QWidget* parent) : QWidget(parent) {
  setObjectName(u"navRail"_s);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(railMargin, railMargin, railMargin, railMargin);
  column->setSpacing(4);
  column->addStretch(1);
  style::whenDressed(this, [this] {
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
  } else {
    column->insertWidget(static_cast<int>(places_.size()), button);
    places_.push_back(button);
  }
  return button;
}

void NavRail::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  painter.fillRect(rect(), style::worn().rail);
}

} // namespace gk::ui
