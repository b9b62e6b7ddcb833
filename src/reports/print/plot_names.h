#pragma once

#include "reports/print/plot.h"

namespace gk::reports {

/// About as wide as these words are in a picture.
double drawnWidth(const std::string& words);

/// What lies outside the axes is left out.
bool isOnAxes(const Plot& plot, const PlotPoint& point);

/// What a line over named places, such as terms, is called beside its last point; with what is said
/// of that point, if anything is.
struct EndName {
  PlotPoint end;
  std::vector<std::string> rows; ///< none is wider than asked, but for a single word

  [[nodiscard]] double width() const;
  [[nodiscard]] double height() const;
};

inline constexpr double endNameRow = 14;

/// Lines and dots over named places have their names at their ends; all others are in the key.
bool isNamedAtEnd(const Plot& plot, const PlotSeries& series);
std::vector<EndName> endNames(const Plot& plot, double widest);

/// As high as all of them are below each other.
double heightOf(const std::vector<EndName>& names);

/// The top of each, as near to `middles` as can be without one over another or above `low`; past
/// `high` only where they do not fit. In the order of `names`.
std::vector<double> topsApart(const std::vector<EndName>& names, const std::vector<double>& middles,
                              double low, double high);

/// Between axes of numbers: a point in units of the page, and its name; none is only kept free.
struct NamedPoint {
  PlotPoint at;
  std::string name;
};

struct PageBox {
  double left;
  double top;
  double right;
  double bottom;
};

/// A name beside its point; further off where others took its place.
struct BesidePoint {
  PlotPoint of;
  std::vector<std::string> rows;
  PageBox box;
};

inline constexpr double besidePoint = 8; ///< from its middle to its name

/// In the order of the points that have one. None is over a point or another name, or outside
/// `within`, as long as there is a place left.
std::vector<BesidePoint> besidePoints(const std::vector<NamedPoint>& points, const PageBox& within);

} // namespace gk::reports
