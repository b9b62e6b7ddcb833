#include "kit/light.h"

#include <algorithm>
#include <functional>
#include <vector>

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

const base::Recorded<MeterReading>* newestOn(const Light& light,
                                             std::span<const base::Recorded<MeterReading>> readings,
                                             base::Date on) {
  const base::Recorded<MeterReading>* newest = nullptr;
  for (const auto& one : readings) {
    if (one.value.on != on || grade(light, one.value) == LightGrade::notComparable) continue;
    if (!newest || newest->stamp.entry < one.stamp.entry) newest = &one;
  }
  return newest;
}

LightGrade gradeOn(const Light& light, std::span<const base::Recorded<MeterReading>> readings,
                   base::Date on) {
  const auto* newest = newestOn(light, readings, on);
  return newest ? grade(light, newest->value) : LightGrade::notComparable;
}

std::string readingQuestion(const Light& light,
                            std::span<const base::Recorded<MeterReading>> earlier,
                            const MeterReading& reading) {
  constexpr std::size_t looksBack = 3;
  const auto isNear = [&](MilliwattPerSquareCm known) {
    return reading.value.value * 2 >= known.value && reading.value.value * 2 <= known.value * 3;
  };
  std::vector<const base::Recorded<MeterReading>*> last;
  for (const auto& one : earlier)
    last.push_back(&one);
  std::ranges::sort(last, std::greater(), [](const auto* one) { return one->stamp.entry; });
  if (last.size() > looksBack) last.resize(looksBack);
  const bool hasBaseline = light.baseline.value > 0;
  if (!hasBaseline && last.empty()) return {};
  if (hasBaseline && isNear(light.baseline)) return {};
  if (std::ranges::any_of(last, [&](const auto* one) { return isNear(one->value.value); }))
    return {};
  auto question = "light " + light.tag + " can hardly read " + std::to_string(reading.value.value) +
                  " mW/cm²: ";
  if (hasBaseline) question += "its baseline is " + std::to_string(light.baseline.value);
  if (!last.empty())
    question += (hasBaseline ? ", and it" : "it") + std::string(" read ") +
                std::to_string(last.front()->value.value.value) + " on " +
                last.front()->value.on.words();
  return question;
}

} // namespace gk::kit
