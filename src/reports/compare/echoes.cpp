#include "reports/compare/echoes.h"

#include "base/text/text.h"

#include <algorithm>
#include <cmath>

namespace gk::reports {

namespace {

/// The teeth on either side of a finding, each with its counts by school.
struct TeethOfSides {
  std::vector<const FactorValue*> own;
  std::vector<const FactorValue*> others;
};

const FactorComparison* byTooth(std::span<const FactorComparison> compared) {
  const auto found = std::ranges::find(compared, Factor::tooth, &FactorComparison::factor);
  return found == compared.end() ? nullptr : &*found;
}

/// Each tooth is named after its jaw.
bool isOfJaw(const FactorValue& tooth, const std::string& jaw) {
  return tooth.line.label.starts_with(jaw);
}

std::string jawOf(const std::string& tooth) {
  return tooth.substr(0, tooth.find(' '));
}

TeethOfSides sidesOf(const StandingOut& one, const FactorComparison& teeth) {
  TeethOfSides out;
  for (const auto& tooth : teeth.values) {
    const bool isOwn =
        one.factor == Factor::arch ? isOfJaw(tooth, one.label) : tooth.line.label == one.label;
    (isOwn ? out.own : out.others).push_back(&tooth);
  }
  return out;
}

/// By school, or all schools as one.
HeldBySchool summed(const std::vector<const FactorValue*>& teeth, FactorLevel level) {
  HeldBySchool out;
  for (const auto* tooth : teeth)
    for (const auto& [school, held] : tooth->bySchool) {
      auto& sum = out[level == FactorLevel::withinSchools ? school : FactorCode{}];
      sum.whole += held.whole;
      sum.assessable += held.assessable;
    }
  return out;
}

double shareHeld(const HeldTeeth& held) {
  return static_cast<double>(held.whole) / held.assessable;
}

/// The difference of the two sides' shares within strata, each stratum weighted as in Mantel and
/// Haenszel's odds ratio; none where no stratum has both.
std::optional<double> differenceOf(const TeethOfSides& sides, FactorLevel level) {
  const auto own = summed(sides.own, level);
  const auto others = summed(sides.others, level);
  double difference = 0;
  double weights = 0;
  for (const auto& [stratum, held] : own) {
    const auto other = others.find(stratum);
    if (other == others.end() || held.assessable == 0 || other->second.assessable == 0) continue;
    const double weight = static_cast<double>(held.assessable) * other->second.assessable /
                          (held.assessable + other->second.assessable);
    difference += weight * (shareHeld(held) - shareHeld(other->second));
    weights += weight;
  }
  if (weights == 0) return std::nullopt;
  return difference / weights;
}

/// Takes the teeth of what was told out of both sides; of a jaw that was told, a tooth is held
/// against the other teeth of its own jaw. What was taken out, in words; empty where nothing was.
std::string takeAway(TeethOfSides& from, const StandingOut& one, const StandingOut& told) {
  if (told.factor == Factor::tooth) {
    const auto isTold = [&](const auto* tooth) { return tooth->line.label == told.label; };
    std::erase_if(from.own, isTold);
    std::erase_if(from.others, isTold);
    return told.label;
  }
  if (told.factor != Factor::arch || one.factor != Factor::tooth) return {};
  const auto jaw = jawOf(one.label);
  std::erase_if(from.others, [&](const auto* tooth) { return !isOfJaw(*tooth, jaw); });
  return jaw == "upper" ? "lower teeth" : "upper teeth";
}

/// Of the own share, in points of a percentage.
std::string against(double difference) {
  if (difference == 0) return "no difference";
  return base::percent(std::abs(difference)) +
         (difference < 0 ? " points lower" : " points higher");
}

/// What is left of the finding; nothing where it stands on its own.
std::optional<std::string> echoOf(const StandingOut& one, std::span<const StandingOut> told,
                                  const FactorComparison& teeth) {
  auto sides = sidesOf(one, teeth);
  const auto before = differenceOf(sides, one.level);
  std::vector<std::string> without;
  for (const auto& other : told)
    if (auto words = takeAway(sides, one, other); !words.empty())
      without.push_back(std::move(words));
  if (without.empty() || !before) return std::nullopt;
  const auto after = differenceOf(sides, one.level);
  if (after && *after * *before > 0 && std::abs(*after) >= std::abs(*before) / 2)
    return std::nullopt;
  const auto subject = one.label + ", without " + base::join(without, " and ") + ": ";
  if (!after) return subject + "nothing left to compare it with";
  return subject + against(*after) +
         (one.level == FactorLevel::withinSchools ? " within schools" : "") + " (with all teeth " +
         against(*before) + ")";
}

} // namespace

std::vector<std::string> takeOutEchoes(std::vector<StandingOut>& found,
                                       std::span<const FactorComparison> compared) {
  const auto* teeth = byTooth(compared);
  if (!teeth) return {};
  std::vector<StandingOut> told;
  std::vector<std::string> echoes;
  for (auto& one : found) {
    const bool isOfTeeth = one.factor == Factor::tooth || one.factor == Factor::arch;
    if (auto echo = isOfTeeth ? echoOf(one, told, *teeth) : std::nullopt)
      echoes.push_back(*std::move(echo));
    else
      told.push_back(std::move(one));
  }
  found = std::move(told);
  return echoes;
}

} // namespace gk::reports
