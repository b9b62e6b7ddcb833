#include "ui/look/look.h"

#include "ui/look/focus_ring.h"
#include "ui/look/sheet.h"
#include "ui/look/style.h"
#include "ui/support/text.h"

#include <QApplication>
#include <QFont>
#include <QPalette>
#include <QStyleFactory>
#include <QVariant>

#include <algorithm>

/// Outside any namespace, as Qt's macro wants it: a library's files are forgotten otherwise.
static void loadLookFiles() {
  Q_INIT_RESOURCE(look);
}

namespace gk::ui {

namespace {

constexpr const char* schemeKept = "gkScheme";
constexpr const char* percentKept = "gkPercent";

QPalette paletteOf(const style::Colors& colors) {
  QPalette palette;
  palette.setColor(QPalette::Window, colors.ground);
  for (const auto role : {QPalette::Base, QPalette::Button, QPalette::ToolTipBase})
    palette.setColor(role, colors.card);
  palette.setColor(QPalette::AlternateBase, colors.sunk);
  for (const auto role :
       {QPalette::WindowText, QPalette::Text, QPalette::ButtonText, QPalette::ToolTipText})
    palette.setColor(role, colors.ink);
  palette.setColor(QPalette::PlaceholderText, colors.quiet);
  palette.setColor(QPalette::Highlight, colors.soft);
  palette.setColor(QPalette::HighlightedText, colors.ink);
  for (const auto role : {QPalette::WindowText, QPalette::Text, QPalette::ButtonText})
    palette.setColor(QPalette::Disabled, role, colors.quiet);
  return palette;
}

} // namespace

void dress(const Look& look) {
  const Look wanted{look.scheme, std::clamp(look.percent, 100, 200)};
  if (qApp->property(schemeKept).isValid() && lookNow() == wanted) return;
  qApp->setProperty(schemeKept, static_cast<int>(wanted.scheme));
  qApp->setProperty(percentKept, wanted.percent);
  loadLookFiles();
  qApp->setStyleSheet({});
  QApplication::setStyle(QStyleFactory::create(u"Fusion"_s));
  QApplication::setPalette(paletteOf(style::colors(wanted.scheme)));
  auto font = QApplication::font();
  font.setFamilies({u"Inter"_s, u"Noto Sans"_s, u"DejaVu Sans"_s});
  font.setPixelSize(style::px(16));
  QApplication::setFont(font);
  qApp->setStyleSheet(sheet());
  FocusRing::wear();
}

Look lookNow() {
  const auto percent = qApp->property(percentKept);
  if (!percent.isValid()) return {};
  return {static_cast<Scheme>(qApp->property(schemeKept).toInt()), percent.toInt()};
}

} // namespace gk::ui
