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
  // Smaller letters first, then smaller pictures, where that saves a sheet.
  const bool hasFront = !tables.empty() && tables.front().front;
  for (const double pictures : {1.0, 0.85, 0.7}) {
    if (count() == 1 || (pictures < 1 && !hasFront)) return;
    auto small = std::make_unique<SheetLayout>(title, tables, foot, smallLetters, pictures);
    if (small->count() < count()) layout_ = std::move(small);
  }
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
