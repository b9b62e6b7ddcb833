#include "estimates/numbers/chi_squared.h"

#include "base/contract.h"

#include <algorithm>
#include <cmath>
#include <math.h> // NOLINT(modernize-deprecated-headers): lgamma_r

namespace gk::estimates {
namespace {

constexpr int mostTerms = 1'000'000;

// x^a e^-x / Gamma(a)
double front(double a, double x) {
  int sign = 0;
  return std::exp(a * std::log(x) - x - ::lgamma_r(a, &sign));
}

// DLMF 8.7.1; for x < a + 1.
double lowerBySeries(double a, double x) {
  double term = 1 / a;
  double sum = term;
  for (int n = 1; n < mostTerms; ++n) {
    term *= x / (a + n);
    sum += term;
    if (term < sum * 1e-16) return sum * front(a, x);
  }
  base::fail("the series of the incomplete gamma did not settle");
}

// DLMF 8.9.2 by Lentz's method; for x >= a + 1.
double upperByFraction(double a, double x) {
  constexpr double tiny = 1e-300;
  double b = x + 1 - a;
  double c = 1 / tiny;
  double d = 1 / b;
  double fraction = d;
  for (int n = 1; n < mostTerms; ++n) {
    const double part = -n * (n - a);
    b += 2;
    d = part * d + b;
    d = 1 / (std::fabs(d) < tiny ? tiny : d);
    c = b + part / c;
    c = std::fabs(c) < tiny ? tiny : c;
    fraction *= d * c;
    if (std::fabs(d * c - 1) < 1e-15) return fraction * front(a, x);
  }
  base::fail("the continued fraction of the incomplete gamma did not settle");
}

} // namespace

double chiSquaredTail(double x, double degrees) {
  base::require(degrees > 0 && x >= 0, "chiSquaredTail out of range");
  if (x == 0) return 1;
  if (std::isinf(x)) return 0;
  const double a = degrees / 2;
  const double half = x / 2;
  return half < a + 1 ? std::max(0.0, 1 - lowerBySeries(a, half)) : upperByFraction(a, half);
}

} // namespace gk::estimates
