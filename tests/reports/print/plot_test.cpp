#include "reports/print/plot.h"

#include "reports/compare/factor_comparison.h"
#include "reports/compare/retention_plots.h"
#include "reports/decay/tornado_plot.h"
#include "reports/print/render.h"
#include "reports/quality/light_plot.h"
#include "reports/sample.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <regex>

using namespace gk;
using namespace gk::reports;
using followup::Held;

namespace {

Plot twoPoints() {
  return {"Two points.",
          {"Teeth", 0, 100},
          {"Fully retained, %", 50, 100},
          {{"seen", PlotMark::dots, {{10, 60}, {90, 95}}},
           {"outside", PlotMark::dots, {{10, 20}}},
           {"way", PlotMark::step, {{0, 100}, {50, 80}}}}};
}

std::size_t countOf(const std::string& text, const std::string& part) {
  std::size_t found = 0;
  for (auto at = text.find(part); at != std::string::npos; at = text.find(part, at + 1))
    ++found;
  return found;
}

} // namespace

TEST_CASE("Ticks are round numbers within the ends") {
  CHECK(ticks(0, 100) == std::vector<double>{0, 20, 40, 60, 80, 100});
  CHECK(ticks(72, 100, 5) == std::vector<double>{80, 90, 100});
  CHECK(ticks(0, 1.1).size() >= 5);
  CHECK(ticks(5, 5).empty());
}

TEST_CASE("A plot is drawn without what lies outside its axes") {
  const auto svg = toSvg(twoPoints());
  CHECK(svg.starts_with("<svg "));
  CHECK(countOf(svg, "<circle ") == 2 + 2); // two points, and two in the key
  CHECK(svg.find(">-0<") == std::string::npos);
  CHECK(svg.find("Two points.") != std::string::npos);
}

TEST_CASE("Names stand along the lower axis in place of numbers, and a line of one point is seen") {
  const Plot plot{"Terms.",
                  {"", -0.5, 1.5, {"Fall 2025", "Spring 2026"}},
                  {"%", 0, 100},
                  {{"needing", PlotMark::dashed, {{1, 40}}}}};
  const auto svg = toSvg(plot);
  CHECK(svg.find(">Fall 2025</text>") != std::string::npos);
  CHECK(svg.find(">Spring 2026</text>") != std::string::npos);
  CHECK(svg.find(">0.50</text>") == std::string::npos);
  CHECK(svg.find("<circle") != std::string::npos);
}

TEST_CASE("Lines over terms are named once, at their ends, and no name is over another or cut") {
  const std::vector<std::string> names{"consented, of enrolled", "needing sealants, of screened",
                                       "sealed, of needing"};
  const double width = GENERATE(640.0, 531.0, 300.0); // of paper, of the overview, of less
  const double height = GENERATE(250.0, 60.0);
  const double gap = GENERATE(0.0, 1.0, 30.0); // between the ends
  Plot plot{"Terms.", {"", -0.5, 1.5, {"Fall 2025", "Fall 2026"}}, {"%", 0, 100}, {}};
  auto mark = PlotMark::line;
  double end = 99;
  for (const auto& name : names) {
    plot.series.push_back({name, mark, {{0, 40}, {1, end}}});
    mark = mark == PlotMark::line ? PlotMark::dashed : PlotMark::dotted;
    end -= gap;
  }
  plot.series.push_back(
      {"fully retained at one year", PlotMark::dots, {{0, 80}, {1, end}}, {}, {"80.0", "88.1"}});
  plot.series.push_back({"95% CI", PlotMark::bars, {{1, 70}}, {{1, 90}}});
  const auto svg = toSvg(plot, {width, height});
  INFO(width << " wide, ends " << gap << " apart: " << svg);
  std::string drawn;
  std::vector<double> rows; // where a row of a name stands
  double beyond = 0;
  const std::regex piece(
      "<text x=\"([0-9.]+)\" y=\"([0-9.-]+)\" text-anchor=\"start\" [^>]*>([^<]*)<");
  for (auto at = std::sregex_iterator(svg.begin(), svg.end(), piece); at != std::sregex_iterator();
       ++at) {
    const auto words = (*at)[3].str();
    drawn += words + ' ';
    if (words == "95% CI" || words == "80.0") continue; // the key, and an earlier term
    rows.push_back(std::stod((*at)[2].str()));
    beyond = std::max(beyond, std::stod((*at)[1].str()) + 6.6 * static_cast<double>(words.size()));
  }
  for (const auto& name : names)
    CHECK(countOf(drawn, name + ' ') == 1);
  CHECK(countOf(drawn, "88.1 fully retained at one year ") == 1);
  CHECK(countOf(drawn, "80.0 ") == 1);
  CHECK(countOf(drawn, "95% CI ") == 1);
  CHECK(beyond <= width);
  std::ranges::sort(rows);
  REQUIRE(rows.size() >= 4);
  for (std::size_t i = 1; i < rows.size(); ++i)
    CHECK(rows[i] - rows[i - 1] >= 12);
  const auto svgHeight = std::stod(svg.substr(svg.find("height=\"") + 8));
  CHECK(rows.back() < svgHeight);
}

TEST_CASE("What people wrote is escaped in a picture as in a table") {
  auto plot = twoPoints();
  plot.y.names = {"<b>&School"};
  CHECK(toSvg(plot).find("&lt;b&gt;&amp;School") != std::string::npos);
}

TEST_CASE("Only the colors of paper are used, and printed in grey each is told from its ground") {
  const PlotColors paper;
  const auto svg = toSvg(twoPoints());
  for (auto at = svg.find('#'); at != std::string::npos; at = svg.find('#', at + 1)) {
    const auto color = svg.substr(at, svg.find('"', at) - at);
    CHECK((color == paper.ink || color == paper.quiet || color == paper.main ||
           color == paper.soft || color == paper.ground));
  }
  const auto gray = [](const std::string& color) {
    const auto part = [&](std::size_t from) {
      return std::stoi(color.substr(from, 2), nullptr, 16);
    };
    return (299 * part(1) + 587 * part(3) + 114 * part(5)) / 1000;
  };
  CHECK(gray(paper.ground) - gray(paper.soft) > 20);
  CHECK(gray(paper.soft) - gray(paper.quiet) > 90);
  CHECK(gray(paper.quiet) - gray(paper.ink) > 50);
  CHECK(gray(paper.soft) - gray(paper.main) > 90);
}

TEST_CASE("What is said beside points, and the numbers at risk below, stand in the picture",
          "[case-335]") {
  auto plot = twoPoints();
  plot.series.front().said = {"60.0", "95.0"};
  plot.below = PlotCounts{"Followed", {{10, "587"}, {90, "12"}}};
  const auto svg = toSvg(plot);
  for (const auto* words : {">60.0</text>", ">95.0</text>", ">Followed</text>", ">587</text>"})
    CHECK(svg.find(words) != std::string::npos);
}

TEST_CASE(
    "Points between axes of numbers are named beside them, and no name is over another, over a "
    "point or cut") {
  const double width = GENERATE(640.0, 336.0);
  const auto names =
      GENERATE(std::vector<std::string>{"L-1", "L-2", "L-3", "L-4", "L-5", "L-6"},
               std::vector<std::string>{"Alder Hollow Elementary", "Brindle Quay Elementary",
                                        "Saint Brendan Regional Elementary and Middle School",
                                        "Dunlin Marsh School (K-8)"});
  const double apart = GENERATE(0.0, 1.0, 12.0); // in percent
  PlotSeries points{"each", PlotMark::dots, {}};
  for (std::size_t i = 0; i < names.size(); ++i)
    points.points.push_back({100, 99 - apart * static_cast<double>(i)}); // at the right end
  points.said = names;
  const Plot plot{"Points.",
                  {"Teeth", 0, 110},
                  {"%", 0, 100},
                  {{"average", PlotMark::line, {{0, 80}, {110, 80}}}, points}};
  const auto svg = toSvg(plot, {width});
  INFO(width << " wide, " << apart << " apart: " << svg);
  struct Box {
    double left, top, right, bottom;
  };
  std::vector<Box> boxes;
  const std::regex ground("<rect x=\"([0-9.]+)\" y=\"([0-9.]+)\" width=\"([0-9.]+)\" "
                          "height=\"([0-9.]+)\" fill=\"#FFFFFF\"");
  for (auto at = std::sregex_iterator(svg.begin(), svg.end(), ground); at != std::sregex_iterator();
       ++at) {
    const auto number = [&](std::size_t part) { return std::stod((*at)[part].str()); };
    boxes.push_back({number(1), number(2), number(1) + number(3), number(2) + number(4)});
  }
  REQUIRE(boxes.size() == names.size());
  constexpr double hair = 0.3; // numbers have one decimal
  for (std::size_t i = 0; i < boxes.size(); ++i) {
    const auto& one = boxes[i];
    CHECK(one.left >= 0);
    CHECK(one.right <= width);
    for (std::size_t j = 0; j < i; ++j) {
      const auto& other = boxes[j];
      CHECK((one.right <= other.left + hair || other.right <= one.left + hair ||
             one.bottom <= other.top + hair || other.bottom <= one.top + hair));
    }
  }
  const std::regex circle("<circle cx=\"([0-9.]+)\" cy=\"([0-9.]+)\"");
  std::size_t circles = 0;
  for (auto at = std::sregex_iterator(svg.begin(), svg.end(), circle);
       at != std::sregex_iterator() && circles < names.size(); ++at, ++circles)
    for (const auto& box : boxes) {
      const double x = std::stod((*at)[1].str());
      const double y = std::stod((*at)[2].str());
      CHECK_FALSE((x > box.left && x < box.right && y > box.top && y < box.bottom));
    }
  CHECK(circles == names.size());
  // Every word stands in the picture once.
  for (const auto& name : names)
    for (const auto* word : {"Brindle", "Regional", "L-5"})
      if (name.find(word) != std::string::npos) CHECK(countOf(svg, word) == 1);
}

TEST_CASE("A web page shows the picture with its sentence, and text the sentence") {
  Table table{"T", {{"A"}}, {{"1"}}, {}};
  table.plot = twoPoints();
  const auto page = toHtml("Report", std::vector{table});
  CHECK(page.find("<figcaption>Two points.</figcaption>") != std::string::npos);
  CHECK(page.find("<svg ") != std::string::npos);
  CHECK(toText(std::vector{table}).find("Two points.") != std::string::npos);
}

TEST_CASE("A funnel has a point for each value with teeth, and none is drawn for one value") {
  test::SampleTerm term;
  const auto then = term.dayLastYear(term.school("Alder", 100), "2025-10-14");
  const auto other = term.dayLastYear(term.school("Brindle", 100), "2025-10-15");
  const auto now = term.day(term.records.schools.front().id, "2026-10-13");
  for (int i = 0; i < 30; ++i) {
    term.check(term.place(term.child(term.records.schools.front().id), then, 16), now,
               i % 5 ? Held::whole : Held::lost);
    if (i < 12)
      term.check(term.place(term.child(term.records.schools.back().id), other, 26), now,
                 Held::whole);
  }
  const auto schools = compareFactor(RetentionFacts(term.records), Factor::school);
  const auto funnel = funnelPlot(schools);
  REQUIRE(funnel);
  CHECK(funnel->series.back().points.size() == 2);
  CHECK(funnel->series.back().said == std::vector<std::string>{"Alder", "Brindle"});
  for (const auto* name : {">Alder</text>", ">Brindle</text>"})
    CHECK(countOf(toSvg(*funnel), name) == 1);
  CHECK(rangePlot(schools)->y.names == std::vector<std::string>{"Alder", "Brindle"});
  CHECK_FALSE(funnelPlot(compareFactor(RetentionFacts(term.records), Factor::isolation)));
}
