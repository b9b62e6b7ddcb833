#include "ui/lists/plot_view.h"

#include "ui/support/text.h"

#include <QPainter>
#include <QSvgRenderer>

namespace gk::ui {

PlotView::PlotView(QWidget* parent) : QWidget(parent), svg_(std::make_unique<QSvgRenderer>()) {
  setObjectName(u"reportPlot"_s);
  svg_->setAspectRatioMode(Qt::KeepAspectRatio);
}

PlotView::~PlotView() = default;

void PlotView::show(const std::optional<reports::Plot>& plot) {
  setVisible(plot.has_value());
  if (!plot) return;
  setAccessibleName(toQt(plot->says));
  setToolTip(toQt(plot->says));
  svg_->load(QByteArray::fromStdString(reports::toSvg(*plot)));
  updateGeometry();
  update();
}

QSize PlotView::sizeHint() const {
  return {svg_->defaultSize().width(), std::min(svg_->defaultSize().height(), 300)};
}

void PlotView::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  painter.fillRect(rect(), Qt::white);
  auto size = QSizeF(svg_->defaultSize()).scaled(QSizeF(this->size()), Qt::KeepAspectRatio);
  svg_->render(&painter, QRectF({0, 0}, size));
}

} // namespace gk::ui
