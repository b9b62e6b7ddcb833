#include "reports/print/plot_names.h"

#include <algorithm>
#include <numeric>
#include <ranges>
#include <sstream>

namespace gk::reports {

namespace {

constexpr double lettersAPoint = 6.6; ///< about the width of a letter at 12 units
constexpr double namesApart = 2;

std::vector<std::string> inRows(const std::string& words, double widest) {
  std::vector<std::string> rows;
  std::istringstream all(words);
  for (std::string word; all >> word;) {
    if (!rows.empty() && drawnWidth(rows.back() + ' ' + word) <= widest)
      rows.back() += ' ' + word;
    else
      rows.push_back(word);
  }
  return rows;
}

} // namespace

bool isOnAxes(const Plot& plot, const PlotPoint& point) {
  return point.x >= plot.x.low && point.x <= plot.x.high && point.y >= plot.y.low &&
         point.y <= plot.y.high;
}

double drawnWidth(const std::string& words) {
  return lettersAPoint * static_cast<double>(words.size());
}

double EndName::width() const {
  double widest = 0;
  for (const auto& row : rows)
    widest = std::max(widest, drawnWidth(row));
  return widest;
}

double EndName::height() const {
  return endNameRow * static_cast<double>(rows.size());
}

bool isNamedAtEnd(const Plot& plot, const PlotSeries& series) {
  if (plot.x.names.empty() || series.label.empty() || series.points.empty()) return false;
  const bool isLine = series.mark == PlotMark::line || series.mark == PlotMark::dashed ||
                      series.mark == PlotMark::dotted || series.mark == PlotMark::dots ||
                      series.mark == PlotMark::rings;
  return isLine && isOnAxes(plot, series.points.back());
}

std::vector<EndName> endNames(const Plot& plot, double widest) {
  std::vector<EndName> names;
  for (const auto& series : plot.series) {
    if (!isNamedAtEnd(plot, series)) continue;
    const bool isSaid = series.said.size() == series.points.size();
    const auto words = isSaid ? series.said.back() + ' ' + series.label : series.label;
    names.push_back({series.points.back(), inRows(words, widest)});
  }
  return names;
}

double heightOf(const std::vector<EndName>& names) {
  double high = 0;
  for (const auto& name : names)
    high += name.height() + namesApart;
  return high;
}

std::vector<double> topsApart(const std::vector<EndName>& names, const std::vector<double>& middles,
                              double low, double high) {
  std::vector<std::size_t> order(names.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::ranges::stable_sort(order, {}, [&](std::size_t i) { return middles[i]; });
  std::vector<double> tops(names.size());
  // Up from the lower end, so that the last has room, and then down, so that none is over another.
  double room = high;
  for (const auto i : order | std::views::reverse) {
    tops[i] = std::min(middles[i] - names[i].height() / 2, room - names[i].height());
    room = tops[i] - namesApart;
  }
  double free = low;
  for (const auto i : order) {
    tops[i] = std::max(tops[i], free);
    free = tops[i] + names[i].height() + namesApart;
  }
  return tops;
}

} // namespace gk::reports
