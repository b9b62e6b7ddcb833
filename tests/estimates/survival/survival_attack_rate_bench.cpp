#include "estimates/attack_rate/attack_rate_age.h"
#include "estimates/attack_rate/attack_rate_profile.h"
#include "estimates/shares/retention.h"
#include "estimates/survival/survival_band.h"
#include "estimates/survival/survival_lives.h"

#include <catch2/catch.hpp>

#include <chrono>
#include <iostream>

using namespace gk;
using namespace gk::estimates;

namespace {

template <class Work>
double seconds(std::string_view name, Work work) {
  const auto start = std::chrono::steady_clock::now();
  work();
  const std::chrono::duration<double> took = std::chrono::steady_clock::now() - start;
  std::cout << name << ": " << took.count() << " s\n";
  return took.count();
}

std::vector<Exposure> drawExposures(base::Random& random, std::size_t rows) {
  std::vector<Exposure> out;
  for (std::size_t i = 0; i < rows; ++i)
    out.push_back({.3 + 4 * random.uniform(), 4, random.uniform() < .2 ? 1.0 : 0.0, i});
  return out;
}

} // namespace

TEST_CASE("time of the survival curve by size and grid", "[.bench]") {
  base::SeededRandom random(1);
  const double day = 1 / 30.44;
  for (const double step : {1.0, day, 0.0}) {
    const auto spells = drawLives(random, 25'000, .15, step);
    const double took = seconds("100,000 teeth, step " + std::to_string(step),
                                [&] { CHECK(survivalCurve(spells)->gap < 1e-9); });
#ifdef NDEBUG
    CHECK(took < 2);
#else
    CHECK(took > 0); // a debug build promises no time
#endif
  }
  const auto spells = drawLives(random, 1000, .15, day);
  const std::vector<double> times{12, 24, 36};
  seconds("band, 4,000 teeth, 1,000 replicates",
          [&] { CHECK(survivalBand(spells, times, 1000, random)); });
}

TEST_CASE("time of rates and retention of a million rows", "[.bench]") {
  base::SeededRandom random(2);
  auto rows = drawExposures(random, 1'000'000);
  seconds("attack rate, in order", [&] { CHECK(attackRate(rows)); });
  for (std::size_t i = rows.size() - 1; i > 0; --i)
    std::swap(rows[i], rows[random.below(i + 1)]);
  seconds("attack rate, shuffled", [&] { CHECK(attackRate(rows)); });
  seconds("likelihood limits", [&] { CHECK(attackRateProfile(rows)); });
  seconds("risk by age", [&] { CHECK(riskByAge(rows)); });
  const std::vector<Cluster> clusters(1'000'000, {4, 3});
  seconds("retention", [&] { CHECK(retention(clusters)); });
}
