#include "base/text/text.h"
#include "reports/print/plot.h"
#include "reports/print/plot_frame.h"
#include "reports/print/plot_names.h"
#include "reports/print/render.h"

#include <algorithm>
#include <cmath>
#include <ranges>

namespace gk::reports {

namespace {

constexpr double top = PlotFrame::top;
constexpr double keyHeight = 18;
constexpr double countsHeight = 18;

std::string at(double value) {
  return base::fixed(value, 1);
}

std::string shown(double value) {
  const double rounded = std::round(value);
  return base::fixed(std::abs(value) < 1e-9 ? 0 : value,
                     std::abs(value - rounded) < 1e-9 ? 0 : (std::abs(value) < 1 ? 2 : 1));
}

/// Pieces of the drawing.
class Drawing {
 public:
  Drawing(const Plot& plot, const PlotFrame& frame, const PlotColors& colors)
      : plot_(plot), frame_(frame), colors_(colors) {}

  [[nodiscard]] std::string whole() const {
    std::string out;
    for (const auto& series : plot_.series)
      if (isBelowAxes(series.mark)) out += drawn(series);
    out += axes();
    for (const auto& series : plot_.series)
      if (!isBelowAxes(series.mark)) out += drawn(series);
    for (const auto& series : plot_.series)
      out += said(series);
    return out + beside() + named() + counts() + key();
  }

  [[nodiscard]] double keyTop() const {
    double y = frame_.lowerEdge();
    if (plot_.x.isDrawn) y += plot_.x.label.empty() ? 26 : 44;
    return plot_.below ? y + countsHeight : y;
  }
  [[nodiscard]] double height() const {
    const auto places = keyPlaces();
    return keyTop() + (places.empty() ? 0 : places.back().y + keyHeight) + 6;
  }

 private:
  static bool isBelowAxes(PlotMark mark) {
    return mark == PlotMark::area || mark == PlotMark::blocks || mark == PlotMark::gaps;
  }

  static std::string line(double x1, double y1, double x2, double y2, const std::string& color,
                          const std::string& more = "") {
    return "<line x1=\"" + at(x1) + "\" y1=\"" + at(y1) + "\" x2=\"" + at(x2) + "\" y2=\"" +
           at(y2) + "\" stroke=\"" + color + "\" " + more + "/>\n";
  }
  [[nodiscard]] std::string words(double x, double y, const std::string& text,
                                  const std::string& anchor, const std::string& more = "") const {
    return "<text x=\"" + at(x) + "\" y=\"" + at(y) + "\" text-anchor=\"" + anchor + "\" " +
           (more.find("fill=") == std::string::npos ? "fill=\"" + colors_.ink + "\" " : "") + more +
           ">" + escaped(text) + "</text>\n";
  }

  static std::string dashOf(PlotMark mark) {
    if (mark == PlotMark::dashed) return "stroke-dasharray=\"7 4\" ";
    if (mark == PlotMark::dotted) return "stroke-dasharray=\"2 3\" ";
    return "";
  }
  [[nodiscard]] const std::string& colorOf(PlotMark mark) const {
    if (mark == PlotMark::dashed) return colors_.ink;
    return mark == PlotMark::dotted ? colors_.quiet : colors_.main;
  }

  [[nodiscard]] std::string circle(double x, double y, PlotMark mark) const {
    return "<circle cx=\"" + at(x) + "\" cy=\"" + at(y) + "\" r=\"4.2\" fill=\"" +
           (mark == PlotMark::rings ? colors_.ground : colors_.main) + "\" stroke=\"" +
           colors_.main + "\" stroke-width=\"1.6\"/>\n";
  }
  [[nodiscard]] std::string dots(const PlotSeries& series) const {
    std::string out;
    for (const auto& point : series.points)
      if (frame_.holds(point)) out += circle(frame_.x(point.x), frame_.y(point.y), series.mark);
    return out;
  }

  [[nodiscard]] std::string path(const PlotSeries& series) const {
    if (series.points.size() == 1) return dots(series); // a line of one point is not seen
    std::string d;
    std::optional<PlotPoint> before;
    for (const auto& point : series.points) {
      if (!frame_.holds(point)) continue;
      if (before && series.mark == PlotMark::step)
        d += " L " + at(frame_.x(point.x)) + " " + at(frame_.y(before->y));
      d += (before ? " L " : "M ") + at(frame_.x(point.x)) + " " + at(frame_.y(point.y));
      before = point;
    }
    if (d.empty()) return "";
    return "<path d=\"" + d + "\" fill=\"none\" stroke=\"" + colorOf(series.mark) +
           "\" stroke-width=\"2\" " + dashOf(series.mark) + "/>\n";
  }

  [[nodiscard]] std::string area(const PlotSeries& series) const {
    std::string d;
    for (const auto& point : series.points)
      d += (d.empty() ? "M " : " L ") + at(frame_.x(point.x)) + " " + at(frame_.y(point.y));
    for (const auto& point : series.ends | std::views::reverse)
      d += " L " + at(frame_.x(point.x)) + " " + at(frame_.y(point.y));
    if (d.empty()) return "";
    return "<path d=\"" + d + " Z\" fill=\"" + colors_.soft + "\" stroke=\"none\"/>\n";
  }

  [[nodiscard]] std::string bars(const PlotSeries& series) const {
    std::string out;
    const std::string thick = "stroke-width=\"2\" ";
    for (std::size_t i = 0; i < series.points.size() && i < series.ends.size(); ++i) {
      const double x1 = frame_.x(series.points[i].x);
      const double x2 = frame_.x(series.ends[i].x);
      const double y1 = frame_.y(series.points[i].y);
      const double y2 = frame_.y(series.ends[i].y);
      const double tickX = y1 == y2 ? 0 : 4;
      const double tickY = y1 == y2 ? 4 : 0;
      out += line(x1, y1, x2, y2, colors_.main, thick);
      for (const auto& [x, y] : {PlotPoint{x1, y1}, PlotPoint{x2, y2}})
        out += line(x - tickX, y - tickY, x + tickX, y + tickY, colors_.main, thick);
    }
    return out;
  }

  [[nodiscard]] std::string box(double from, double to, double row, const std::string& more) const {
    return "<rect x=\"" + at(from) + "\" y=\"" + at(frame_.y(row) - 8) + "\" width=\"" +
           at(std::max(1.5, to - from)) + "\" height=\"16\" rx=\"2.5\" " + more + "/>\n";
  }
  [[nodiscard]] std::string blocks(const PlotSeries& series) const {
    std::string out;
    for (const auto& point : series.points)
      if (frame_.holds(point))
        out += box(frame_.left(), frame_.x(point.x), point.y, "fill=\"" + colors_.main + "\"");
    return out;
  }
  [[nodiscard]] std::string gaps(const PlotSeries& series) const {
    std::string out;
    for (std::size_t i = 0; i < series.points.size() && i < series.ends.size(); ++i)
      out += box(frame_.x(series.points[i].x), frame_.x(series.ends[i].x), series.points[i].y,
                 "fill=\"none\" stroke=\"" + colors_.quiet + "\" stroke-dasharray=\"4 3\"");
    return out;
  }

  [[nodiscard]] std::string drawn(const PlotSeries& series) const {
    switch (series.mark) {
    case PlotMark::line:
    case PlotMark::dashed:
    case PlotMark::dotted:
    case PlotMark::step:
      return path(series);
    case PlotMark::dots:
    case PlotMark::rings:
      return dots(series);
    case PlotMark::bars:
      return bars(series);
    case PlotMark::area:
      return area(series);
    case PlotMark::blocks:
      return blocks(series);
    case PlotMark::gaps:
      return gaps(series);
    }
    return "";
  }

  [[nodiscard]] std::string said(const PlotSeries& series) const {
    std::string out;
    const std::string bold = "font-weight=\"600\" ";
    auto count = std::min(series.said.size(), series.points.size());
    if (count == series.points.size() && isNamedAtEnd(plot_, series)) --count; // with its name
    for (std::size_t i = 0; i < count; ++i) {
      const auto& point = series.points[i];
      if (!plot_.x.names.empty()) // beside its bar, which stands upright
        out += words(frame_.x(point.x) + 9, frame_.y(point.y) + 4, series.said[i], "start", bold);
      else if (hasRows(plot_))
        out += words(frame_.rightEdge() + 8, frame_.y(point.y) + 4, series.said[i], "start");
    }
    return out;
  }

  /// Between axes of numbers: the name of each point beside it, with a thin line where others took
  /// its place, on the ground's own color, since lines go by.
  [[nodiscard]] std::string beside() const {
    if (hasRows(plot_) || !plot_.x.names.empty()) return "";
    std::vector<NamedPoint> points;
    for (const auto& series : plot_.series)
      for (std::size_t i = 0; i < series.said.size() && i < series.points.size(); ++i)
        if (frame_.holds(series.points[i]))
          points.push_back(
              {{frame_.x(series.points[i].x), frame_.y(series.points[i].y)}, series.said[i]});
    const PageBox room{frame_.left() + 4, 2, frame_.width() - 2, frame_.lowerEdge() - 3};
    std::string out;
    for (const auto& name : besidePoints(points, room)) {
      const auto& [left, upper, right, lower] = name.box;
      const PlotPoint near{std::clamp(name.of.x, left, right), std::clamp(name.of.y, upper, lower)};
      if (std::hypot(near.x - name.of.x, near.y - name.of.y) > 2 * besidePoint)
        out += line(name.of.x, name.of.y, near.x, near.y, colors_.quiet, "stroke-width=\"0.8\" ");
      out += "<rect x=\"" + at(left) + "\" y=\"" + at(upper) + "\" width=\"" + at(right - left) +
             "\" height=\"" + at(lower - upper) + "\" fill=\"" + colors_.ground + "\"/>\n";
      double y = upper + 11;
      for (const auto& row : name.rows) {
        out += words(left, y, row, "start");
        y += endNameRow;
      }
    }
    return out;
  }

  /// The name of each line at its end, and a thin line to it, since names move aside.
  [[nodiscard]] std::string named() const {
    const auto names = endNames(plot_, frame_.width() * PlotFrame::widestEndName);
    std::vector<double> middles;
    double left = 0;
    for (const auto& name : names) {
      middles.push_back(frame_.y(name.end.y));
      left = std::max(left, frame_.x(name.end.x) + PlotFrame::toEndName);
    }
    const auto tops = topsApart(names, middles, top - endNameRow / 2, frame_.lowerEdge());
    std::string out;
    for (std::size_t i = 0; i < names.size(); ++i) {
      out += line(frame_.x(names[i].end.x) + 6, middles[i], left - 3,
                  tops[i] + names[i].height() / 2, colors_.quiet, "stroke-width=\"0.8\" ");
      double y = tops[i] + 11;
      for (const auto& row : names[i].rows) {
        out += words(left, y, row, "start");
        y += endNameRow;
      }
    }
    return out;
  }

  [[nodiscard]] std::string axes() const {
    std::string out;
    const auto& axis = colors_.quiet;
    const double low = frame_.lowerEdge();
    if (plot_.x.isDrawn) out += line(frame_.left(), low, frame_.rightEdge(), low, axis);
    if (plot_.y.isDrawn) out += line(frame_.left(), top, frame_.left(), low, axis);
    if (plot_.x.isDrawn && plot_.x.names.empty()) {
      for (const double tick : ticks(plot_.x.low, plot_.x.high, frame_.width() < 500 ? 4 : 6)) {
        out += line(frame_.x(tick), low, frame_.x(tick), low + 4, axis);
        out += words(frame_.x(tick), low + 17, shown(tick), "middle");
      }
    }
    // As many as have room beside each other.
    const auto step = plot_.x.names.size() / 9 + 1;
    for (std::size_t i = 0; i < plot_.x.names.size(); i += step)
      out += words(frame_.x(static_cast<double>(i)), low + 18, plot_.x.names[i], "middle");
    if (!hasRows(plot_) && plot_.y.isDrawn) {
      for (const double tick : ticks(plot_.y.low, plot_.y.high)) {
        out += line(frame_.left() - 4, frame_.y(tick), frame_.left(), frame_.y(tick), axis);
        out += words(frame_.left() - 7, frame_.y(tick) + 4, shown(tick), "end");
      }
    }
    for (std::size_t i = 0; i < plot_.y.names.size(); ++i)
      out +=
          words(frame_.left() - 7, frame_.y(static_cast<double>(i)) + 4, plot_.y.names[i], "end");
    if (!plot_.x.label.empty())
      out += words((frame_.left() + frame_.rightEdge()) / 2, low + 36, plot_.x.label, "middle");
    if (!plot_.y.label.empty())
      out += "<text transform=\"translate(12 " + at((top + low) / 2) +
             ") rotate(-90)\" text-anchor=\"middle\" fill=\"" + colors_.ink + "\">" +
             escaped(plot_.y.label) + "</text>\n";
    return out;
  }

  [[nodiscard]] std::string counts() const {
    if (!plot_.below) return "";
    const double y = keyTop() - 6;
    std::string out = words(frame_.left() - 7, y, plot_.below->label, "end");
    for (const auto& [x, count] : plot_.below->counts)
      out += words(frame_.x(x), y, count, "middle");
    return out;
  }

  [[nodiscard]] bool isInKey(const PlotSeries& series) const {
    return !series.label.empty() && !isNamedAtEnd(plot_, series);
  }
  /// Where each label of the key stands, from the left, in as many rows as it takes.
  [[nodiscard]] std::vector<PlotPoint> keyPlaces() const {
    std::vector<PlotPoint> places;
    double x = frame_.left();
    double y = 0;
    for (const auto& series : plot_.series) {
      if (!isInKey(series)) continue;
      const double wide = 36 + drawnWidth(series.label) + 18;
      if (x > frame_.left() && x + wide - 18 > frame_.width()) {
        x = frame_.left();
        y += keyHeight;
      }
      places.push_back({x, y});
      x += wide;
    }
    return places;
  }

  /// A short piece of the mark, and its label behind it.
  [[nodiscard]] std::string key() const {
    std::string out;
    const auto places = keyPlaces();
    auto place = places.begin();
    for (const auto& series : plot_.series) {
      if (!isInKey(series)) continue;
      const double left = place->x;
      const double middle = keyTop() + place->y + keyHeight / 2;
      ++place;
      if (series.mark == PlotMark::area || series.mark == PlotMark::blocks)
        out += "<rect x=\"" + at(left) + "\" y=\"" + at(middle - 5) +
               "\" width=\"28\" height=\"10\" fill=\"" +
               (series.mark == PlotMark::area ? colors_.soft : colors_.main) + "\"/>\n";
      else if (series.mark == PlotMark::dots || series.mark == PlotMark::rings)
        out += circle(left + 14, middle, series.mark);
      else
        out += line(left, middle, left + 28, middle, colorOf(series.mark),
                    "stroke-width=\"2\" " + dashOf(series.mark));
      out += words(left + 36, middle + 4, series.label, "start");
    }
    return out;
  }

  const Plot& plot_;
  const PlotFrame& frame_;
  const PlotColors& colors_;
};

} // namespace

std::string toSvg(const Plot& plot, PlotSize size, const PlotColors& colors) {
  const PlotFrame frame(plot, size);
  const Drawing drawing(plot, frame, colors);
  const auto height = at(drawing.height());
  return "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 " + at(size.width) + " " +
         height + "\" width=\"" + at(size.width) + "\" height=\"" + height +
         "\" role=\"img\" font-family=\"Inter\" font-size=\"12\">\n<title>" + escaped(plot.says) +
         "</title>\n" + drawing.whole() + "</svg>\n";
}

} // namespace gk::reports
