#include "dentition/surfaces.h"

#include "base/text.h"

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
                       "\"" + std::string(letters) +
                           "\" is not a set of surfaces; write O for occlusal, B for buccal pit, "
                           "L for lingual groove, or several, like OL"};
  return surfaces;
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
    parts.emplace_back(base::nameOf(surface));
  return base::join(parts, " and ");
}

} // namespace gk::dentition
