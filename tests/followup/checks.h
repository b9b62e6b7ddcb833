#pragma once

#include "base/random.h"
#include "followup/referral.h"
#include "followup/retention_check.h"

namespace gk::followup::test {

inline base::Date day(int year, unsigned month, unsigned dayOfMonth) {
  return base::Date::of(year, month, dayOfMonth).value();
}

template <class AnyId>
AnyId id(std::uint64_t n) {
  base::SeededRandom random(n);
  return AnyId(base::makeUuid7({}, random));
}

/// A first sealant on both usual surfaces of a molar.
inline chairside::Placement placement(int iso) {
  const auto tooth = dentition::toothAt(iso);
  return {.child = id<roster::ChildId>(1),
          .day = id<roster::DayId>(2),
          .field = id<chairside::FieldId>(3),
          .tooth = tooth,
          .surfaces = dentition::usualSurfaces(tooth),
          .type = chairside::PlacementType::fresh,
          .attempt = chairside::Attempt::complete,
          .placedBy = id<base::MemberId>(4),
          .assistant = {},
          .isolation = chairside::Isolation::cottonRolls,
          .fourHanded = true,
          .sealant = id<kit::LotId>(5),
          .etchant = id<kit::LotId>(6),
          .light = id<kit::LightId>(7),
          .etched = {},
          .cured = {},
          .note = {}};
}

inline RetentionCheck check(Held occlusal, Held buccal = Held::notSealed,
                            Held lingual = Held::notSealed) {
  return {.placement = id<chairside::PlacementId>(8),
          .child = id<roster::ChildId>(1),
          .day = id<roster::DayId>(9),
          .kind = CheckKind::longTerm,
          .occlusal = occlusal,
          .buccal = buccal,
          .lingual = lingual,
          .note = {}};
}

} // namespace gk::followup::test
