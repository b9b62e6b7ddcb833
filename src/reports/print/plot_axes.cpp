#include "reports/print/plot.h"

#include <cmath>
#include <utility>

namespace gk::reports {

PlotAxis namedRows(std::vector<std::string> names) {
  const auto last = static_cast<double>(names.size()) - 0.5;
  return {"", -0.5, last, std::move(names)};
}

std::vector<double> ticks(double low, double high, int wanted) {
  std::vector<double> out;
  if (!(high > low) || wanted < 1) return out;
  const double raw = (high - low) / wanted;
  const double power = std::pow(10.0, std::floor(std::log10(raw)));
  double step = 10 * power;
  for (const double nice : {1.0, 2.0, 5.0})
    if (nice * power >= raw) {
      step = nice * power;
      break;
    }
  for (double i = std::ceil(low / step - 1e-9); i * step <= high + step * 1e-9; ++i)
    out.push_back(i * step);
  return out;
}

} // namespace gk::reports
