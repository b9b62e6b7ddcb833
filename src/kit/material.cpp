#include "kit/material.h"

#include <algorithm>

namespace gk::kit {

using base::Error;
using base::ErrorCode;

std::string shown(const Lot& lot) {
  return lot.material + " lot " + lot.lot;
}

bool isSealant(MaterialKind kind) {
  return kind == MaterialKind::sealantLightCure || kind == MaterialKind::sealantSelfCure ||
         kind == MaterialKind::glassIonomer;
}

base::Seconds cureTarget(const Lot& sealant, LightId light, std::span<const CureTime> table) {
  auto target = sealant.makersTime;
  for (const auto& row : table)
    if (row.light == light && row.material == sealant.material)
      target = std::max(target, row.seconds);
  return target;
}

std::optional<LotRefusal> refusalOf(const Lot& lot, base::Date on) {
  if (lot.expiry < on) return LotRefusal::expired;
  if (lot.quarantined) return LotRefusal::setAside;
  if (lot.usedUpOn && *lot.usedUpOn < on) return LotRefusal::usedUp;
  return std::nullopt;
}

base::Result<base::Done> checkUsable(const Lot& lot, base::Date on) {
  const auto refusal = refusalOf(lot, on);
  if (!refusal) return base::Done{};
  switch (*refusal) {
  case LotRefusal::expired:
    return Error{ErrorCode::ruleMaterial,
                 shown(lot) + " expired on " + lot.expiry.words() + "; take another lot"};
  case LotRefusal::setAside:
    return Error{ErrorCode::ruleMaterial, shown(lot) + " is set aside: " + lot.quarantineReason};
  case LotRefusal::usedUp:
    return Error{ErrorCode::ruleMaterial, shown(lot) + " was used up on " + lot.usedUpOn->words() +
                                              "; take another lot, or count what is left of it"};
  }
  base::fail("no such refusal");
}

} // namespace gk::kit
