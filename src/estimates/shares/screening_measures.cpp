#include "estimates/shares/screening_measures.h"

#include "estimates/numbers/checks.h"
#include "estimates/shares/program_share.h"

#include <algorithm>
#include <map>
#include <set>
#include <utility>

namespace gk::estimates {
namespace {

using Claim = std::optional<bool> (*)(const ScreenedChild&);

std::optional<bool> experience(const ScreenedChild& child) {
  if (child.untreatedDecay == true || child.treatedDecay == true) return true;
  if (child.untreatedDecay && child.treatedDecay) return false;
  return std::nullopt;
}

std::vector<Cluster> clustersOf(std::span<const ScreenedChild> children, ScreeningDesign design,
                                Claim claim) {
  std::vector<Cluster> alone;
  std::map<std::size_t, Cluster> schools;
  for (const auto& child : children) {
    const auto known = claim(child);
    if (!known) continue;
    const double with = *known ? 1 : 0;
    if (design == ScreeningDesign::simpleRandom) {
      alone.push_back({1, with});
      continue;
    }
    auto& school = schools.try_emplace(child.school, Cluster{0, 0}).first->second;
    school.examined += 1;
    school.retained += with;
  }
  for (const auto& [label, school] : schools)
    alone.push_back(school);
  return alone;
}

} // namespace

base::Result<ScreeningMeasures> screeningMeasures(std::span<const ScreenedChild> children,
                                                  ScreeningDesign design, double level) {
  if (children.empty())
    return refused("No child was screened, so there is no share to state; screen some first.");
  using Measure = std::optional<RetentionEstimate> ScreeningMeasures::*;
  const std::pair<Measure, Claim> measures[]{
      {&ScreeningMeasures::untreatedDecay, [](const auto& c) { return c.untreatedDecay; }},
      {&ScreeningMeasures::treatedDecay, [](const auto& c) { return c.treatedDecay; }},
      {&ScreeningMeasures::cariesExperience, experience},
      {&ScreeningMeasures::sealants, [](const auto& c) { return c.sealants; }},
      {&ScreeningMeasures::anyNeed,
       [](const auto& c) { return std::optional(c.need != CareNeed::none); }},
      {&ScreeningMeasures::urgentNeed,
       [](const auto& c) { return std::optional(c.need == CareNeed::urgent); }}};
  std::set<std::size_t> schools;
  for (const auto& child : children)
    schools.insert(child.school);
  const auto units = programUnits(schools.size());
  ScreeningMeasures out{};
  for (const auto& [member, claim] : measures) {
    const bool isProgram = design == ScreeningDesign::program;
    const auto clusters =
        clustersOf(children, isProgram ? ScreeningDesign::simpleRandom : design, claim);
    if (clusters.empty()) continue;
    auto found = isProgram
                     ? programShare(clusters, clustersOf(children, ScreeningDesign::schools, claim),
                                    units, level)
                     : retention(clusters, level);
    if (!found) return found.error();
    out.*member = std::move(found).value();
  }
  return out;
}

base::Result<Interval> experienceBounds(double untreated, double treated) {
  if (auto checked = checkShare("The share with untreated decay", untreated); !checked)
    return checked.error();
  if (auto checked = checkShare("The share with treated decay", treated); !checked)
    return checked.error();
  return Interval{std::max(untreated, treated), std::min(1.0, untreated + treated)};
}

} // namespace gk::estimates
