#pragma once

#include "base/random.h"

namespace gk::estimates {

/// The few distributions that the intervals need. Arguments outside the stated range are bugs of
/// the caller and abort: counts from people are checked before they come here.

/// z with P(Z <= z) = p for a standard normal Z. Precondition: 0 < p < 1.
double normalQuantile(double p);

/// I_x(a, b), the distribution function of a beta variable; DLMF 8.17. Precondition: a, b > 0 and
/// 0 <= x <= 1. Error below 1e-12 for a + b up to 10,000, growing in proportion to a + b.
double regularisedBeta(double a, double b, double x);

/// x with I_x(a, b) = p. Precondition: a, b > 0 and 0 <= p <= 1.
double betaQuantile(double a, double b, double p);

/// t with P(T <= t) = p for Student's T. Precondition: 0 < p < 1 and degrees > 0.
double studentQuantile(double p, double degrees);

/// One draw from the standard normal (Box and Muller 1958); takes two uniforms.
double standardNormal(base::Random& random);

} // namespace gk::estimates
