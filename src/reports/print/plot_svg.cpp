#include "base/text.h"
#include "reports/print/plot.h"
#include "reports/print/render.h"

#include <algorithm>
#include <cmath>
#include <ranges>

namespace gk::reports {

namespace {

constexpr double width = 640;
constexpr double rightMargin = 14;
constexpr double top = 14;
constexpr double bottom = 46;
constexpr double rowHeight = 22;
constexpr double keyHeight = 18;
constexpr double lettersAPoint = 6.6; ///< about the width of a letter at 12 units

std::string at(double value) {
  return base::fixed(value, 1);
}

std::string shown(double value) {
  const double rounded = std::round(value);
  return base::fixed(std::abs(value) < 1e-9 ? 0 : value,
                     std::abs(value - rounded) < 1e-9 ? 0 : (std::abs(value) < 1 ? 2 : 1));
}

/// Where numbers lie on the page.
class Frame {
 public:
  explicit Frame(const Plot& plot) : plot_(plot) {
    std::size_t longest = 6;
    for (const auto& name : plot.y.names)
      longest = std::max(longest, name.size());
    left_ = 30 + lettersAPoint * static_cast<double>(std::min<std::size_t>(longest, 34));
    inner_ = plot.y.names.empty() ? 250 : rowHeight * static_cast<double>(plot.y.names.size());
  }

  [[nodiscard]] double left() const { return left_; }
  [[nodiscard]] double rightEdge() const { return width - rightMargin; }
  [[nodiscard]] double lowerEdge() const { return top + inner_; }
  [[nodiscard]] double x(double value) const {
    return left_ + (value - plot_.x.low) / (plot_.x.high - plot_.x.low) * (rightEdge() - left_);
  }
  [[nodiscard]] double y(double value) const {
    const double share = (value - plot_.y.low) / (plot_.y.high - plot_.y.low);
    return plot_.y.names.empty() ? lowerEdge() - share * inner_ : top + share * inner_;
  }
  [[nodiscard]] bool holds(const PlotPoint& point) const {
    return point.x >= plot_.x.low && point.x <= plot_.x.high && point.y >= plot_.y.low &&
           point.y <= plot_.y.high;
  }

 private:
  const Plot& plot_;
  double left_ = 0;
  double inner_ = 0;
};

std::string lineFrom(double x1, double y1, double x2, double y2, const std::string& more = "") {
  return "<line x1=\"" + at(x1) + "\" y1=\"" + at(y1) + "\" x2=\"" + at(x2) + "\" y2=\"" + at(y2) +
         "\" stroke=\"#000\" " + more + "/>\n";
}

std::string words(double x, double y, const std::string& text, const std::string& anchor) {
  return "<text x=\"" + at(x) + "\" y=\"" + at(y) + "\" text-anchor=\"" + anchor + "\">" +
         escaped(text) + "</text>\n";
}

std::string dashOf(PlotMark mark) {
  if (mark == PlotMark::dashed) return "stroke-dasharray=\"7 4\" ";
  if (mark == PlotMark::dotted) return "stroke-dasharray=\"2 3\" ";
  return "";
}

std::string dots(const Frame& frame, const PlotSeries& series) {
  std::string out;
  const std::string fill = series.mark == PlotMark::rings ? "#fff" : "#000";
  for (const auto& point : series.points)
    if (frame.holds(point))
      out += "<circle cx=\"" + at(frame.x(point.x)) + "\" cy=\"" + at(frame.y(point.y)) +
             "\" r=\"3.6\" fill=\"" + fill + "\" stroke=\"#000\" stroke-width=\"1.4\"/>\n";
  return out;
}

std::string path(const Frame& frame, const PlotSeries& series) {
  if (series.points.size() == 1) return dots(frame, series); // a line of one point is not seen
  std::string d;
  std::optional<PlotPoint> before;
  for (const auto& point : series.points) {
    if (!frame.holds(point)) continue;
    if (before && series.mark == PlotMark::step)
      d += " L " + at(frame.x(point.x)) + " " + at(frame.y(before->y));
    d += (before ? " L " : "M ") + at(frame.x(point.x)) + " " + at(frame.y(point.y));
    before = point;
  }
  if (d.empty()) return "";
  return "<path d=\"" + d + "\" fill=\"none\" stroke=\"#000\" stroke-width=\"1.6\" " +
         dashOf(series.mark) + "/>\n";
}

std::string area(const Frame& frame, const PlotSeries& series) {
  std::string d;
  for (const auto& point : series.points)
    d += (d.empty() ? "M " : " L ") + at(frame.x(point.x)) + " " + at(frame.y(point.y));
  for (const auto& point : series.ends | std::views::reverse)
    d += " L " + at(frame.x(point.x)) + " " + at(frame.y(point.y));
  if (d.empty()) return "";
  return "<path d=\"" + d + " Z\" fill=\"#d4d4d4\" stroke=\"none\"/>\n";
}

std::string bars(const Frame& frame, const PlotSeries& series) {
  std::string out;
  for (std::size_t i = 0; i < series.points.size() && i < series.ends.size(); ++i) {
    const double x1 = frame.x(series.points[i].x);
    const double x2 = frame.x(series.ends[i].x);
    const double y1 = frame.y(series.points[i].y);
    const double y2 = frame.y(series.ends[i].y);
    const double tickX = y1 == y2 ? 0 : 4;
    const double tickY = y1 == y2 ? 4 : 0;
    out += lineFrom(x1, y1, x2, y2, "stroke-width=\"1.6\" ");
    for (const auto& [x, y] : {PlotPoint{x1, y1}, PlotPoint{x2, y2}})
      out += lineFrom(x - tickX, y - tickY, x + tickX, y + tickY, "stroke-width=\"1.6\" ");
  }
  return out;
}

std::string drawn(const Frame& frame, const PlotSeries& series) {
  switch (series.mark) {
  case PlotMark::line:
  case PlotMark::dashed:
  case PlotMark::dotted:
  case PlotMark::step:
    return path(frame, series);
  case PlotMark::dots:
  case PlotMark::rings:
    return dots(frame, series);
  case PlotMark::bars:
    return bars(frame, series);
  case PlotMark::area:
    return area(frame, series);
  }
  return "";
}

std::string axes(const Frame& frame, const Plot& plot) {
  std::string out = lineFrom(frame.left(), frame.lowerEdge(), frame.rightEdge(), frame.lowerEdge());
  out += lineFrom(frame.left(), top, frame.left(), frame.lowerEdge());
  if (plot.x.names.empty()) {
    for (const double tick : ticks(plot.x.low, plot.x.high)) {
      out += lineFrom(frame.x(tick), frame.lowerEdge(), frame.x(tick), frame.lowerEdge() + 4);
      out += words(frame.x(tick), frame.lowerEdge() + 17, shown(tick), "middle");
    }
  }
  // As many as have room beside each other.
  const auto step = plot.x.names.size() / 9 + 1;
  for (std::size_t i = 0; i < plot.x.names.size(); i += step)
    out +=
        words(frame.x(static_cast<double>(i)), frame.lowerEdge() + 18, plot.x.names[i], "middle");
  if (plot.y.names.empty()) {
    for (const double tick : ticks(plot.y.low, plot.y.high)) {
      out += lineFrom(frame.left() - 4, frame.y(tick), frame.left(), frame.y(tick));
      out += words(frame.left() - 7, frame.y(tick) + 4, shown(tick), "end");
    }
  }
  for (std::size_t i = 0; i < plot.y.names.size(); ++i)
    out += words(frame.left() - 7, frame.y(static_cast<double>(i)) + 4, plot.y.names[i], "end");
  out +=
      words((frame.left() + frame.rightEdge()) / 2, frame.lowerEdge() + 36, plot.x.label, "middle");
  if (!plot.y.label.empty())
    out += "<text transform=\"translate(12 " + at((top + frame.lowerEdge()) / 2) +
           ") rotate(-90)\" text-anchor=\"middle\">" + escaped(plot.y.label) + "</text>\n";
  return out;
}

/// A short piece of the mark and its label, one under another.
std::string key(const Plot& plot, double from, double left) {
  std::string out;
  double y = from;
  for (const auto& series : plot.series) {
    if (series.label.empty()) continue;
    const double middle = y + keyHeight / 2;
    if (series.mark == PlotMark::area)
      out += "<rect x=\"" + at(left) + "\" y=\"" + at(middle - 5) +
             "\" width=\"28\" height=\"10\" fill=\"#d4d4d4\"/>\n";
    else if (series.mark == PlotMark::dots || series.mark == PlotMark::rings)
      out += "<circle cx=\"" + at(left + 14) + "\" cy=\"" + at(middle) + "\" r=\"3.6\" fill=\"" +
             (series.mark == PlotMark::rings ? "#fff" : "#000") +
             "\" stroke=\"#000\" stroke-width=\"1.4\"/>\n";
    else
      out +=
          lineFrom(left, middle, left + 28, middle, "stroke-width=\"1.6\" " + dashOf(series.mark));
    out += words(left + 36, middle + 4, series.label, "start");
    y += keyHeight;
  }
  return out;
}

} // namespace

PlotAxis namedRows(std::vector<std::string> names) {
  const auto last = static_cast<double>(names.size()) - 0.5;
  return {"", -0.5, last, std::move(names)};
}

std::vector<double> ticks(double low, double high, int wanted) {
  std::vector<double> out;
  if (!(high > low) || wanted < 1) return out;
  const double raw = (high - low) / wanted;
  const double power = std::pow(10.0, std::floor(std::log10(raw)));
  double step = 10 * power;
  for (const double nice : {1.0, 2.0, 5.0})
    if (nice * power >= raw) {
      step = nice * power;
      break;
    }
  for (double i = std::ceil(low / step - 1e-9); i * step <= high + step * 1e-9; ++i)
    out.push_back(i * step);
  return out;
}

std::string toSvg(const Plot& plot) {
  const Frame frame(plot);
  const auto labels = std::ranges::count_if(
      plot.series, [](const PlotSeries& series) { return !series.label.empty(); });
  const double keyTop = frame.lowerEdge() + bottom;
  const double height = keyTop + keyHeight * static_cast<double>(labels) + 6;
  std::string out = "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 " + at(width) + " " +
                    at(height) + "\" width=\"" + at(width) + "\" height=\"" + at(height) +
                    "\" role=\"img\" font-family=\"sans-serif\" font-size=\"12\">\n<title>" +
                    escaped(plot.says) + "</title>\n";
  for (const auto& series : plot.series)
    if (series.mark == PlotMark::area) out += drawn(frame, series);
  out += axes(frame, plot);
  for (const auto& series : plot.series)
    if (series.mark != PlotMark::area) out += drawn(frame, series);
  return out + key(plot, keyTop, frame.left()) + "</svg>\n";
}

} // namespace gk::reports
