#include "estimates/survival/survival_band.h"
#include "estimates/survival/survival_lives.h"

#include <catch2/catch.hpp>

#include <limits>

using namespace gk;
using namespace gk::estimates;

namespace {

const std::vector<double> oneYear{12};

SurvivalBand bandOf(const std::vector<Spell>& spells, const std::vector<double>& times) {
  base::SeededRandom random(5);
  return survivalBand(spells, times, 400, random).value();
}

} // namespace

TEST_CASE("With one check for all the band is that of a share by child") {
  // 100 children with one tooth each, 20 failed: the bootstrap of a proportion, se = .04
  std::vector<Spell> spells;
  for (std::size_t child = 0; child < 100; ++child)
    spells.push_back(child < 20 ? Spell{0, 12, child} : Spell{12, {}, child});
  const auto found = bandOf(spells, oneYear);
  CHECK(found.points[0].survival.low == Approx(.8));
  CHECK(found.points[0].band->low == Approx(.8 - 1.96 * .04).margin(.015));
  CHECK(found.points[0].band->high == Approx(.8 + 1.96 * .04).margin(.015));
  CHECK(!found.points[0].isExactLimit);
  CHECK(!found.isFewChildren);
}

TEST_CASE("Four teeth of one mouth that fail together widen the band as one tooth would") {
  std::vector<Spell> one;
  std::vector<Spell> four;
  for (std::size_t child = 0; child < 100; ++child) {
    const auto spell = child < 20 ? Spell{0, 12, child} : Spell{12, {}, child};
    one.push_back(spell);
    four.insert(four.end(), 4, spell);
  }
  CHECK(bandOf(four, oneYear).points[0].band->low ==
        Approx(bandOf(one, oneYear).points[0].band->low).epsilon(1e-9));
}

TEST_CASE("The same seed gives the same band") {
  base::SeededRandom random(74);
  const auto spells = drawLives(random, 60, .15, 1);
  const std::vector<double> times{6, 12, 24};
  const auto first = bandOf(spells, times);
  const auto again = bandOf(spells, times);
  for (std::size_t i = 0; i < times.size(); ++i) {
    CHECK(first.points[i].band == again.points[i].band);
    CHECK(first.points[i].band->low <= first.points[i].survival.low);
    CHECK(first.points[i].band->high >= first.points[i].survival.high);
  }
}

TEST_CASE("No failure among few children is no proof that none will come") {
  std::vector<Spell> spells;
  for (std::size_t child = 0; child < 10; ++child)
    spells.push_back({12, {}, child});
  const auto found = bandOf(spells, {0, 12, 13});
  CHECK(found.points[0].band == Interval{1, 1});
  // Clopper and Pearson for 10 of 10: .025^(1/10)
  CHECK(found.points[1].band->low == Approx(std::pow(.025, .1)));
  CHECK(found.points[1].band->high == 1);
  CHECK(found.points[1].isExactLimit);
  CHECK(found.points[2].band == Interval{0, 1});
}

TEST_CASE("No sealant left among few children is no proof that none holds") {
  std::vector<Spell> spells;
  for (std::size_t child = 0; child < 10; ++child)
    spells.push_back({0, 12, child});
  const auto found = bandOf(spells, oneYear);
  CHECK(found.points[0].band->low == 0);
  CHECK(found.points[0].band->high == Approx(1 - std::pow(.025, .1)));
}

TEST_CASE("One child has no band and few children are told") {
  CHECK(!bandOf({{0, 12, 3}, {12, {}, 3}}, oneYear).points[0].band);
  CHECK(bandOf({{0, 12, 3}, {12, {}, 4}}, oneYear).isFewChildren);
}

TEST_CASE("A band that cannot be made is refused") {
  base::SeededRandom random(1);
  const std::vector<Spell> spells{{0, 12, 1}, {12, {}, 2}};
  const double nan = std::numeric_limits<double>::quiet_NaN();
  CHECK(!survivalBand(spells, oneYear, 99, random));
  CHECK(!survivalBand(spells, oneYear, 100'001, random));
  CHECK(!survivalBand(spells, oneYear, 100, random, 0));
  CHECK(!survivalBand(spells, std::vector<double>{-1}, 100, random));
  CHECK(!survivalBand(spells, std::vector<double>{nan}, 100, random));
  CHECK(!survivalBand({}, oneYear, 100, random));
}

TEST_CASE("The band covers the truth about as often as it says when checks are on a grid") {
  base::SeededRandom random(75);
  constexpr int rounds = 150;
  int covered = 0;
  for (int round = 0; round < rounds; ++round) {
    std::vector<Spell> spells;
    for (std::size_t child = 0; child < 80; ++child) {
      const double childLoss = random.uniform() < .5 ? .05 : .35; // alike within a child
      for (int tooth = 0; tooth < 3; ++tooth) {
        const double years = std::log(1 - random.uniform()) / std::log(1 - childLoss);
        if (random.uniform() < .5)
          spells.push_back(years <= 1 ? Spell{0, 12, child} : Spell{12, {}, child});
        else
          spells.push_back(years <= 1   ? Spell{0, 12, child}
                           : years <= 2 ? Spell{12, 24, child}
                                        : Spell{24, {}, child});
      }
    }
    const auto band = survivalBand(spells, oneYear, 200, random)->points[0].band.value();
    covered += band.low <= .8 && .8 <= band.high ? 1 : 0;
  }
  CHECK(covered > .88 * rounds);
  CHECK(covered < .995 * rounds);
}
