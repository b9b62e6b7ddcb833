#include "ui/paper/report_sheets.h"

#include "ui/paper/print_letters.h"
#include "ui/paper/sheet_layout.h"
#include "ui/support/text.h"

#include <QPagedPaintDevice>
#include <QPainter>

namespace gk::ui {

ReportSheets::ReportSheets(const std::string& title, const std::vector<reports::Table>& tables,
                           const ReportFoot& foot)
    : paper_(foot.paper),
      layout_(std::make_unique<SheetLayout>(title, tables, foot, largestLetters)) {
  if (count() == 1) return;
  auto small = std::make_unique<SheetLayout>(title, tables, foot, smallLetters);
  if (small->count() < count()) layout_ = std::move(small);
}

ReportSheets::~ReportSheets() = default;

int ReportSheets::count() const {
  return layout_->count();
}

double ReportSheets::letters() const {
  return layout_->letters();
}

QSizeF ReportSheets::size() const {
  return layout_->size();
}

void ReportSheets::paint(QPainter& painter, int sheet) const {
  layout_->paint(painter, sheet);
}

void ReportSheets::print(QPagedPaintDevice& device, const base::Progress& progress) const {
  const bool onItsSide = size().width() > size().height();
  device.setPageLayout(pageOf(paper_, onItsSide ? QPageLayout::Landscape : QPageLayout::Portrait));
  QPainter painter(&device);
  if (!painter.isActive()) return;
  painter.scale(device.logicalDpiX() / 72.0, device.logicalDpiY() / 72.0);
  for (int sheet = 0; sheet < count(); ++sheet) {
    progress.at(base::Stage::drawing, sheet, count());
    if (progress.isStopped()) return;
    if (sheet > 0) device.newPage();
    paint(painter, sheet);
  }
}

QByteArray reportPdf(const std::string& title, const std::vector<reports::Table>& tables,
                     const ReportFoot& foot, const base::Progress& progress) {
  const ReportSheets sheets(title, tables, foot);
  return asPdf(toQt(title), [&](QPagedPaintDevice& device) { sheets.print(device, progress); });
}

} // namespace gk::ui
