#include "estimates/screening_measures.h"

#include "estimates/checks.h"

#include <algorithm>
#include <map>
#include <utility>

namespace gk::estimates {
namespace {

using Claim = bool (*)(const ScreenedChild&);

std::vector<Cluster> clustersOf(std::span<const ScreenedChild> children, ScreeningDesign design,
                                Claim claim) {
  std::vector<Cluster> alone;
  std::map<std::size_t, Cluster> schools;
  for (const auto& child : children) {
    const double with = claim(child) ? 1 : 0;
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
  const std::pair<RetentionEstimate ScreeningMeasures::*, Claim> measures[]{
      {&ScreeningMeasures::untreatedDecay, [](const auto& c) { return c.untreatedDecay; }},
      {&ScreeningMeasures::treatedDecay, [](const auto& c) { return c.treatedDecay; }},
      {&ScreeningMeasures::cariesExperience,
       [](const auto& c) { return c.untreatedDecay || c.treatedDecay; }},
      {&ScreeningMeasures::sealants, [](const auto& c) { return c.sealants; }},
      {&ScreeningMeasures::anyNeed, [](const auto& c) { return c.need != CareNeed::none; }},
      {&ScreeningMeasures::urgentNeed, [](const auto& c) { return c.need == CareNeed::urgent; }}};
  ScreeningMeasures out{};
  for (const auto& [member, claim] : measures) {
    auto found = retention(clustersOf(children, design, claim), level);
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
