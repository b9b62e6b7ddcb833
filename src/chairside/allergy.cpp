#include "chairside/allergy.h"

namespace gk::chairside {

namespace {

std::optional<kit::Contains> forbidden(roster::FlagKind kind) {
  if (kind == roster::FlagKind::acrylateAllergy) return kit::Contains::acrylate;
  if (kind == roster::FlagKind::rosinReaction) return kit::Contains::rosin;
  if (kind == roster::FlagKind::latexAllergy) return kit::Contains::latex;
  return std::nullopt;
}

} // namespace

base::Result<base::Done> checkAllergy(const kit::Lot& lot,
                                      std::span<const base::Recorded<roster::MedicalFlag>> flags) {
  for (const auto& [id, stamp, flag] : flags) {
    const auto content = forbidden(flag.kind);
    if (flag.resolved || flag.action != roster::FlagAction::stop || !content) continue;
    if (lot.contains.has(*content))
      return base::Error{base::ErrorCode::ruleAllergy,
                         "STOP: " + std::string(base::nameOf(flag.kind)) + ", and " +
                             kit::shown(lot) + " contains " + std::string(base::nameOf(*content))};
  }
  return base::Done{};
}

} // namespace gk::chairside
