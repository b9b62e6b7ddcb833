#pragma once

#include "base/random.h"
#include "estimates/survival/survival_curve.h"

#include <algorithm>
#include <cmath>
#include <vector>

/// Invented sealant lives: lost at `yearlyLoss` a year (a constant risk), checked at uneven times.
/// `step` above 0 puts the checks on a grid. Months.
inline std::vector<gk::estimates::Spell> drawLives(gk::base::Random& random, std::size_t children,
                                                   double yearlyLoss, double step) {
  std::vector<gk::estimates::Spell> out;
  for (std::size_t child = 0; child < children; ++child)
    for (int tooth = 0; tooth < 4; ++tooth) {
      const double life = std::log(1 - random.uniform()) / std::log(1 - yearlyLoss) * 12;
      gk::estimates::Spell spell{.left = 0, .right = std::nullopt, .child = child};
      double time = 0;
      for (int check = 0; check < 5 && !spell.right; ++check) {
        time += 4 + 14 * random.uniform();
        const double seen = step > 0 ? std::ceil(time / step) * step : time;
        if (life <= seen)
          spell.right = seen;
        else
          spell.left = seen;
        if (random.uniform() < .2) break;
      }
      out.push_back(spell);
    }
  return out;
}
