#include "dentition/surfaces.h"

#include "base/text/text.h"
#include "dentition/display_names.h"

namespace gk::dentition {

SurfaceSet usualSurfaces(const Tooth& tooth) {
  SurfaceSet surfaces{Surface::occlusal};
  if (!tooth.isPrimary() && tooth.isMolar())
    surfaces.add(tooth.isUpper() ? Surface::lingualGroove : Surface::buccalPit);
  return surfaces;
}

bool isUsual(const Tooth& tooth, Surface surface) {
  return usualSurfaces(tooth).has(surface);
}

base::Result<SurfaceSet> parseSurfaces(std::string_view letters) {
  SurfaceSet surfaces;
  for (char letter : base::trim(letters)) {
    switch (letter) {
    case 'O':
      surfaces.add(Surface::occlusal);
      break;
    case 'B':
      surfaces.add(Surface::buccalPit);
      break;
    case 'L':
      surfaces.add(Surface::lingualGroove);
      break;
    default:
      surfaces = {};
      break;
    }
    if (surfaces.isEmpty()) break;
  }
  if (surfaces.isEmpty())
    return base::Error{base::ErrorCode::surfaceMalformed,
                       "those are not surfaces; write O for occlusal, B for buccal pit, "
                       "L for lingual groove, or several, like OL"};
  return surfaces;
}

base::Result<std::vector<ToothSurfaces>> parseTeeth(std::string_view text, Notation notation) {
  std::vector<ToothSurfaces> teeth;
  for (const auto word : base::split(text, ' ')) {
    if (word.empty()) continue;
    const auto colon = word.find(':');
    const auto tooth = Tooth::parse(word.substr(0, colon), notation);
    if (!tooth) return tooth.error();
    auto surfaces = usualSurfaces(*tooth);
    if (colon != std::string_view::npos) {
      const auto named = parseSurfaces(word.substr(colon + 1));
      if (!named) return named.error();
      surfaces = *named;
    }
    teeth.push_back({*tooth, surfaces});
  }
  return teeth;
}

std::vector<ToothSurfaces> without(std::span<const ToothSurfaces> named,
                                   std::span<const ToothSurfaces> others) {
  std::vector<ToothSurfaces> left;
  for (auto [tooth, surfaces] : named) {
    for (const auto& other : others)
      if (other.tooth == tooth) surfaces = surfaces.without(other.surfaces);
    if (!surfaces.isEmpty()) left.push_back({tooth, surfaces});
  }
  return left;
}

std::string shown(std::span<const ToothSurfaces> teeth, Notation notation) {
  std::vector<std::string> parts;
  for (const auto& [tooth, surfaces] : teeth)
    parts.push_back(tooth.shown(notation) +
                    (surfaces == usualSurfaces(tooth) ? "" : " (" + words(surfaces) + ")"));
  return base::join(parts, "; ");
}

std::string letters(SurfaceSet surfaces) {
  std::string out;
  for (Surface surface : surfaces.values())
    out += "OBL"[static_cast<std::size_t>(surface)];
  return out;
}

std::string words(SurfaceSet surfaces) {
  std::vector<std::string> parts;
  for (Surface surface : surfaces.values())
    parts.emplace_back(base::displayName(surface));
  return base::join(parts, " and ");
}

} // namespace gk::dentition
