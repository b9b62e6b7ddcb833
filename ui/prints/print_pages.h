#pragma once

#include "base/progress.h"
#include "reports/sheets/qr_code.h"
#include "ui/paper/paper.h"

#include <QFont>
#include <QRectF>
#include <QString>

#include <functional>

class QPagedPaintDevice;
class QPainter;

namespace gk::ui {

/// So many pages on a device, each painted by a painter whose unit is a point from the corner of
/// the sheet. When it is stopped a printer prints nothing.
void printPages(QPagedPaintDevice& device, PaperSize paper, int pages,
                const std::function<void(QPainter&, int page)>& paint,
                const base::Progress& progress = {});

/// Points; lines break alike on every device.
QFont printFont(double points, bool bold = false);

/// The code with its quiet zone, as large as fits into the square.
void drawQrCode(QPainter& painter, const reports::QrCode& code, const QRectF& into);

/// Words broken in that width, from that corner; how high they are. Paints nothing where `painter`
/// is none.
double drawWords(QPainter* painter, const QString& words, const QFont& font, const QRectF& into);

} // namespace gk::ui
