#include "reports/quality/quality_report.h"

#include "base/random.h"
#include "reports/sample.h"

#include <catch2/catch.hpp>

#include <array>
#include <cmath>
#include <iostream>

using namespace gk;
using namespace gk::reports;
using gk::test::SampleTerm;

namespace {

struct Lights : SampleTerm {
  base::Recorded<kit::Light> light =
      make.row<kit::Light>({"L-2", kit::LightType::led, {0}, {1120}, true, "M-1"});
  Lights() { records.lights = {light}; }

  void read(const std::string& on, int value, const std::string& meter = "M-1") {
    records.readings.push_back(
        make.row<kit::MeterReading>({light.id, test::date(on), {value}, true, meter, true}));
  }
};

} // namespace

TEST_CASE("A light that falls slowly raises a signal before it is red") {
  Lights term;
  int value = 1120;
  for (int day = 1; day <= 20; ++day) {
    term.read("2026-10-" + std::string(day < 10 ? "0" : "") + std::to_string(day), value);
    value -= 10;
  }
  const auto lights = lightCharts(term.records);
  REQUIRE(lights.size() == 1);
  REQUIRE(lights[0].chart);
  REQUIRE(lights[0].chart->firstSignal);
  const auto signal = *lights[0].chart->firstSignal;
  CHECK(lights[0].chart->points[signal].signal == estimates::ChartSignal::below);
  // Amber by then, as the limits allow for a baseline of five readings; green was a false promise
  // that came with false alarms in half of all steady lights.
  CHECK(lights[0].grades[baselineReadings + signal] != kit::LightGrade::red);
  CHECK(lightTable(lights[0]).rows.size() == 20);
}

TEST_CASE("A light that settles a little under its baseline raises none") {
  Lights term;
  for (int day = 10; day <= 29; ++day)
    term.read("2026-10-" + std::to_string(day), 1096 + day % 3);
  CHECK_FALSE(lightCharts(term.records).at(0).chart->firstSignal);
}

TEST_CASE("A steady light seldom raises an alarm, whatever its first reading was", "[case-183]") {
  // Own simulation, nothing of the program in the readings: 1,000 lights of 1,000 mW/cm2, a meter
  // that repeats within 3 %. Against one reading as the baseline 52 % alarmed within 20 readings.
  base::SeededRandom random(183);
  int alarms = 0;
  for (int i = 0; i < 1000; ++i) {
    Lights term;
    term.records.asOf = test::date("2026-12-31");
    auto on = test::date("2026-09-01");
    for (int reading = 0; reading < 55; ++reading) {
      double sum = -6;
      for (int part = 0; part < 12; ++part)
        sum += random.uniform();
      term.read(on.iso(), static_cast<int>(std::lround(1000 + 30 * sum)));
      on = on.plusDays(1);
    }
    alarms += lightCharts(term.records).at(0).chart->firstSignal ? 1 : 0;
  }
  CAPTURE(alarms);
  CHECK(alarms >= 10); // 3.1 % of 4,000 in R; 1,000 lights: one standard error is .55 %
  CHECK(alarms <= 50);
}

namespace {

/// After how many readings, if ever, the report first shows an alarm, read again after each.
std::optional<int> firstAlarm(base::Random& random, double repeats, double fall, int most) {
  Lights term;
  auto on = test::date("2026-09-01");
  for (int reading = 0; reading < static_cast<int>(baselineReadings) + most; ++reading) {
    double sum = -6;
    for (int part = 0; part < 12; ++part)
      sum += random.uniform();
    const bool isBaseline = reading < static_cast<int>(baselineReadings);
    const double truth = 1000 * (isBaseline ? 1 : 1 - fall);
    term.read(on.iso(), static_cast<int>(std::lround(truth + 1000 * repeats * sum)));
    term.records.asOf = on;
    on = on.plusDays(1);
    if (isBaseline) continue;
    if (lightCharts(term.records).at(0).chart->firstSignal)
      return reading + 1 - static_cast<int>(baselineReadings);
  }
  return std::nullopt;
}

/// Percent of lights with an alarm within 20, 50 and 100 readings.
std::array<double, 3> alarmsWithin(double repeats, double fall, int lights) {
  base::SeededRandom random(371);
  std::array<double, 3> out{};
  for (int i = 0; i < lights; ++i) {
    const auto first = firstAlarm(random, repeats, fall, 100);
    for (std::size_t at = 0; at < out.size(); ++at)
      out.at(at) += first && *first <= std::array{20, 50, 100}.at(at) ? 100.0 / lights : 0;
  }
  return out;
}

} // namespace

TEST_CASE("The false alarms that the report tells of are those of a reader of each reading",
          "[case-368]") {
  // The spread is found again with each reading, so who looks each time sees more alarms than who
  // looks once at the end. Own simulation (Python, 4,000 lights): within 50 readings 0, 3.5 and
  // 13.2 %, the meter repeating within 2, 3 and 5 %; an earlier version said 5 for the last.
  const auto within3 = alarmsWithin(.03, 0, 1000);
  const auto within5 = alarmsWithin(.05, 0, 1000);
  CAPTURE(within3, within5);
  CHECK(within3[1] == Approx(3.5).margin(2));  // one standard error .6: none at all is too few
  CHECK(within5[1] == Approx(13.2).margin(4)); // 1.1
  Lights term;
  const auto notes = qualityReport(term.records).front().notes;
  CHECK(notes.back().find("about 4 give a false alarm within 50 readings where the meter repeats "
                          "within 3%, and about 13 where within 5%") != std::string::npos);
}

TEST_CASE("Alarms of steady and of falling lights", "[.simulation]") {
  struct Row {
    double repeats;
    double fall;
    std::array<double, 3> expected; ///< percent within 20, 50 and 100 readings
  };
  // Steady lights: the Python simulation of docs/methods.md, section 8, nothing of the program in
  // it. Falling ones: what is said there, within 20 readings. One standard error of 4,000 lights is
  // .8 and less, and of the simulation held against as much again.
  constexpr double unsaid = -1;
  const std::vector<Row> rows{{.02, .00, {0, 0, 0}},
                              {.02, .05, {78, unsaid, unsaid}},
                              {.02, .10, {100, 100, 100}},
                              {.03, .00, {1.7, 3.5, 5.4}},
                              {.03, .05, {73, unsaid, unsaid}},
                              {.03, .10, {100, 100, 100}},
                              {.05, .00, {9.2, 13.2, 16.2}},
                              {.05, .05, {45, unsaid, unsaid}},
                              {.05, .10, {92, unsaid, unsaid}}};
  for (const auto& [repeats, fall, expected] : rows) {
    const auto found = alarmsWithin(repeats, fall, 4000);
    std::cout << repeats << " fall " << fall << ": " << found[0] << ", " << found[1] << ", "
              << found[2] << '\n'
              << std::flush;
    CAPTURE(repeats, fall);
    for (std::size_t i = 0; i < expected.size(); ++i)
      if (expected.at(i) != unsaid) CHECK(found.at(i) == Approx(expected.at(i)).margin(3));
  }
}

TEST_CASE("A light entered again begins its chart again") {
  Lights term;
  for (int day = 1; day <= 9; ++day)
    term.read("2026-10-0" + std::to_string(day), 700);
  term.make.setTime(test::noonOf("2026-10-10"));
  auto again = term.make.named<kit::Light>(term.light.id, term.light.value);
  again.stamp.supersedes = term.light.stamp.entry;
  term.records.lights = {again};
  for (int day = 10; day <= 19; ++day)
    term.read("2026-10-" + std::to_string(day), 1120);
  const auto light = lightCharts(term.records).at(0);
  CHECK(light.dates.size() == 10);
  CHECK_FALSE(light.chart->firstSignal);
}

TEST_CASE("A reading on another meter is not compared, and one alone makes no chart") {
  Lights term;
  term.read("2026-10-13", 1100);
  term.read("2026-10-14", 400, "M-9");
  const auto light = lightCharts(term.records).at(0);
  CHECK(light.notComparable == 1);
  CHECK(light.dates.size() == 1);
  CHECK_FALSE(light.chart);
  const auto tables = qualityReport(term.records);
  const auto row = textsOf(tables.front().rows.at(0));
  CHECK(row.back() == "too few readings");
  // What it read is said all the same: a light that fails early is to be seen.
  CHECK(row.at(3) == "2026-10-13");
  CHECK(row.at(4) == "1100");
  CHECK(row.at(6) != nothing);
  CHECK(std::ranges::any_of(tables, [](const auto& table) {
    return table.title.find("readings") != std::string::npos && table.rows.size() == 1 &&
           table.rows[0][1].text() == "1100";
  }));
}

TEST_CASE("Readings after the date of the report do not count") {
  Lights term;
  term.records.asOf = test::date("2026-10-13");
  term.read("2026-10-13", 1100);
  term.read("2026-10-14", 800);
  CHECK(lightCharts(term.records).at(0).dates.size() == 1);
}

TEST_CASE("How dry the field was kept is counted for each method of isolation") {
  SampleTerm term;
  const auto here = term.school("Cobble Lantern Elementary", 142);
  const auto day = term.day(here, "2026-10-13");
  const auto child = term.child(here);
  for (const int iso : {16, 26, 36, 46})
    term.place(child, day, iso);
  auto& wet = term.records.placements.back().value;
  wet.isolation = chairside::Isolation::rubberDam;
  wet.wetEvents = 2;
  wet.etches = 2;
  wet.interruptedCures = 1;
  const auto table = qualityReport(term.records).at(1);
  REQUIRE(table.rows.size() == 3);
  CHECK(table.rows.at(1).front() == "rubber dam");
  CHECK(table.rows.at(1).at(1) == "1");
  CHECK(table.rows.at(1).at(4) == "2");
  CHECK(table.rows.back().at(3) == "25.0"); // one of four teeth was wet
  CHECK(table.rows.back().at(6) == "1");
}
