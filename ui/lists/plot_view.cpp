#include "ui/lists/plot_view.h"

#include "ui/look/style.h"
#include "ui/support/text.h"

#include <QPainter>
#include <QSvgRenderer>

namespace gk::ui {

reports::PlotColors plotColors() {
  const auto& worn = style::worn();
  return {toStd(worn.ink.name()), toStd(worn.edge.name()), toStd(worn.chart.name()),
          toStd(worn.soft.name()), toStd(worn.card.name())};
}

PlotView::PlotView(QWidget* parent) : QWidget(parent), svg_(std::make_unique<QSvgRenderer>()) {
  setObjectName(u"reportPlot"_s);
  svg_->setAspectRatioMode(Qt::KeepAspectRatio);
  style::whenDressed(this, [this] { draw(); });
}

PlotView::~PlotView() = default;

void PlotView::show(const std::optional<reports::Plot>& plot) {
  plot_ = plot;
  setVisible(plot.has_value());
  if (!plot) return;
  setAccessibleName(toQt(plot->says));
  setToolTip(toQt(plot->says));
  draw();
  updateGeometry();
}

void PlotView::draw() {
  if (plot_) svg_->load(QByteArray::fromStdString(reports::toSvg(*plot_, {}, plotColors())));
  update();
}

QSize PlotView::sizeHint() const {
  return {svg_->defaultSize().width(), std::min(svg_->defaultSize().height(), 300)};
}

void PlotView::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  painter.fillRect(rect(), style::card());
  auto size = QSizeF(svg_->defaultSize()).scaled(QSizeF(this->size()), Qt::KeepAspectRatio);
  svg_->render(&painter, QRectF({0, 0}, size));
}

} // namespace gk::ui
