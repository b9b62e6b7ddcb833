#pragma once

#include "reports/print/plot.h"

#include <QWidget>

#include <memory>
#include <optional>

class QSvgRenderer;

namespace gk::ui {

/// A picture in the look that is worn; on paper it has the colors of paper.
reports::PlotColors plotColors();

/// A report's picture.
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
  void draw();

  std::unique_ptr<QSvgRenderer> svg_;
  std::optional<reports::Plot> plot_;
};

} // namespace gk::ui
