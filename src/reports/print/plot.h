#pragma once

#include <optional>
#include <string>
#include <vector>

namespace gk::reports {

struct PlotPoint {
  double x;
  double y;
  bool operator==(const PlotPoint&) const = default;
};

/// Told apart by shape and dash, never by colour: a plot is printed in greyscale.
enum class PlotMark {
  line,
  dashed,
  dotted,
  step, ///< level to the next point, then up or down
  dots,
  rings,
  bars, ///< from `points` to `ends`, along y; with a tick at each end
  area, ///< between `points` and `ends`
};

struct PlotSeries {
  std::string label; ///< in the key; empty for none
  PlotMark mark;
  std::vector<PlotPoint> points;
  std::vector<PlotPoint> ends{}; ///< of bars and area; as many as points
  bool operator==(const PlotSeries&) const = default;
};

struct PlotAxis {
  std::string label;
  double low;
  double high;
  /// Names in place of numbers, the first at 0; from the top down on the y axis, from the left on
  /// the x axis.
  std::vector<std::string> names{};
  bool operator==(const PlotAxis&) const = default;
};

/// A y axis with room for every row, each at its own whole number.
PlotAxis namedRows(std::vector<std::string> names);

/// A picture as a value, which stands beside the table it is drawn from.
struct Plot {
  std::string says; ///< one sentence: what it shows
  PlotAxis x;
  PlotAxis y;
  std::vector<PlotSeries> series;
  bool operator==(const Plot&) const = default;
};

/// SVG 1.1 in what SVG Tiny 1.2 shares with it, 640 units wide: the one drawing for screen, web
/// page and paper. Points outside the axes are left out.
std::string toSvg(const Plot& plot);

/// Round numbers about `wanted` of them that cover low to high, both ends within.
std::vector<double> ticks(double low, double high, int wanted = 6);

} // namespace gk::reports
