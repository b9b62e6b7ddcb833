#include "kit/light.h"

namespace gk::kit {

LightGrade grade(const Light& light, const MeterReading& reading) {
  if (reading.value < light.makersLeast) return LightGrade::red;
  const bool comparable = reading.withSleeve == light.baselineWithSleeve && !light.meter.empty() &&
                          reading.meter == light.meter && light.baseline.value > 0;
  if (!comparable) return LightGrade::notComparable;
  // In whole tenths of the baseline, so that exactly 20 % below is red without rounding.
  const int tenTimes = reading.value.value * 10;
  if (tenTimes <= light.baseline.value * 8) return LightGrade::red;
  if (tenTimes <= light.baseline.value * 9) return LightGrade::amber;
  return LightGrade::green;
}

} // namespace gk::kit
