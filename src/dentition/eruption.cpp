#include "dentition/eruption.h"

#include "base/text/text.h"

#include <algorithm>

namespace gk::dentition {

namespace {

constexpr double inYears(int years, int months) {
  return years + months / 12.0;
}

} // namespace

std::optional<EruptionWindow> eruptionWindow(const Tooth& tooth, Sex sex) {
  const bool first = tooth.isFirstPermanentMolar();
  if (!first && !tooth.isSecondPermanentMolar()) return std::nullopt;
  const EruptionWindow girls = first ? EruptionWindow{inYears(5, 3), 6.1, inYears(7, 8)}
                                     : EruptionWindow{inYears(8, 11), 11.3, inYears(14, 4)};
  const EruptionWindow boys = first ? EruptionWindow{inYears(5, 2), 6.3, inYears(7, 10)}
                                    : EruptionWindow{inYears(9, 11), 12.0, inYears(13, 11)};
  if (sex == Sex::female) return girls;
  if (sex == Sex::male) return boys;
  return EruptionWindow{std::min(girls.earliest, boys.earliest), (girls.mean + boys.mean) / 2,
                        std::max(girls.latest, boys.latest)};
}

std::string eruptionQuestion(const Tooth& tooth, Sex sex, double ageYears) {
  const auto window = eruptionWindow(tooth, sex);
  if (!window || ageYears >= window->earliest) return {};
  const auto before = tooth.isFirstPermanentMolar() ? "a primary second molar" : "a first molar";
  return "The " + tooth.words() + " is seldom erupted before " + base::fixed(window->earliest, 1) +
         " years; is it perhaps " + before + "?";
}

} // namespace gk::dentition
