#pragma once

#include "base/enum_names.h"
#include "base/identity/id.h"
#include "base/time/clock.h"
#include "kit/light.h"

#include <optional>
#include <span>
#include <string>

namespace gk::kit {

using LotId = base::Id<struct LotTag>;
using CureTimeId = base::Id<struct CureTimeTag>;

enum class MaterialKind {
  sealantLightCure,
  sealantSelfCure,
  glassIonomer,
  etchant,
  bondingAgent,
  varnish
};

enum class Contains { acrylate, rosin, latex, fluoride };
using ContentSet = base::EnumSet<Contains>;

/// One lot of one material.
struct Lot {
  using Key = LotId;
  MaterialKind kind;
  std::string material; ///< the program's own name for it
  std::string lot;
  base::Date expiry;          ///< the last day it may be used
  base::Seconds makersTime{}; ///< least cure, set or etch time by the maker; 0 when none
  ContentSet contains;
  bool quarantined = false;
  std::string quarantineReason;
  std::optional<base::Date> usedUpOn{}; ///< nothing was left of it on this day
  bool operator==(const Lot&) const = default;
};

/// What the light's and the material's makers ask together, in seconds for each exposure.
struct CureTime {
  using Key = CureTimeId;
  LightId light;
  std::string material;
  base::Seconds seconds;
  bool operator==(const CureTime&) const = default;
};

bool isSealant(MaterialKind kind);

/// The exposure asked for: the table's time for that light and material, never under the
/// material maker's; the maker's alone when the table has no row.
base::Seconds cureTarget(const Lot& sealant, LightId light, std::span<const CureTime> table);

/// Why a lot may not be used on a day.
enum class LotRefusal { expired, setAside, usedUp };
/// None when it may be used.
std::optional<LotRefusal> refusalOf(const Lot& lot, base::Date on);

/// Fails with `ruleMaterial` when expired on that day, quarantined, or used up before it.
base::Result<base::Done> checkUsable(const Lot& lot, base::Date on);

/// "Resin Fern lot RF-2609".
std::string shown(const Lot& lot);

} // namespace gk::kit

template <>
inline constexpr auto gk::base::enumNames<gk::kit::MaterialKind> =
    std::to_array<std::string_view>({"light-cure sealant", "self-cure sealant", "glass ionomer",
                                     "etchant", "bonding agent", "varnish"});
template <>
inline constexpr auto gk::base::enumNames<gk::kit::LotRefusal> =
    std::to_array<std::string_view>({"expired", "set aside", "used up"});
template <>
inline constexpr auto gk::base::enumNames<gk::kit::Contains> =
    std::to_array<std::string_view>({"acrylate", "rosin", "latex", "fluoride"});
