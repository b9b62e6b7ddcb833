#include "estimates/averted/present_value.h"

#include "estimates/numbers/checks.h"

#include <cmath>

namespace gk::estimates {

base::Result<double> presentValue(double yearly, int years, double rate) {
  if (!std::isfinite(yearly)) return refused("The yearly sum is no number; give an amount.");
  if (years < 0) return refused("The years are " + std::to_string(years) + "; give 0 or more.");
  if (auto checked = checkShare("The discount rate", rate); !checked) return checked.error();
  double worth = 0;
  for (int year = 1; year <= years; ++year)
    worth += yearly * std::pow(1 + rate, -year);
  return worth;
}

} // namespace gk::estimates
