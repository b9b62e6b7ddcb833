#pragma once

#include "ui/support/report_sheets.h"

#include <QPaintDevice>
#include <QPaintEngine>
#include <QPainter>
#include <QPainterPath>
#include <QStringList>

namespace gk::test {

/// What a sheet has on it: its words, and how many curves of a plot.
struct Drawn {
  QStringList words;
  int curves = 0;
};

/// Keeps what is painted in place of painting it.
class Recorder final : public QPaintDevice, private QPaintEngine {
 public:
  Recorder() : QPaintEngine(AllFeatures) {}
  [[nodiscard]] QPaintEngine* paintEngine() const override {
    return const_cast<Recorder*>(this); // as Qt's own interface wants it
  }
  Drawn drawn;

 private:
  bool begin(QPaintDevice* /*device*/) override { return true; }
  bool end() override { return true; }
  void updateState(const QPaintEngineState& /*state*/) override {}
  [[nodiscard]] Type type() const override { return User; }
  void drawTextItem(const QPointF& /*at*/, const QTextItem& item) override {
    drawn.words += item.text();
  }
  void drawLines(const QLine* /*lines*/, int /*count*/) override {} // rules and axes
  void drawLines(const QLineF* /*lines*/, int /*count*/) override {}
  void drawPath(const QPainterPath& path) override { drawn.curves += path.isEmpty() ? 0 : 1; }
  void drawPolygon(const QPointF* /*points*/, int /*count*/, PolygonDrawMode /*mode*/) override {
    ++drawn.curves;
  }
  void drawPixmap(const QRectF& /*on*/, const QPixmap& /*map*/, const QRectF& /*of*/) override {}
  [[nodiscard]] int metric(PaintDeviceMetric metric) const override {
    if (metric == PdmWidth || metric == PdmHeight) return 1000;
    if (metric == PdmDevicePixelRatio) return 1;
    if (metric == PdmDevicePixelRatioScaled) return static_cast<int>(devicePixelRatioFScale());
    return 72;
  }
};

inline Drawn drawnOn(const ui::ReportSheets& sheets, int sheet) {
  Recorder recorder;
  QPainter painter(&recorder);
  sheets.paint(painter, sheet);
  painter.end();
  return recorder.drawn;
}

} // namespace gk::test
