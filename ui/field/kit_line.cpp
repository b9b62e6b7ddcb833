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

void KitLine::setText(const QString& words, const QString& brief) {
  words_ = words;
  brief_ = brief;
  setAccessibleName(words);
  fit();
}

void KitLine::resizeEvent(QResizeEvent* event) {
  QLabel::resizeEvent(event);
  fit();
}

void KitLine::fit() {
  constexpr int usual = 18;
  constexpr int least = 18; // pixels
  const int room = width() - 2;
  auto letters = font();
  QString shown;
  const auto fits = [&](const QString& way) {
    for (int size = style::px(usual); size >= least; --size) {
      letters.setPixelSize(size);
      shown = way;
      if (QFontMetrics(letters).horizontalAdvance(way) <= room) return true;
    }
    return false;
  };
  if (!fits(words_) && !fits(brief_))
    shown = QFontMetrics(letters).elidedText(brief_, Qt::ElideRight, room);
  if (shown != text()) QLabel::setText(shown);
  const auto sheet = u"font-size: %1px"_s.arg(letters.pixelSize());
  if (styleSheet() != sheet) setStyleSheet(sheet);
}

} // namespace gk::ui
