#pragma once

#include "reports/print/plot.h"

#include <QWidget>

#include <memory>

class QSvgRenderer;

namespace gk::ui {

/// A report's picture, always black on white as it will be on paper.
class PlotView final : public QWidget {
  Q_OBJECT

 public:
  explicit PlotView(QWidget* parent = nullptr);
  ~PlotView() override;

  /// Hides when there is none.
  void show(const std::optional<reports::Plot>& plot);

  [[nodiscard]] QSize sizeHint() const override;

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  std::unique_ptr<QSvgRenderer> svg_;
};

} // namespace gk::ui
