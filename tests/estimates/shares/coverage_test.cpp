#include "base/random.h"
#include "base/text/text.h"
#include "estimates/numbers/distributions.h"
#include "estimates/shares/program_share.h"
#include "estimates/shares/retention_levels.h"
#include "support/known_truth.h"

#include <catch2/catch.hpp>

#include <array>
#include <cmath>
#include <iomanip>
#include <iostream>

using namespace gk;
using namespace gk::estimates;

namespace {

constexpr std::uint64_t seed = 20'241'105;

/// Teeth in children in schools. Each school has its own chance of keeping a sealant and each child
/// another about it, both from beta distributions; the likeness of two teeth is `inSchool` for two
/// children of one school and `inChild` more for one child.
struct Scenario {
  std::size_t schools;
  std::size_t childrenEach;
  double truth;
  double inChild;
  double inSchool;
};

double gammaDraw(base::Random& random, double shape) {
  // Marsaglia and Tsang 2000, ACM Trans Math Softw 26:363-72, with their boost below shape 1.
  if (shape < 1) return gammaDraw(random, shape + 1) * std::pow(1 - random.uniform(), 1 / shape);
  const double d = shape - 1.0 / 3;
  for (;;) {
    const double z = standardNormal(random);
    const double v = std::pow(1 + z / std::sqrt(9 * d), 3);
    if (v > 0 && std::log1p(-random.uniform()) < z * z / 2 + d - d * v + d * std::log(v))
      return d * v;
  }
}

/// Beta with this mean and variance likeness x mean (1 - mean).
double betaDraw(base::Random& random, double mean, double likeness) {
  if (likeness <= 0 || mean <= 0 || mean >= 1) return mean;
  const double sum = 1 / likeness - 1;
  const double kept = gammaDraw(random, mean * sum);
  const double lost = gammaDraw(random, (1 - mean) * sum);
  return kept + lost > 0 ? kept / (kept + lost) : mean;
}

std::vector<ChildTeeth> draw(const Scenario& scenario, base::Random& random) {
  std::vector<ChildTeeth> rows;
  const double withinSchool = scenario.inChild / (1 - scenario.inSchool);
  std::size_t label = 0;
  for (std::size_t school = 0; school < scenario.schools; ++school) {
    const double atSchool = betaDraw(random, scenario.truth, scenario.inSchool);
    for (std::size_t i = 0; i < scenario.childrenEach; ++i) {
      const double chance = betaDraw(random, atSchool, withinSchool);
      ChildTeeth child{school, label++, 1 + static_cast<double>(random.below(4)), 0};
      for (int tooth = 0; tooth < static_cast<int>(child.examined); ++tooth)
        if (random.uniform() < chance) child.retained += 1;
      rows.push_back(child);
    }
  }
  return rows;
}

/// How often an interval held the truth, in percent.
struct Coverage {
  double naive = 0;
  double wilsonEffective = 0;
  double publication = 0;
  double logit = 0;
};

Coverage coverageOf(const Scenario& scenario, LevelChoice choice, int replicates,
                    base::Random& random) {
  Coverage sum;
  const auto holds = [&scenario](double low, double high) {
    return low <= scenario.truth && scenario.truth <= high ? 1.0 : 0.0;
  };
  for (int i = 0; i < replicates; ++i) {
    const auto found = retentionByLevel(draw(scenario, random), choice).value().used;
    const auto naive = wilson(found.retained, found.teeth).value();
    const bool edge = found.conservative.has_value();
    // When all are kept the conservative reading is the one to print.
    sum.naive += holds(naive.low, naive.high);
    sum.wilsonEffective += edge ? holds(found.conservative->low, found.conservative->high)
                                : holds(found.low, found.high);
    sum.publication += edge ? holds(found.conservativeExact->low, found.conservativeExact->high)
                            : holds(found.publication.low, found.publication.high);
    sum.logit += edge ? holds(found.conservativeExact->low, found.conservativeExact->high)
                      : holds(found.logit->low, found.logit->high);
  }
  const double percent = 100.0 / replicates;
  return {sum.naive * percent, sum.wilsonEffective * percent, sum.publication * percent,
          sum.logit * percent};
}

/// How often what a person reads held the truth, in percent.
double toReadCoverage(const Scenario& scenario, int replicates, base::Random& random) {
  int held = 0;
  for (int i = 0; i < replicates; ++i) {
    const auto found =
        retentionByLevel(draw(scenario, random), LevelChoice::child).value().used.toRead;
    held += found->range.low <= scenario.truth && scenario.truth <= found->range.high ? 1 : 0;
  }
  return 100.0 * held / replicates;
}

/// Of what the total of a program prints, in percent.
struct Printed {
  double covered;
  double width; ///< mean
};

Printed ofProgram(const Scenario& scenario, int replicates, base::Random& random) {
  Printed out{};
  for (int i = 0; i < replicates; ++i) {
    const auto range = retentionByLevel(draw(scenario, random)).value().used.toRead->range;
    out.covered += range.low <= scenario.truth && scenario.truth <= range.high ? 1 : 0;
    out.width += range.high - range.low;
  }
  return {100.0 * out.covered / replicates, 100.0 * out.width / replicates};
}

void print(const Scenario& s, const char* level, const Coverage& c) {
  std::cout << "| " << s.schools << " | " << s.schools * s.childrenEach << " | " << std::fixed
            << std::setprecision(2) << s.truth << " | " << s.inChild << " | " << s.inSchool << " | "
            << level << std::setprecision(1) << " | " << c.naive << " | " << c.wilsonEffective
            << " | " << c.publication << " | " << c.logit << " |\n";
}

} // namespace

TEST_CASE("Clustered intervals cover where naive ones do not in a short simulation") {
  base::SeededRandom random(seed);
  const auto found = coverageOf({1, 60, .8, .4, 0}, LevelChoice::child, 500, random);
  // 500 replicates: two standard errors are 2 points.
  CHECK(found.naive < 91);
  CHECK(found.wilsonEffective > 92);
  CHECK(found.wilsonEffective < 98);
  CHECK(found.publication > 93);
  CHECK(found.logit > 93);
}

TEST_CASE("Four children with all sixteen sealants whole prove little", "[case-184]") {
  const std::vector<Cluster> four(4, {4, 4});
  const auto found = retention(four).value();
  REQUIRE(found.toRead);
  // By hand: 16 / (1 + 3 x .05) = 13.9, times (t(15) / t(3))^2 = (2.1314 / 3.1824)^2: 6.24 teeth.
  CHECK(found.toRead->isPlanned);
  CHECK(found.toRead->n == Approx(6.2408).margin(.0005));
  CHECK(found.toRead->range.low == Approx(std::pow(.025, 1 / 6.2408)).margin(.0005));
  CHECK(found.toRead->range.high == 1);
  test::methodsSay(base::percent(found.toRead->range.low) + " to " +
                   base::percent(found.toRead->range.high, 0) + "%");
  CHECK(found.low > .80); // Wilson on sixteen, as if each tooth stood for itself
  // The program's own design effect, where it is known, is used when it is the larger.
  const auto pooled = retention(four, usualLevel, 2.5).value();
  CHECK(pooled.toRead->designEffect == 2.5);
  CHECK_FALSE(retention(std::vector<Cluster>{{4, 3}}).value().toRead);
  // Children who are one tooth each cannot be alike within themselves.
  const std::vector<Cluster> single(20, {1, 1});
  CHECK_FALSE(retention(single).value().toRead->isPlanned);
}

TEST_CASE("A few children more even than chance are read with a planned likeness", "[case-184]") {
  const std::vector<Cluster> even(10, {4, 3});
  const auto few = retention(even).value();
  CHECK(few.toRead->isPlanned);
  CHECK(few.toRead->designEffect == Approx(1.15));
  const std::vector<Cluster> many(40, {4, 3});
  CHECK_FALSE(retention(many).value().toRead->isPlanned);
  CHECK(retention(many).value().toRead->designEffect == 1);
}

TEST_CASE("What a person reads covers from ten children on, in a short simulation", "[case-184]") {
  base::SeededRandom random(seed);
  for (const double truth : {.75, .92})
    CHECK(toReadCoverage({1, 10, truth, .4, 0}, 400, random) > 92); // one standard error: 1 point
}

TEST_CASE("The total of two to seven schools covers in a short simulation", "[case-414]") {
  base::SeededRandom random(seed);
  for (const std::size_t schools : {2U, 4U, 6U, 7U}) {
    const Scenario scenario{schools, 40, .85, .3, .05};
    INFO(schools << " schools");
    // 400 replicates: one standard error at 95 is 1.1; by child it was 67 to 71.
    CHECK(ofProgram(scenario, 400, random).covered > 92);
    int byChild = 0;
    for (int i = 0; i < 200; ++i) {
      const auto range =
          retentionByLevel(draw(scenario, random), LevelChoice::child).value().used.toRead->range;
      byChild += range.low <= .85 && .85 <= range.high ? 1 : 0;
    }
    CHECK(byChild < 160);
  }
}

TEST_CASE("Coverage of the interval that a person reads", "[.coverage]") {
  constexpr int replicates = 20000;
  base::SeededRandom random(seed);
  constexpr std::array truths{.50, .75, .85, .92, .97, .99};
  std::cout << "| in child | children |";
  for (const double truth : truths)
    std::cout << " p " << std::fixed << std::setprecision(2) << truth << " |";
  std::cout << "\n|---|---|---|---|---|---|---|---|\n";
  for (const double inChild : {.05, .2, .4})
    for (const std::size_t children : {4U, 6U, 10U, 15U, 20U, 30U, 60U}) {
      std::cout << "| " << std::setprecision(2) << inChild << " | " << children << " |";
      for (const double truth : truths) {
        const double found = toReadCoverage({1, children, truth, inChild, 0}, replicates, random);
        std::cout << ' ' << std::setprecision(1) << found << " |" << std::flush;
        if (children >= 10) CHECK(found >= 93);
      }
      std::cout << '\n';
    }
}

TEST_CASE("Coverage of the total of a program, as its schools are many",
          "[.coverage][few-schools]") {
  constexpr int replicates = 4000;
  base::SeededRandom random(seed);
  for (const double inSchool : {.02, .05, .10, .20})
    for (const std::size_t schools : {2U, 3U, 4U, 6U, 7U, 8U, 20U})
      for (const std::size_t children : {12U, 40U}) {
        const auto found = ofProgram({schools, children, .85, .3, inSchool}, replicates, random);
        std::cout << "| " << std::fixed << std::setprecision(2) << inSchool << " | " << schools
                  << " | " << children << " | " << std::setprecision(1) << found.covered << " | "
                  << found.width << " |\n"
                  << std::flush;
        // Two or three schools that differ far more than planned: said in docs/methods.md.
        const bool isAsPlanned = schools >= fewestSchools || inSchool <= plannedLikeness;
        CHECK(found.covered >= (isAsPlanned ? 93 : inSchool <= .10 ? 91 : 83));
      }
}

TEST_CASE("Coverage of nominal 95 % intervals over teeth in children in schools", "[.coverage]") {
  constexpr int replicates = 20000;
  base::SeededRandom random(seed);
  std::cout
      << "| schools | children | truth | in child | in school | clusters | naive | "
         "Wilson, n_eff | Korn-Graubard | logit |\n|---|---|---|---|---|---|---|---|---|---|\n";
  for (const double truth : {.75, .85, .92})
    for (const std::size_t children : {30U, 60U, 120U, 300U}) {
      const Scenario scenario{1, children, truth, .4, 0};
      const auto found = coverageOf(scenario, LevelChoice::child, replicates, random);
      print(scenario, "child", found);
      CHECK(found.naive < 92);
      CHECK(found.wilsonEffective >= 93); // two standard errors of 20,000 replicates are .4 points
      CHECK(found.wilsonEffective <= 97);
      CHECK(found.publication >= 93);
      CHECK(found.publication <= 97);
    }
  for (const std::size_t schools : {8U, 12U, 20U, 40U})
    for (const auto& [choice, name] :
         {std::pair{LevelChoice::child, "child"}, std::pair{LevelChoice::school, "school"}}) {
      const Scenario scenario{schools, 12, .85, .3, .05};
      const auto found = coverageOf(scenario, choice, replicates, random);
      print(scenario, name, found);
      CHECK(found.naive < 80);
      if (choice != LevelChoice::school) continue;
      CHECK(found.publication >= 93);
      CHECK(found.publication <= 97);
    }
}
