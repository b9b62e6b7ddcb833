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

base::Result<base::Done> checkUsable(const Lot& lot, base::Date on) {
  if (lot.expiry < on)
    return Error{ErrorCode::ruleMaterial,
                 shown(lot) + " expired on " + lot.expiry.iso() + "; take another lot"};
  if (lot.quarantined)
    return Error{ErrorCode::ruleMaterial,
                 shown(lot) + " is in quarantine: " + lot.quarantineReason};
  if (lot.usedUpOn && *lot.usedUpOn < on)
    return Error{ErrorCode::ruleMaterial, shown(lot) + " was used up on " + lot.usedUpOn->iso() +
                                              "; take another lot, or count what is left of it"};
  return base::Done{};
}

} // namespace gk::kit
