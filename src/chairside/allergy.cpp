#include "chairside/allergy.h"

#include "chairside/display_names.h"

#include <algorithm>

namespace gk::chairside {

namespace {

std::optional<kit::Contains> forbidden(roster::FlagKind kind) {
  if (kind == roster::FlagKind::acrylateAllergy) return kit::Contains::acrylate;
  if (kind == roster::FlagKind::rosinReaction) return kit::Contains::rosin;
  if (kind == roster::FlagKind::latexAllergy) return kit::Contains::latex;
  return std::nullopt;
}

/// What is in it: what its entry says, and what every material of its kind has, also where no one
/// checked that when it was entered, or where it was entered at the chair.
kit::ContentSet contentsOf(const kit::Lot& lot) {
  auto contents = lot.contains;
  const bool isResin = lot.kind == kit::MaterialKind::sealantLightCure ||
                       lot.kind == kit::MaterialKind::sealantSelfCure ||
                       lot.kind == kit::MaterialKind::bondingAgent;
  if (isResin) contents.add(kit::Contains::acrylate);
  return contents;
}

} // namespace

base::Result<base::Done> checkAllergy(const kit::Lot& lot,
                                      std::span<const base::Recorded<roster::MedicalFlag>> flags) {
  for (const auto& [id, stamp, flag] : flags) {
    const auto content = forbidden(flag.kind);
    if (flag.resolved || flag.action != roster::FlagAction::stop || !content) continue;
    if (contentsOf(lot).has(*content))
      return base::Error{base::ErrorCode::ruleAllergy,
                         "medical alert: " + std::string(base::displayName(flag.kind)) + "; " +
                             kit::shown(lot) + " contains " +
                             std::string(base::displayName(*content))};
  }
  return base::Done{};
}

bool isAlert(const roster::MedicalFlag& flag) {
  return !flag.resolved && flag.action == roster::FlagAction::stop;
}

std::string avoidWords(const roster::MedicalFlag& flag) {
  using roster::FlagKind;
  if (flag.kind == FlagKind::latexAllergy)
    return "No latex: latex-free gloves, dam and cups, from the first glove on";
  if (flag.kind == FlagKind::acrylateAllergy)
    return "No resin: no resin sealant or bonding agent, not even on a glove";
  if (flag.kind == FlagKind::rosinReaction)
    return "No rosin: no varnish that contains it, no adhesive bandage";
  return "Do not start until a clinician has decided: " + std::string(base::displayName(flag.kind));
}

base::Result<base::Done> checkHeard(std::span<const roster::FlagId> heard, Flags flags) {
  for (const auto& [id, stamp, flag] : flags)
    if (isAlert(flag) && std::ranges::find(heard, id) == heard.end())
      return base::Error{base::ErrorCode::ruleAllergy,
                         "an alert is not read yet: " + avoidWords(flag) +
                             (flag.detail.empty() ? "" : " (" + flag.detail + ")")};
  return base::Done{};
}

} // namespace gk::chairside
