#include "ui/widgets/brand_panel.h"

#include "ui/keys/icons.h"
#include "ui/look/style.h"
#include "ui/support/text.h"

#include <QPainter>

namespace gk::ui {

namespace {

constexpr int brandWidth = 400; ///< half grown with the letters
constexpr int brandMargin = 40;
constexpr double brandMark = 84;

QFont brandFont(const QFont& from, int pixels, QFont::Weight weight) {
  auto font = from;
  font.setPixelSize((pixels + style::px(pixels)) / 2);
  font.setWeight(weight);
  return font;
}

} // namespace

BrandPanel::BrandPanel(QWidget* parent) : QWidget(parent) {
  setAccessibleName(u"Groovekeeper. The logbook for school sealant days. Nothing leaves this "
                    "laptop."_s);
  style::whenDressed(this, [this] { setFixedWidth((brandWidth + style::px(brandWidth)) / 2); });
}

void BrandPanel::paintEvent(QPaintEvent* /*event*/) {
  QPainter painter(this);
  const auto& look = style::worn();
  painter.fillRect(rect(), look.rail);
  paintMark(painter, {brandMargin, 56, brandMark, brandMark}, look.railQuiet, look.cured);
  const int wide = width() - 2 * brandMargin;
  painter.setPen(look.onRail);
  painter.setFont(brandFont(font(), 38, QFont::ExtraBold));
  const int name = QFontMetrics(painter.font()).height();
  painter.drawText(QRect(brandMargin, 156, wide, name), Qt::AlignLeft | Qt::AlignVCenter,
                   u"Groovekeeper"_s);
  painter.setFont(brandFont(font(), 18, QFont::Normal));
  painter.setPen(look.railQuiet);
  painter.drawText(QRect(brandMargin, 164 + name, wide, height() - 164 - name),
                   int{Qt::AlignLeft} | int{Qt::AlignTop} | int{Qt::TextWordWrap},
                   u"The logbook for school sealant days.\nNothing leaves this laptop."_s);
}

BrandMark::BrandMark(QWidget* parent) : QWidget(parent) {
  setFixedSize(56, 56);
}

void BrandMark::paintEvent(QPaintEvent* /*event*/) {
  QPainter painter(this);
  paintMark(painter, rect(), style::strong(), style::cured());
}

} // namespace gk::ui
