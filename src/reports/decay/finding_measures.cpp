#include "reports/decay/finding_measures.h"

#include "estimates/shares/program_share.h"
#include "reports/records/term_view.h"

#include <algorithm>
#include <map>

namespace gk::reports {

namespace {

using chairside::Tri;
using estimates::CareNeed;

CareNeed needOf(chairside::Urgency urgency) {
  switch (urgency) {
  case chairside::Urgency::none:
    return CareNeed::none;
  case chairside::Urgency::early:
    return CareNeed::early;
  case chairside::Urgency::urgent:
    return CareNeed::urgent;
  }
  base::fail("no such urgency");
}

/// May be in the mouth, and no surface of it was looked at.
bool isUnseen(const chairside::ToothFinding& finding) {
  using chairside::Presence;
  if (finding.presence == Presence::cannotSee) return true;
  if (finding.presence != Presence::erupted && finding.presence != Presence::partlyErupted)
    return false;
  return std::ranges::all_of(
      base::EnumSet<dentition::Surface>::all().values(), [&](dentition::Surface surface) {
        return finding.at(surface).condition == chairside::Condition::notLookedAt;
      });
}

/// Yes if one was seen sealed; else no only where each that is charted could be seen.
std::optional<bool> sealedMolar(const chairside::Screening& screening) {
  std::optional<bool> out = false;
  for (const auto& finding : screening.teeth) {
    if (!finding.tooth.isFirstPermanentMolar() && !finding.tooth.isSecondPermanentMolar()) continue;
    if (finding.hasAny(chairside::Condition::sealedWhole) ||
        finding.hasAny(chairside::Condition::sealedPart))
      return true;
    if (isUnseen(finding)) out.reset();
  }
  return out;
}

/// Yes once seen stays yes; cannot tell says nothing.
void add(std::optional<bool>& known, Tri found) {
  if (found != Tri::cannotTell) known = known.value_or(false) || found == Tri::yes;
}

SeenChild seenAt(const TermView& view, const std::string& grade,
                 const PerChild<chairside::Screening>::Pointers& screenings) {
  const auto byDate = [&](const auto* one) {
    return std::pair(view.dateOf(one->value.day), one->stamp.entry);
  };
  const auto* first = *std::ranges::min_element(screenings, {}, byDate);
  SeenChild seen{view.days.find(first->value.day)->school,
                 grade,
                 {0, {}, {}, sealedMolar(first->value), CareNeed::none}};
  for (const auto* row : screenings) {
    const auto& one = row->value;
    add(seen.child.untreatedDecay, one.untreatedDecay);
    add(seen.child.treatedDecay, one.treatedDecay);
    seen.child.need = std::max(seen.child.need, needOf(one.urgency));
  }
  return seen;
}

FindingLine lineOf(std::string label, const std::vector<SeenChild>& children,
                   estimates::ScreeningDesign design) {
  FindingLine line;
  line.label = std::move(label);
  line.screened = static_cast<int>(children.size());
  std::vector<estimates::ScreenedChild> told;
  for (const auto& seen : children) {
    told.push_back(seen.child);
    if (!seen.child.untreatedDecay || !seen.child.treatedDecay) ++line.couldNotTell;
  }
  if (told.empty()) return line;
  line.measures = *estimates::screeningMeasures(told, design); // there is a child
  return line;
}

} // namespace

std::vector<SeenChild> seenChildren(const TermView& view) {
  std::vector<SeenChild> out;
  for (const auto& row : view.records.children)
    if (const auto& screenings = view.screenings.of(row.id); !screenings.empty())
      out.push_back(seenAt(view, row.value.grade, screenings));
  return out;
}

FindingTotals findingTotals(const TermView& view) {
  std::map<std::pair<std::string, roster::SchoolId>, std::vector<SeenChild>> bySchool;
  for (auto& seen : seenChildren(view))
    bySchool[{view.schoolName(seen.school), seen.school}].push_back(std::move(seen));
  FindingTotals out;
  std::vector<SeenChild> all;
  std::size_t label = 0;
  for (auto& [school, children] : bySchool) {
    for (auto& seen : children)
      seen.child.school = label;
    ++label;
    out.schools.push_back(lineOf(school.first, children, estimates::ScreeningDesign::simpleRandom));
    all.insert(all.end(), children.begin(), children.end());
  }
  using estimates::ProgramUnits;
  const auto units = estimates::programUnits(bySchool.size());
  out.unit = units == ProgramUnits::schools ? ClusterUnit::schools : ClusterUnit::children;
  out.isSchoolPlanned = units == ProgramUnits::childrenPlanned;
  out.total = lineOf("Total", all, estimates::ScreeningDesign::program);
  return out;
}

} // namespace gk::reports
