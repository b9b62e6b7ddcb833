#include "kit/twins.h"

#include "base/text/text.h"

#include <algorithm>
#include <map>

namespace gk::kit {

namespace {

std::string calledAs(const Lot& lot) {
  return base::folded(lot.material) + "\n" + base::folded(lot.lot);
}

std::string calledAs(const Light& light) {
  return base::folded(light.tag);
}

void takeCare(Lot& lot, const Lot& twin) {
  if (twin.quarantined && !lot.quarantined) lot.quarantineReason = twin.quarantineReason;
  lot.quarantined = lot.quarantined || twin.quarantined;
  lot.expiry = std::min(lot.expiry, twin.expiry);
  lot.makersTime = std::max(lot.makersTime, twin.makersTime);
  for (const auto one : twin.contains.values())
    lot.contains.add(one);
}

void takeCare(Light& light, const Light& twin) {
  light.inService = light.inService && twin.inService;
}

template <class T>
void agreeAll(std::vector<base::Recorded<T>>& rows) {
  std::map<std::string, std::vector<T*>> alike;
  for (auto& row : rows)
    alike[calledAs(row.value)].push_back(&row.value);
  for (auto& [called, twins] : alike) {
    for (auto* one : twins)
      takeCare(*twins.front(), *one);
    for (auto* one : twins)
      takeCare(*one, *twins.front());
  }
}

} // namespace

bool areTwins(const Lot& one, const Lot& other) {
  return calledAs(one) == calledAs(other);
}

bool areTwins(const Light& one, const Light& other) {
  return calledAs(one) == calledAs(other);
}

void agree(std::vector<base::Recorded<Lot>>& lots) {
  agreeAll(lots);
}

void agree(std::vector<base::Recorded<Light>>& lights) {
  agreeAll(lights);
}

} // namespace gk::kit
