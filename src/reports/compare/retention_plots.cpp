#include "reports/compare/retention_plots.h"

#include "base/text/text.h"
#include "reports/records/words.h"
#include "reports/retention/factor_words.h"

#include <algorithm>
#include <cmath>

namespace gk::reports {

namespace {

constexpr double hundred = 100;

/// A round number at or under the least of them, in percent.
double floorOf(double least) {
  return std::max(0.0, std::floor(least / 10) * 10);
}

std::string inWords(Factor factor) {
  auto words = headingOf(factor);
  words.front() = static_cast<char>(words.front() - 'A' + 'a');
  return factor == Factor::school ? "placing school" : words;
}

/// Limits of the funnel over the numbers of teeth that are met.
void addLimits(Plot& plot, const FactorComparison& compared, double most) {
  PlotSeries inner{"95% control limits", PlotMark::dashed, {}};
  PlotSeries innerLow{"", PlotMark::dashed, {}};
  PlotSeries outer{"99.8% control limits", PlotMark::dotted, {}};
  PlotSeries outerLow{"", PlotMark::dotted, {}};
  const double theta = compared.total.whole95->estimate;
  for (double teeth = std::max(5.0, most / 60); teeth <= plot.x.high; teeth += most / 60) {
    const auto limits = estimates::funnelLimits(theta, teeth / compared.designEffect);
    if (!limits) continue;
    inner.points.push_back({teeth, hundred * limits->high});
    innerLow.points.push_back({teeth, hundred * limits->low});
    outer.points.push_back({teeth, hundred * limits->farHigh});
    outerLow.points.push_back({teeth, hundred * limits->farLow});
  }
  plot.series.insert(plot.series.end(), {inner, innerLow, outer, outerLow});
}

} // namespace

std::optional<Plot> linesPlot(const std::vector<RetentionLine>& lines, Factor factor,
                              const RetentionLine& total) {
  if (!total.whole95) return std::nullopt;
  std::vector<std::string> names;
  PlotSeries ranges{"95% CI", PlotMark::bars, {}};
  PlotSeries shares{"% fully retained", PlotMark::dots, {}};
  const double whole = hundred * total.whole95->estimate;
  double least = whole;
  for (const auto& line : lines) {
    const auto range = line.whole95 ? printedRange(*line.whole95) : std::nullopt;
    if (!range) continue;
    const auto row = static_cast<double>(names.size());
    names.push_back(line.label);
    ranges.points.push_back({hundred * range->low, row});
    ranges.ends.push_back({hundred * range->high, row});
    shares.points.push_back({hundred * line.whole95->estimate, row});
    shares.said.push_back(base::fixed(hundred * line.whole95->estimate, 1) + " of " +
                          std::to_string(line.assessable));
    least = std::min(least, hundred * range->low);
  }
  if (names.size() < 2) return std::nullopt;
  const auto axis = namedRows(std::move(names));
  return Plot{"Assessed sealants fully retained, by " + inWords(factor) + ", against " +
                  base::fixed(whole, 1) + "% of all (dashed).",
              {"Fully retained, % of assessable", floorOf(least), hundred},
              axis,
              {{"all of these together", PlotMark::dashed, {{whole, axis.low}, {whole, axis.high}}},
               ranges,
               shares}};
}

std::optional<Plot> rangePlot(const FactorComparison& compared) {
  std::vector<RetentionLine> lines;
  for (const auto& value : compared.values)
    lines.push_back(value.line);
  return linesPlot(lines, compared.factor, compared.total);
}

std::optional<Plot> funnelPlot(const FactorComparison& compared) {
  if (!compared.total.whole95) return std::nullopt;
  PlotSeries points{"each " + inWords(compared.factor), PlotMark::dots, {}};
  double most = 0;
  double least = hundred;
  for (const auto& value : compared.values) {
    if (value.line.hidden || value.line.assessable == 0) continue;
    const double teeth = value.line.assessable;
    const double share = hundred * value.line.whole / teeth;
    points.points.push_back({teeth, share});
    points.said.push_back(value.line.label);
    most = std::max(most, teeth);
    least = std::min(least, share);
  }
  if (points.points.size() < 2) return std::nullopt;
  const double whole = hundred * compared.total.whole95->estimate;
  Plot plot{"Each " + inWords(compared.factor) +
                " by its number of teeth: a point outside the dashed lines needs a closer "
                "look: chance alone seldom puts it there.",
            {"Assessable teeth", 0, most * 1.1},
            {"Fully retained, %", floorOf(least - 10), hundred},
            {{"program average", PlotMark::line, {{0, whole}, {most * 1.1, whole}}}}};
  addLimits(plot, compared, most);
  plot.series.push_back(points);
  return plot;
}

std::optional<Plot> curvePlot(const RetentionCurve& usual, const RetentionCurve& worst) {
  if (!usual.curve || usual.looks.empty() || usual.looks.back() <= 0) return std::nullopt;
  const auto read = [&](const RetentionCurve& curve, bool low) {
    std::vector<PlotPoint> points;
    for (int i = 0; i <= 240; ++i) {
      const double year = usual.looks.back() * i / 240;
      const auto at = curve.survivalAt(year);
      points.push_back({year, hundred * (low ? at.low : at.high)});
    }
    return points;
  };
  PlotSeries between{"not known between", PlotMark::area, read(usual, false)};
  between.ends = read(usual, true);
  PlotSeries band{"95% band at the years of the table", PlotMark::bars, {}};
  double least = hundred * usual.curve->survivalAt(usual.looks.back()).low;
  for (const auto& at : usual.readings) {
    if (!at.band) continue;
    band.points.push_back({at.year, hundred * at.band->low});
    band.ends.push_back({at.year, hundred * at.band->high});
    least = std::min(least, hundred * at.band->low);
  }
  Plot plot{"Sealants still fully retained by years since placement, from " +
                counted(usual.checks, "check", "checks") + ".",
            {"Years since placement", 0, std::ceil(usual.looks.back() * 4) / 4},
            {"Still fully retained, %", floorOf(least), hundred},
            {between,
             {"at most, and at least", PlotMark::line, read(usual, false)},
             {"", PlotMark::line, read(usual, true)},
             band}};
  plot.below = PlotCounts{"Followed", {}};
  for (const auto& at : usual.readings)
    if (at.year <= plot.x.high)
      plot.below->counts.emplace_back(at.year, std::to_string(at.followed));
  if (worst.curve)
    plot.series.push_back({"worst case, at least", PlotMark::dotted, read(worst, true)});
  return plot;
}

} // namespace gk::reports
