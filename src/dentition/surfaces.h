#pragma once

#include "base/enum_names.h"
#include "dentition/tooth.h"

#include <span>

namespace gk::dentition {

/// Where pits and grooves are sealed. On upper molars the companion surface is the lingual groove,
/// on lower molars the buccal pit.
enum class Surface { occlusal, buccalPit, lingualGroove };
using SurfaceSet = base::EnumSet<Surface>;

/// A tooth with the surfaces meant. Precondition: at least one surface.
struct ToothSurfaces {
  Tooth tooth;
  SurfaceSet surfaces;
  bool operator==(const ToothSurfaces&) const = default;
};

/// Occlusal, and for permanent molars the companion surface.
SurfaceSet usualSurfaces(const Tooth& tooth);
/// Whether a surface is one that people seal on this tooth; others are asked about, not refused.
bool isUsual(const Tooth& tooth, Surface surface);

/// Reads letters such as "O", "OB", "OL" in any order; else `surfaceMalformed`.
base::Result<SurfaceSet> parseSurfaces(std::string_view letters);
/// Reads "3 14:O 19": between spaces a tooth in that notation, with letters of its surfaces or, by
/// itself, with the usual ones. Fails as Tooth::parse and parseSurfaces.
base::Result<std::vector<ToothSurfaces>> parseTeeth(std::string_view text, Notation notation);
/// What `named` has and `others` have not, surface by surface.
std::vector<ToothSurfaces> without(std::span<const ToothSurfaces> named,
                                   std::span<const ToothSurfaces> others);
/// "upper right first molar, 3 (occlusal); ...", surfaces only where they are not the usual ones.
std::string shown(std::span<const ToothSurfaces> teeth, Notation notation);

/// "OB".
std::string letters(SurfaceSet surfaces);
/// "occlusal and buccal pit".
std::string words(SurfaceSet surfaces);

} // namespace gk::dentition

template <>
inline constexpr auto gk::base::enumNames<gk::dentition::Surface> =
    std::to_array<std::string_view>({"occlusal", "buccal pit", "lingual groove"});
template <>
inline constexpr auto gk::base::enumNames<gk::dentition::Notation> =
    std::to_array<std::string_view>({"universal", "iso-3950"});
template <>
inline constexpr auto gk::base::enumNames<gk::dentition::Quadrant> =
    std::to_array<std::string_view>({"upper right", "upper left", "lower left", "lower right"});
