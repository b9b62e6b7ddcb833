#pragma once

#include "reports/compare/factor_comparison.h"
#include "reports/sample.h"

#include <algorithm>
#include <random>

namespace gk::test {

enum class Serves { halfTheSchools, someChildren, someTeeth };

/// Schools differ (shares kept .85 give or take .12), children about them; lights L-1 and L-2 are
/// the same.
struct IdleLights : SampleTerm {
  base::Recorded<kit::Light> one =
      make.row<kit::Light>({"L-1", kit::LightType::led, {0}, {1000}, true, "M-1"});
  base::Recorded<kit::Light> two =
      make.row<kit::Light>({"L-2", kit::LightType::led, {0}, {1000}, true, "M-1"});
  std::mt19937_64 random;

  explicit IdleLights(std::uint64_t seed) : random(seed) { records.lights = {one, two}; }

  double uniform() { return static_cast<double>(random() >> 11U) * 0x1p-53; }
  double about(double mean, double spread) {
    double sum = -6;
    for (int i = 0; i < 12; ++i)
      sum += uniform();
    return std::clamp(mean + spread * sum, .02, .98);
  }

  void fill(int schools, int children, Serves serves) {
    for (int s = 0; s < schools; ++s) {
      const auto here = school("School " + std::to_string(s), 50);
      const auto then = dayLastYear(here, "2025-10-14");
      const auto now = day(here, "2026-10-13");
      const double atSchool = about(.85, .12);
      for (int c = 0; c < children; ++c) {
        const auto id = child(here);
        const double own = about(atSchool, .20);
        for (const int iso : {16, 26, 36, 46}) {
          const auto placement = place(id, then, iso);
          const bool isTwo = serves == Serves::halfTheSchools ? s % 2 == 0
                             : serves == Serves::someChildren ? c % 2 == 0
                                                              : iso == 16 || iso == 36;
          records.placements.back().value.light = isTwo ? two.id : one.id;
          check(placement, now, uniform() < own ? followup::Held::whole : followup::Held::lost);
        }
      }
    }
  }
};

inline reports::ComparisonOptions idleQuick() {
  reports::ComparisonOptions options;
  options.replicates = 100;
  return options;
}

} // namespace gk::test
