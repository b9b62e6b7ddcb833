#include "estimates/attack_rate/attack_rate_exposure.h"

#include "base/contract.h"
#include "estimates/numbers/checks.h"

#include <algorithm>
#include <string>

namespace gk::estimates {
namespace {

base::Result<base::Done> checkAges(const EruptionAges& ages) {
  for (const double age : {ages.girlsUpper, ages.girlsLower, ages.boysUpper, ages.boysLower})
    if (!(age >= 4 && age <= 12))
      return refused("The age at eruption is " + shown(age) +
                     " years; give one from 4 to 12 for a first permanent molar.");
  return base::Done{};
}

} // namespace

double EruptionAges::of(MolarSex sex, MolarArch arch) const {
  const bool isUpper = arch == MolarArch::upper;
  const double girls = isUpper ? girlsUpper : girlsLower;
  const double boys = isUpper ? boysUpper : boysLower;
  switch (sex) {
  case MolarSex::female:
    return girls;
  case MolarSex::male:
    return boys;
  case MolarSex::notStated:
    return (girls + boys) / 2;
  }
  base::fail("a sex without an eruption age");
}

base::Result<std::vector<Exposure>> exposures(std::span<const ScreenedMolar> molars,
                                              const EruptionAges& ages) {
  if (auto checked = checkAges(ages); !checked) return checked.error();
  std::vector<Exposure> out;
  for (std::size_t i = 0; i < molars.size(); ++i) {
    const auto& [age, sex, arch, isAffected, child] = molars[i];
    if (!(age >= 0 && age <= 120))
      return refused("Molar " + std::to_string(i + 1) + ": the age at screening is " + shown(age) +
                     " years; give one from 0 to 120.");
    const double years = age - ages.of(sex, arch);
    // The molars of a child come one after another, and a child has few.
    constexpr std::ptrdiff_t most = 4;
    const auto from = out.end() - std::min<std::ptrdiff_t>(most, std::ssize(out));
    auto row = std::find_if(from, out.end(), [child = child, years](const Exposure& known) {
      return known.child == child && known.years == years;
    });
    if (row == out.end()) row = out.insert(out.end(), {years, 0, 0, child});
    ++row->examined;
    if (isAffected) ++row->affected;
  }
  return out;
}

} // namespace gk::estimates
