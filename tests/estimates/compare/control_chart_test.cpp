#include "estimates/compare/control_chart.h"

#include "estimates/numbers/distributions.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <limits>

using namespace gk;
using namespace gk::estimates;

TEST_CASE("The chart reproduces the averages of the NIST handbook") {
  // NIST/SEMATECH e-Handbook of Statistical Methods, section 6.3.2.4: target 50, s 2.0539,
  // lambda .3, averages to two decimals and steady limits 52.5884 and 47.4115.
  const std::vector<double> readings{52.0, 47.0, 53.0, 49.3, 50.1, 47.0, 51.0, 50.1, 51.2, 50.5,
                                     49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1};
  const std::vector<double> averages{50.60, 49.52, 50.56, 50.18, 50.16, 49.21, 49.75,
                                     49.85, 50.26, 50.33, 50.11, 49.36, 49.52, 50.05,
                                     49.38, 49.92, 50.73, 51.23, 51.94, 51.99};
  const auto found = ewmaChart({50, 2.0539, 100}, readings, {.3, 3}).value();
  for (std::size_t i = 0; i < averages.size(); ++i)
    CHECK(found.points[i].average == Approx(averages[i]).margin(.0051));
  CHECK(found.points.back().high == Approx(52.5884).margin(5e-4));
  CHECK(found.points.back().low == Approx(47.4115).margin(5e-4));
  CHECK(!found.firstSignal);
}

TEST_CASE("The chart finds the shift in Montgomery's example") {
  // Montgomery, Introduction to Statistical Quality Control, table 9.1 and the EWMA example after
  // it: mean 10, deviation 1, lambda .1, width 2.7. First limits 9.73 and 10.27, second 10.36,
  // steady 10.62; the averages begin 9.945 and 9.7495. Derived: the average leaves at
  // observation 29.
  const std::vector<double> readings{9.45,  7.99,  9.29,  11.66, 12.16, 10.18, 8.04,  11.46,
                                     9.20,  10.34, 9.03,  11.47, 10.51, 9.40,  10.08, 9.37,
                                     10.62, 10.31, 8.52,  10.84, 10.90, 9.33,  12.29, 11.50,
                                     10.60, 11.08, 10.38, 11.62, 11.31, 10.52};
  const auto found = ewmaChart({10, 1, 100}, readings, {.1, 2.7}).value();
  CHECK(found.points[0].average == Approx(9.945));
  CHECK(found.points[1].average == Approx(9.7495));
  CHECK(found.points[0].high == Approx(10.27));
  CHECK(found.points[0].low == Approx(9.73));
  CHECK(found.points[1].high == Approx(10.36).margin(5e-3));
  CHECK(found.points[29].high == Approx(10.62).margin(5e-3));
  CHECK(found.firstSignal == 28U);
  CHECK(found.points[28].signal == ChartSignal::above);
}

TEST_CASE("A light that fades is caught early and the chart runs on") {
  base::SeededRandom random(4);
  std::vector<double> before;
  for (int i = 0; i < 25; ++i)
    before.push_back(1000 + 20 * standardNormal(random));
  std::vector<double> after;
  for (int i = 0; i < 30; ++i)
    after.push_back(970 + 20 * standardNormal(random));
  const auto baseline = lightBaseline(before).value();
  CHECK(baseline.mean == Approx(1000).margin(15));
  CHECK(baseline.deviation == Approx(20).margin(8));
  const auto found = ewmaChart(baseline, after).value();
  REQUIRE(found.firstSignal);
  CHECK(*found.firstSignal < 20);
  CHECK(found.points[*found.firstSignal].signal == ChartSignal::below);
  CHECK(found.points.size() == 30);
  CHECK(found.notes.empty());
}

TEST_CASE("A light in order gives a false alarm in about 550 readings") {
  base::SeededRandom random(8);
  constexpr int runs = 200;
  double sum = 0;
  for (int run = 0; run < runs; ++run) {
    std::vector<double> readings;
    for (int i = 0; i < 4000; ++i)
      readings.push_back(1000 + 10 * standardNormal(random));
    const auto found = ewmaChart({1000, 10, 100}, readings).value();
    sum += static_cast<double>(found.firstSignal.value_or(readings.size())) + 1;
  }
  CHECK(sum / runs == Approx(550).margin(120)); // three standard errors
}

TEST_CASE("A fall of one and a half deviations is seen within ten readings nine times in ten") {
  base::SeededRandom random(9);
  int seen = 0;
  for (int run = 0; run < 1000; ++run) {
    std::vector<double> readings;
    for (int i = 0; i < 10; ++i)
      readings.push_back(985 + 10 * standardNormal(random));
    if (ewmaChart({1000, 10, 100}, readings)->firstSignal) ++seen;
  }
  CHECK(seen >= 900);
}

TEST_CASE("The baseline deviation is the mean moving range over 1.128") {
  const auto found = lightBaseline(std::vector<double>{10, 12, 11, 14}).value();
  CHECK(found.mean == Approx(11.75));
  CHECK(found.deviation == Approx(2 / 1.128).epsilon(1e-3));
  CHECK(found.readings == 4);
}

TEST_CASE("Few readings and equal readings are said") {
  const auto baseline = lightBaseline(std::vector<double>(5, 813.1)).value();
  CHECK(baseline.deviation == 0);
  const auto same = ewmaChart(baseline, std::vector<double>(50, 813.1)).value();
  CHECK(same.has(ChartNote::fewReadings));
  CHECK(same.has(ChartNote::noSpread));
  CHECK(!same.firstSignal); // rounding alone is no signal
  const auto moved = ewmaChart(baseline, std::vector<double>{813.1, 812}).value();
  CHECK(moved.firstSignal == 1U);
  CHECK(ewmaChart(baseline, {})->points.empty());
}

TEST_CASE("A lambda of one is the plain chart of single readings") {
  const auto found = ewmaChart({100, 5, 30}, std::vector<double>{114, 116}, {1, 3}).value();
  CHECK(found.points[0].high == Approx(115));
  CHECK(found.points[0].signal == ChartSignal::none);
  CHECK(found.points[1].signal == ChartSignal::above);
}

TEST_CASE("A control chart refuses what it cannot use") {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  const std::vector<double> fine{1, 2};
  CHECK(!lightBaseline({}));
  CHECK(!lightBaseline(std::vector<double>{5}));
  const auto bad = lightBaseline(std::vector<double>{5, nan});
  REQUIRE(!bad);
  CHECK(bad.error().detail.find("Reading 2") == 0);
  CHECK(!ewmaChart({10, 1, 30}, std::vector<double>{5, -1}));
  CHECK(!ewmaChart({nan, 1, 30}, fine));
  CHECK(!ewmaChart({10, -1, 30}, fine));
  CHECK(!ewmaChart({10, 1, 30}, fine, {0, 3}));
  CHECK(!ewmaChart({10, 1, 30}, fine, {1.2, 3}));
  CHECK(!ewmaChart({10, 1, 30}, fine, {nan, 3}));
  CHECK(!ewmaChart({10, 1, 30}, fine, {.2, 0}));
}
