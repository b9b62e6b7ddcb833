#include "ui/field/kit_line.h"

#include "ui/look/style.h"
#include "ui/support/text.h"

#include <QFontMetrics>
#include <QVariant>

namespace gk::ui {

KitLine::KitLine(QWidget* parent) : QLabel(parent) {
  setObjectName(u"fieldInUse"_s);
  setProperty("look", u"small"_s);
  setTextFormat(Qt::PlainText);
  setAlignment(Qt::AlignLeft | Qt::AlignVCenter);
  style::whenDressed(this, [this] { fit(); });
}

void KitLine::setText(const QString& words) {
  QLabel::setText(words);
  setAccessibleName(words);
  fit();
}

void KitLine::resizeEvent(QResizeEvent* event) {
  QLabel::resizeEvent(event);
  fit();
}

void KitLine::fit() {
  constexpr int usual = 18;
  constexpr int least = 13; // pixels
  auto letters = font();
  letters.setPixelSize(style::px(usual));
  while (letters.pixelSize() > least &&
         QFontMetrics(letters).horizontalAdvance(text()) > width() - 2)
    letters.setPixelSize(letters.pixelSize() - 1);
  const auto sheet = u"font-size: %1px"_s.arg(letters.pixelSize());
  if (styleSheet() != sheet) setStyleSheet(sheet);
}

} // namespace gk::ui
