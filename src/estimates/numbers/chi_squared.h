#pragma once

namespace gk::estimates {

/// P(X > x) for a chi-squared X: the regularised upper incomplete gamma Q(degrees/2, x/2), DLMF
/// 8.2. Precondition: degrees > 0 and x >= 0 (infinity gives 0). Error below 1e-12 for up to 1,000
/// degrees.
double chiSquaredTail(double x, double degrees);

} // namespace gk::estimates
