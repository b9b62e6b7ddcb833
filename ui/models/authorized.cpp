#include "ui/models/authorized.h"

#include <algorithm>

namespace gk::ui {

using chairside::ToothFinding;
using dentition::ToothSurfaces;

namespace {

std::vector<ToothSurfaces> chosen(const std::vector<ToothFinding>& teeth) {
  std::vector<ToothSurfaces> out;
  for (const auto& finding : teeth)
    if (chairside::isTreatment(finding.decision)) out.push_back({finding.tooth, finding.toSeal});
  return out;
}

std::vector<ToothSurfaces> authorized(const ChairFile& file) {
  return chairside::authorizedTeeth(file.authorizations, file.day.value.date);
}

bool names(const std::vector<ToothSurfaces>& teeth, const dentition::Tooth& tooth) {
  return std::ranges::find(teeth, tooth, &ToothSurfaces::tooth) != teeth.end();
}

} // namespace

std::vector<ToothSurfaces> notAuthorized(const ChairFile& file,
                                         const std::vector<ToothFinding>& teeth) {
  if (!chairside::waitsForDentist(file.program.value)) return {};
  return dentition::without(chosen(teeth), authorized(file));
}

std::vector<ToothFinding> mayPlace(const ChairFile& file, std::vector<ToothFinding> teeth) {
  const auto held = notAuthorized(file, teeth);
  std::erase_if(teeth, [&](const auto& finding) { return names(held, finding.tooth); });
  return teeth;
}

std::string againstAuthorized(const ChairFile& file, const std::vector<ToothFinding>& teeth) {
  if (!chairside::waitsForDentist(file.program.value)) return {};
  const auto notation = file.program.value.notation;
  const auto found = chosen(teeth);
  auto unused = authorized(file);
  auto words = "Authorized " + std::to_string(unused.size()) + ", found " +
               std::to_string(found.size()) + ".";
  if (unused.empty()) words = "WAITING for the dentist's exam. " + words;
  if (const auto held = notAuthorized(file, teeth); !held.empty())
    words += " NOT AUTHORIZED: " + dentition::shown(held, notation) + ". Call the dentist.";
  std::erase_if(unused, [&](const auto& named) { return names(found, named.tooth); });
  if (!unused.empty())
    words += " Authorized, not selected: " + dentition::shown(unused, notation) + ".";
  return words;
}

} // namespace gk::ui
