#include "reports/decay/exposures.h"

#include "dentition/eruption.h"
#include "reports/records/term_view.h"

#include <algorithm>
#include <set>

namespace gk::reports {

namespace {

using chairside::Condition;
using chairside::Presence;
using chairside::ToothFinding;

template <class Claim>
bool anySurface(const ToothFinding& finding, Claim claim) {
  return std::ranges::any_of(
      base::EnumSet<dentition::Surface>::all().values(),
      [&](dentition::Surface surface) { return claim(finding.at(surface)); });
}

/// Up and looked at, or gone: its fate is known.
bool isKnown(const ToothFinding& finding) {
  if (finding.presence == Presence::extracted) return true;
  return (finding.presence == Presence::erupted || finding.presence == Presence::partlyErupted) &&
         anySurface(finding, [](const auto& at) { return at.condition != Condition::notLookedAt; });
}

bool looksEverSealed(const ToothFinding& finding) {
  return anySurface(finding, [](const auto& at) {
    return at.condition == Condition::sealedWhole || at.condition == Condition::sealedPart ||
           at.origin != chairside::Origin::notSealed;
  });
}

bool isAffected(const ToothFinding& finding) {
  return finding.presence == Presence::extracted || finding.hasAny(Condition::cavitated) ||
         finding.hasAny(Condition::restored) || finding.hasAny(Condition::crowned);
}

double eruptionAge(const dentition::Tooth& tooth, dentition::Sex sex) {
  const bool isStated = sex == dentition::Sex::female || sex == dentition::Sex::male;
  const auto window = dentition::eruptionWindow(tooth, sex);
  if (isStated && window) return window->mean;
  if (tooth.isFirstPermanentMolar()) return estimates::defaultEruptionAge;
  const auto girls = dentition::eruptionWindow(tooth, dentition::Sex::female);
  const auto boys = dentition::eruptionWindow(tooth, dentition::Sex::male);
  return (girls->mean + boys->mean) / 2; // every second permanent molar has both
}

class Reader {
 public:
  Reader(const TermView& view, ExposureRows& out) : view_(view), out_(out) {
    for (const auto& row : view.records.placements) {
      const auto on = view.dateOf(row.value.day);
      if (on && chairside::countsAsSealant(row.value))
        sealed_[{row.value.child, row.value.tooth}].insert(*on);
    }
  }

  void read() {
    const PerChild<chairside::Screening> ever(view_.records.screenings, [&](const auto& row) {
      const auto* day = view_.days.find(row.value.day);
      return day && !day->canceled && day->date <= view_.records.asOf;
    });
    std::size_t label = 0;
    for (const auto& row : view_.records.children) {
      if (view_.screenings.of(row.id).empty()) continue;
      const auto& screenings = ever.of(row.id);
      const auto* first = *std::ranges::min_element(screenings, {}, [&](const auto* one) {
        return std::pair(view_.dateOf(one->value.day), one->stamp.entry);
      });
      if (view_.isOfTerm(first->value.day))
        addChild(row.value, first->value, label++);
      else
        ++out_.seenBefore;
    }
  }

 private:
  using ByYears = std::map<double, estimates::Exposure>;

  void addChild(const roster::Child& child, const chairside::Screening& screening,
                std::size_t label) {
    const auto on = *view_.dateOf(screening.day);
    const double age = roster::approximateAge(child.birth, on);
    ByYears firsts;
    ByYears seconds;
    for (const auto& finding : screening.teeth) {
      const bool isFirst = finding.tooth.isFirstPermanentMolar();
      if (!isFirst && !finding.tooth.isSecondPermanentMolar()) continue;
      if (!isKnown(finding)) {
        out_.notSeenLeftOut += isFirst ? 1 : 0;
      } else if (looksEverSealed(finding) || wasSealed(screening.child, finding.tooth, on)) {
        out_.everSealedLeftOut += isFirst ? 1 : 0;
      } else {
        const double years = age - eruptionAge(finding.tooth, child.sex);
        auto& at = (isFirst ? firsts : seconds)
                       .try_emplace(years, estimates::Exposure{years, 0, 0, label})
                       .first->second;
        at.examined += 1;
        at.affected += isAffected(finding) ? 1 : 0;
        out_.extracted += isFirst && finding.presence == Presence::extracted ? 1 : 0;
      }
    }
    for (const auto& [years, exposure] : firsts)
      out_.schools[view_.days.find(screening.day)->school].push_back(exposure);
    for (const auto& [years, exposure] : seconds)
      out_.seconds[view_.days.find(screening.day)->school].push_back(exposure);
  }

  [[nodiscard]] bool wasSealed(const roster::ChildId& child, const dentition::Tooth& tooth,
                               base::Date on) const {
    const auto at = sealed_.find({child, tooth});
    return at != sealed_.end() && *at->second.begin() < on;
  }

  const TermView& view_;
  ExposureRows& out_;
  std::map<std::pair<roster::ChildId, dentition::Tooth>, std::set<base::Date>> sealed_;
};

} // namespace

ExposureRows exposuresOf(const TermView& view) {
  ExposureRows out;
  Reader(view, out).read();
  return out;
}

namespace {

std::vector<estimates::Exposure> pooled(const ExposureRows::BySchool& schools) {
  std::vector<estimates::Exposure> rows;
  for (const auto& [school, own] : schools)
    rows.insert(rows.end(), own.begin(), own.end());
  return rows;
}

/// The same with the school in the place of the child.
std::vector<estimates::Exposure> asSchools(const ExposureRows::BySchool& schools) {
  std::vector<estimates::Exposure> rows;
  std::size_t label = 0;
  for (const auto& [school, own] : schools) {
    for (auto row : own) {
      row.child = label;
      rows.push_back(row);
    }
    ++label;
  }
  return rows;
}

} // namespace

std::vector<estimates::Exposure> ExposureRows::all() const {
  return pooled(schools);
}

base::Result<estimates::ProgramRate> programRateOf(const ExposureRows::BySchool& schools) {
  return estimates::programRate(pooled(schools), asSchools(schools));
}

} // namespace gk::reports
