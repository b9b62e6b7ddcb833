#include "ui/prints/print_pages.h"

#include <QPagedPaintDevice>
#include <QPainter>
#include <QPrinter>
#include <QTextLayout>

#include <algorithm>

namespace gk::ui {

namespace {

constexpr double pointsPerInch = 72;
constexpr double wordsLineFactor = 1.25;

} // namespace

void printPages(QPagedPaintDevice& device, PaperSize paper, int pages,
                const std::function<void(QPainter&, int)>& paint, const base::Progress& progress) {
  device.setPageLayout(pageOf(paper));
  QPainter painter(&device);
  if (!painter.isActive()) return;
  painter.scale(device.logicalDpiX() / pointsPerInch, device.logicalDpiY() / pointsPerInch);
  for (int page = 0; page < pages; ++page) {
    progress.at(base::Stage::drawing, page, pages);
    if (progress.isStopped()) {
      if (auto* printer = dynamic_cast<QPrinter*>(&device)) printer->abort();
      return;
    }
    if (page > 0) device.newPage();
    painter.save();
    painter.setPen(Qt::black);
    paint(painter, page);
    painter.restore();
  }
}

QFont printFont(double points, bool bold) {
  QFont font(QStringLiteral("Sans Serif"));
  font.setPixelSize(static_cast<int>(points));
  font.setBold(bold);
  font.setHintingPreference(QFont::PreferNoHinting);
  return font;
}

void drawQrCode(QPainter& painter, const reports::QrCode& code, const QRectF& into) {
  const int modules = code.width + 2 * reports::QrCode::quiet;
  const double side = std::min(into.width(), into.height()) / modules;
  painter.save();
  painter.setRenderHint(QPainter::Antialiasing, false);
  painter.fillRect(QRectF(into.topLeft(), QSizeF(side * modules, side * modules)), Qt::white);
  for (int row = 0; row < code.width; ++row)
    for (int column = 0; column < code.width; ++column) {
      if (!code.isDark(column, row)) continue;
      // Dark neighbors as one bar, so that no hair line shows between them.
      int end = column;
      while (end + 1 < code.width && code.isDark(end + 1, row))
        ++end;
      painter.fillRect(QRectF(into.left() + side * (column + reports::QrCode::quiet),
                              into.top() + side * (row + reports::QrCode::quiet),
                              side * (end - column + 1), side),
                       Qt::black);
      column = end;
    }
  painter.restore();
}

double drawWords(QPainter* painter, const QString& words, const QFont& font, const QRectF& into) {
  QTextLayout layout(words, font);
  QTextOption option;
  option.setWrapMode(QTextOption::WrapAtWordBoundaryOrAnywhere);
  option.setUseDesignMetrics(true);
  layout.setTextOption(option);
  const double lineHeight = font.pixelSize() * wordsLineFactor;
  double y = 0;
  layout.beginLayout();
  for (auto line = layout.createLine(); line.isValid(); line = layout.createLine()) {
    line.setLineWidth(into.width());
    line.setPosition({0, y});
    y += lineHeight;
  }
  layout.endLayout();
  if (painter) layout.draw(painter, into.topLeft());
  return y;
}

} // namespace gk::ui
