#pragma once

#include "ui/models/overview.h"

#include <QWidget>

namespace gk::ui {

/// Headlines and two pictures of a term, drawn in the look that is worn: what is pointed at has
/// another shape and not only another color.
class OverviewView final : public QWidget {
  Q_OBJECT

 public:
  explicit OverviewView(QWidget* parent);

  void show(const Overview& overview);
  /// The trend and the findings in place of retention and the steps, or back.
  void turn();
  [[nodiscard]] bool isTurned() const { return turned_; }
  void showTrend(const Trend& trend);
  [[nodiscard]] QSize sizeHint() const override;
  [[nodiscard]] QSize minimumSizeHint() const override;

 protected:
  void paintEvent(QPaintEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;

 private:
  [[nodiscard]] int figureHeight() const;
  [[nodiscard]] int rowHeight() const;
  /// Beside the dots: a share of the picture at most.
  [[nodiscard]] double namesRoom(double boxWidth) const;
  /// How high the row of each school is: a long name goes on in a second line.
  [[nodiscard]] std::vector<int> dotRows(double boxWidth) const;
  void paintDotMarks(QPainter& painter, std::optional<double> benchmark, std::optional<double> all,
                     double y, double right) const;
  void paintCard(QPainter& painter, const QRectF& box) const;
  void paintFigure(QPainter& painter, const QRectF& box, const Overview::Figure& figure) const;
  void paintHead(QPainter& painter, const QRectF& box, const QString& title,
                 const QString& says) const;
  void paintFunnel(QPainter& painter, const QRectF& box) const;
  void paintDots(QPainter& painter, const QRectF& box) const;
  [[nodiscard]] QFont letters(int pixels, QFont::Weight weight = QFont::Normal) const;

  void paintPlot(QPainter& painter, const QRectF& box, const QString& title, const QString& says,
                 const reports::Plot& plot) const;
  void paintTurned(QPainter& painter, const QRectF& first, const QRectF& second) const;
  void sayAll();

  Overview overview_;
  Trend trend_;
  bool turned_ = false;
};

} // namespace gk::ui
