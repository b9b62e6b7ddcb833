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

} // namespace gk::reports
