#include "estimates/numbers/distributions.h"

#include "base/contract.h"

#include <cmath>
#include <math.h> // NOLINT(modernize-deprecated-headers): lgamma_r
#include <numbers>

namespace gk::estimates {
namespace {

// std::lgamma writes a global, and long work runs beside the window.
double logGamma(double x) {
  int sign = 0;
  return ::lgamma_r(x, &sign);
}

// DLMF 8.17.22 by Lentz's method as modified by Thompson and Barnett (1986). Converges fast for
// x < (a+1)/(a+b+2).
double betaFraction(double a, double b, double x) {
  constexpr double tiny = 1e-300;
  constexpr int most = 1'000'000;
  const auto away = [](double value) { return std::fabs(value) < tiny ? tiny : value; };
  double c = 1;
  double d = 1 / away(1 - (a + b) * x / (a + 1));
  double fraction = d;
  for (int i = 1; i <= most; ++i) {
    const double m = i;
    const double even = m * (b - m) * x / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / away(1 + even * d);
    c = away(1 + even / c);
    fraction *= c * d;
    const double odd = -(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / away(1 + odd * d);
    c = away(1 + odd / c);
    const double change = c * d;
    fraction *= change;
    if (std::fabs(change - 1) < 1e-15) return fraction;
  }
  base::fail("the continued fraction of the incomplete beta did not settle");
}

// Bisection to the last bit: `below` is true on the left of the answer and false on its right.
template <class Below>
double bisect(double low, double high, Below below) {
  for (;;) {
    const double middle = low + (high - low) / 2;
    if (middle <= low || middle >= high) return middle;
    (below(middle) ? low : high) = middle;
  }
}

} // namespace

double normalQuantile(double p) {
  base::require(p > 0 && p < 1, "normalQuantile outside (0, 1)");
  if (p > 0.5) return -normalQuantile(1 - p);
  if (p == 0.5) return 0;
  // The lower tail alone, where erfc keeps its relative accuracy.
  const double fromZero =
      bisect(0, 40, [p](double z) { return std::erfc(z / std::numbers::sqrt2) / 2 > p; });
  return -fromZero;
}

double regularisedBeta(double a, double b, double x) {
  base::require(a > 0 && b > 0 && x >= 0 && x <= 1, "regularisedBeta out of range");
  if (x <= 0) return 0;
  if (x >= 1) return 1;
  const double front =
      std::exp(logGamma(a + b) - logGamma(a) - logGamma(b) + a * std::log(x) + b * std::log1p(-x));
  if (x < (a + 1) / (a + b + 2)) return front * betaFraction(a, b, x) / a;
  return 1 - front * betaFraction(b, a, 1 - x) / b;
}

double betaQuantile(double a, double b, double p) {
  base::require(p >= 0 && p <= 1, "betaQuantile outside [0, 1]");
  if (p <= 0) return 0;
  if (p >= 1) return 1;
  return bisect(0, 1, [=](double x) { return regularisedBeta(a, b, x) < p; });
}

double studentQuantile(double p, double degrees) {
  base::require(p > 0 && p < 1 && degrees > 0, "studentQuantile out of range");
  if (p < 0.5) return -studentQuantile(1 - p, degrees);
  // t^2 / (t^2 + degrees) is beta(1/2, degrees/2).
  const double x = betaQuantile(0.5, degrees / 2, 2 * p - 1);
  return std::sqrt(degrees * x / (1 - x));
}

double standardNormal(base::Random& random) {
  const double radius = std::sqrt(-2 * std::log1p(-random.uniform()));
  return radius * std::cos(2 * std::numbers::pi * random.uniform());
}

} // namespace gk::estimates
