#include "reports/print/plot_names.h"

#include <algorithm>
#include <array>
#include <limits>
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

double sharedArea(const PageBox& one, const PageBox& other) {
  const double wide = std::min(one.right, other.right) - std::max(one.left, other.left);
  const double high = std::min(one.bottom, other.bottom) - std::max(one.top, other.top);
  return wide > 0 && high > 0 ? wide * high : 0;
}

bool isInside(const PageBox& box, const PageBox& within) {
  return box.left >= within.left && box.right <= within.right && box.top >= within.top &&
         box.bottom <= within.bottom;
}

/// So far away on that side: 1 is right or down, -1 left or up, 0 in the middle.
PageBox boxBeside(const PlotPoint& of, const PlotPoint& side, double away, double wide,
                  double high) {
  const double left = side.x > 0 ? of.x + away : side.x < 0 ? of.x - away - wide : of.x - wide / 2;
  const double upper = side.y > 0 ? of.y + away : side.y < 0 ? of.y - away - high : of.y - high / 2;
  return {left, upper, left + wide, upper + high};
}

/// Of all places about the point the first that is free, from the nearest outward.
PageBox placeBeside(const PlotPoint& of, double wide, double high, const PageBox& within,
                    const std::vector<PageBox>& taken) {
  constexpr std::array<PlotPoint, 8> sides{
      {{1, 0}, {-1, 0}, {0, -1}, {0, 1}, {1, -1}, {1, 1}, {-1, -1}, {-1, 1}}};
  constexpr int rings = 12;
  const auto inX = std::clamp(of.x, within.left, std::max(within.left, within.right - wide));
  const auto inY = std::clamp(of.y, within.top, std::max(within.top, within.bottom - high));
  PageBox best{inX, inY, inX + wide, inY + high};
  double least = std::numeric_limits<double>::infinity();
  for (int ring = 0; ring < rings; ++ring)
    for (const auto& side : sides) {
      const auto box = boxBeside(of, side, besidePoint + ring * endNameRow, wide, high);
      if (!isInside(box, within)) continue;
      double shared = 0;
      for (const auto& other : taken)
        shared += sharedArea(box, other);
      if (shared >= least) continue;
      least = shared;
      best = box;
      if (shared == 0) return best;
    }
  return best;
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

std::vector<BesidePoint> besidePoints(const std::vector<NamedPoint>& points,
                                      const PageBox& within) {
  constexpr double radius = 6;
  constexpr double widest = 0.3; // of the room
  std::vector<PageBox> taken;
  for (const auto& [at, name] : points)
    taken.push_back({at.x - radius, at.y - radius, at.x + radius, at.y + radius});
  std::vector<BesidePoint> placed;
  for (const auto& [at, name] : points) {
    if (name.empty()) continue;
    const EndName words{at, inRows(name, widest * (within.right - within.left))};
    const auto box = placeBeside(at, words.width(), words.height(), within, taken);
    taken.push_back(box);
    placed.push_back({at, words.rows, box});
  }
  return placed;
}

} // namespace gk::reports
