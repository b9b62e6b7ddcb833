#include "estimates/numbers/distributions.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace gk;
using namespace gk::estimates;

namespace {

// P(X >= k) for X binomial(n, x), the slow way.
double binomialUpperTail(int k, int n, double x) {
  double term = std::pow(1 - x, n);
  double sum = k == 0 ? term : 0;
  for (int i = 1; i <= n; ++i) {
    term *= (n - i + 1) * x / (i * (1 - x));
    if (i >= k) sum += term;
  }
  return sum;
}

} // namespace

TEST_CASE("The normal quantile gives the tabled percentage points") {
  // Biometrika Tables for Statisticians, table 4
  CHECK(normalQuantile(0.975) == Approx(1.959963984540054).epsilon(1e-13));
  CHECK(normalQuantile(0.995) == Approx(2.575829303548901).epsilon(1e-13));
  CHECK(normalQuantile(0.95) == Approx(1.644853626951473).epsilon(1e-13));
  CHECK(normalQuantile(0.5) == 0);
  CHECK(normalQuantile(0.001) == Approx(-3.090232306167813).epsilon(1e-13));
}

TEST_CASE("The normal quantile undoes the distribution function") {
  base::SeededRandom random(1);
  for (int i = 0; i < 500; ++i) {
    const double p = random.uniform() * 0.999 + 0.0005;
    CHECK(std::erfc(-normalQuantile(p) / std::sqrt(2.0)) / 2 == Approx(p).epsilon(1e-12));
  }
}

TEST_CASE("The incomplete beta agrees with its closed forms") {
  CHECK(regularisedBeta(1, 1, 0.3) == Approx(0.3).epsilon(1e-14));
  CHECK(regularisedBeta(3, 1, 0.7) == Approx(0.343).epsilon(1e-14));
  CHECK(regularisedBeta(1, 4, 0.2) == Approx(1 - std::pow(0.8, 4)).epsilon(1e-14));
  // arcsine law, DLMF 8.17 with a = b = 1/2
  CHECK(regularisedBeta(0.5, 0.5, 0.3) ==
        Approx(2 / std::acos(-1.0) * std::asin(std::sqrt(0.3))).epsilon(1e-13));
  CHECK(regularisedBeta(2, 5, 0) == 0);
  CHECK(regularisedBeta(2, 5, 1) == 1);
}

TEST_CASE("The incomplete beta is the upper tail of the binomial") {
  base::SeededRandom random(2);
  for (int i = 0; i < 300; ++i) {
    const int n = 1 + static_cast<int>(random.below(200));
    const int k = 1 + static_cast<int>(random.below(static_cast<std::uint64_t>(n)));
    const double x = 0.02 + 0.96 * random.uniform();
    CHECK(regularisedBeta(k, n - k + 1, x) == Approx(binomialUpperTail(k, n, x)).margin(1e-11));
  }
}

TEST_CASE("The incomplete beta is symmetric and its quantile undoes it") {
  base::SeededRandom random(3);
  for (int i = 0; i < 300; ++i) {
    const double a = std::exp(6 * random.uniform() - 1);
    const double b = std::exp(6 * random.uniform() - 1);
    const double p = 0.001 + 0.998 * random.uniform();
    const double x = betaQuantile(a, b, p);
    CHECK(regularisedBeta(a, b, x) == Approx(p).margin(1e-9));
    CHECK(regularisedBeta(b, a, 1 - x) == Approx(1 - regularisedBeta(a, b, x)).margin(1e-12));
  }
  CHECK(betaQuantile(2, 3, 0) == 0);
  CHECK(betaQuantile(2, 3, 1) == 1);
}

TEST_CASE("The incomplete beta stands large counts") {
  CHECK(regularisedBeta(5e6, 5e6, 0.5) == Approx(0.5).margin(1e-8));
  CHECK(betaQuantile(5e6, 5e6, 0.5) == Approx(0.5).margin(1e-8));
}

TEST_CASE("The Student quantile gives the tabled percentage points") {
  // Biometrika Tables for Statisticians, table 12
  CHECK(studentQuantile(0.975, 1) == Approx(12.7062).epsilon(1e-5));
  CHECK(studentQuantile(0.975, 10) == Approx(2.228139).epsilon(1e-6));
  CHECK(studentQuantile(0.975, 15) == Approx(2.131450).epsilon(1e-6));
  CHECK(studentQuantile(0.025, 10) == Approx(-2.228139).epsilon(1e-6));
  CHECK(studentQuantile(0.975, 1e6) == Approx(normalQuantile(0.975)).epsilon(1e-5));
}

TEST_CASE("Normal draws have mean 0 and variance 1 and are repeatable") {
  base::SeededRandom random(4);
  base::SeededRandom again(4);
  constexpr int count = 40'000;
  double sum = 0;
  double squares = 0;
  for (int i = 0; i < count; ++i) {
    const double draw = standardNormal(random);
    CHECK(draw == standardNormal(again));
    sum += draw;
    squares += draw * draw;
  }
  CHECK(sum / count == Approx(0).margin(4 / std::sqrt(1.0 * count)));
  CHECK(squares / count == Approx(1).margin(4 * std::sqrt(2.0 / count)));
}
