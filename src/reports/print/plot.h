#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace gk::reports {

struct PlotPoint {
  double x;
  double y;
  bool operator==(const PlotPoint&) const = default;
};

/// Told apart by shape and dash, never by color alone: a plot is often printed in gray.
enum class PlotMark {
  line,
  dashed,
  dotted,
  step, ///< level to the next point, then up or down
  dots,
  rings,
  bars,   ///< from `points` to `ends`, along y; with a tick at each end
  area,   ///< between `points` and `ends`
  blocks, ///< full from the low end of x to `points`, one a row
  gaps,   ///< empty and dashed from `points` to `ends`, one a row: what is missing
};

struct PlotSeries {
  std::string label; ///< at the end of a line over named places, else in the key; empty for none
  PlotMark mark;
  std::vector<PlotPoint> points;
  std::vector<PlotPoint> ends{}; ///< of bars, gaps and area; as many as points
  /// What stands beside each point; at the right of its row, where rows have names.
  std::vector<std::string> said{};
  bool operator==(const PlotSeries&) const = default;
};

struct PlotAxis {
  std::string label;
  double low;
  double high;
  /// Names in place of numbers, the first at 0; from the top down on the y axis, from the left on
  /// the x axis.
  std::vector<std::string> names{};
  bool isDrawn = true; ///< else neither line nor numbers: what is said beside each point is enough
  bool operator==(const PlotAxis&) const = default;
};

/// A y axis with room for every row, each at its own whole number.
PlotAxis namedRows(std::vector<std::string> names);

/// Numbers below the axis, each under its x: how many a curve still rests on there.
struct PlotCounts {
  std::string label;
  std::vector<std::pair<double, std::string>> counts;
  bool operator==(const PlotCounts&) const = default;
};

/// A picture as a value, which stands beside the table it is drawn from.
struct Plot {
  std::string says; ///< one sentence: what it shows
  PlotAxis x;
  PlotAxis y;
  std::vector<PlotSeries> series;
  std::optional<PlotCounts> below{};
  bool operator==(const Plot&) const = default;
};

/// In units; words are 12 of them high. Rows with names have their own height.
struct PlotSize {
  double width = 640;
  double height = 250; ///< within the axes
};

/// What a picture is drawn in. These are of paper: their grays are as far apart as they are.
struct PlotColors {
  std::string ink = "#10201B";    ///< words, axes, what is compared with
  std::string quiet = "#5A6A64";  ///< second lines
  std::string main = "#0A6B5E";   ///< what the picture is about
  std::string soft = "#D3EBE3";   ///< areas
  std::string ground = "#FFFFFF"; ///< inside rings, and words on blocks
};

/// SVG 1.1 in what SVG Tiny 1.2 shares with it, so many units wide: the one drawing for screen, web
/// page and paper. Points outside the axes are left out.
std::string toSvg(const Plot& plot, PlotSize size = {}, const PlotColors& colors = {});

/// Round numbers about `wanted` of them that cover low to high, both ends within.
std::vector<double> ticks(double low, double high, int wanted = 6);

} // namespace gk::reports
