#pragma once

#include "reports/print/plot_names.h"

#include <algorithm>

namespace gk::reports {

inline bool hasRows(const Plot& plot) {
  return !plot.y.names.empty();
}

/// Where numbers lie on the page.
class PlotFrame {
 public:
  static constexpr double top = 14;
  static constexpr double toEndName = 20;      ///< from the last point to its line's name
  static constexpr double widestEndName = 0.4; ///< of the picture

  PlotFrame(const Plot& plot, PlotSize size) : plot_(plot), width_(size.width) {
    double longest = hasRows(plot) ? 0 : drawnWidth("100000");
    for (const auto& name : plot.y.names)
      longest = std::max(longest, std::min(drawnWidth(name), widestName));
    left_ = (plot.y.label.empty() ? 12 : 30) + longest;
    inner_ = hasRows(plot) ? rowHeight * static_cast<double>(plot.y.names.size()) : size.height;
    for (const auto& series : plot.series)
      for (const auto& words : series.said)
        if (hasRows(plot)) right_ = std::max(right_, drawnWidth(words) + 12);
    right_ = std::min(right_, size.width * 0.4);
    makeRoomFor(endNames(plot, size.width * widestEndName));
  }

  [[nodiscard]] double left() const { return left_; }
  [[nodiscard]] double width() const { return width_; }
  [[nodiscard]] double rightEdge() const { return width_ - right_; }
  [[nodiscard]] double lowerEdge() const { return top + inner_; }
  [[nodiscard]] double x(double value) const {
    return left_ + (value - plot_.x.low) / (plot_.x.high - plot_.x.low) * (rightEdge() - left_);
  }
  [[nodiscard]] double y(double value) const {
    const double share = (value - plot_.y.low) / (plot_.y.high - plot_.y.low);
    return hasRows(plot_) ? top + share * inner_ : lowerEdge() - share * inner_;
  }
  [[nodiscard]] bool holds(const PlotPoint& point) const { return isOnAxes(plot_, point); }

 private:
  static constexpr double endMargin = 14;
  static constexpr double rowHeight = 22;
  static constexpr double widestName = 34 * 6.6;

  /// At the right of the last point, which stands before the end of the axis.
  void makeRoomFor(const std::vector<EndName>& names) {
    if (names.empty()) return;
    double widest = 0;
    double last = plot_.x.low;
    for (const auto& name : names) {
      widest = std::max(widest, name.width());
      last = std::max(last, name.end.x);
    }
    const double share = std::max(0.5, (last - plot_.x.low) / (plot_.x.high - plot_.x.low));
    const double before = std::max(40.0, width_ - toEndName - widest - 4 - left_);
    right_ = std::max(right_, width_ - left_ - before / share);
    inner_ = std::max(inner_, heightOf(names));
  }

  const Plot& plot_;
  double width_;
  double left_ = 0;
  double right_ = endMargin;
  double inner_ = 0;
};

} // namespace gk::reports
