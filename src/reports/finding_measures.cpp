#include "reports/finding_measures.h"

#include "reports/term_view.h"

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

bool hasSealedMolar(const chairside::Screening& screening) {
  return std::ranges::any_of(screening.teeth, [](const chairside::ToothFinding& finding) {
    const bool isMolar =
        finding.tooth.isFirstPermanentMolar() || finding.tooth.isSecondPermanentMolar();
    return isMolar && (finding.hasAny(chairside::Condition::sealedWhole) ||
                       finding.hasAny(chairside::Condition::sealedPart));
  });
}

struct Seen {
  roster::SchoolId school;
  estimates::ScreenedChild child;
};

/// Yes once seen stays yes; cannot tell says nothing.
void add(std::optional<bool>& known, Tri found) {
  if (found != Tri::cannotTell) known = known.value_or(false) || found == Tri::yes;
}

Seen seenAt(const TermView& view, const PerChild<chairside::Screening>::Pointers& screenings) {
  const auto byDate = [&](const auto* one) {
    return std::pair(view.dateOf(one->value.day), one->stamp.entry);
  };
  const auto* first = *std::ranges::min_element(screenings, {}, byDate);
  Seen seen{view.days.find(first->value.day)->school,
            {0, {}, {}, hasSealedMolar(first->value), CareNeed::none}};
  for (const auto* row : screenings) {
    const auto& one = row->value;
    add(seen.child.untreatedDecay, one.untreatedDecay);
    add(seen.child.treatedDecay, one.treatedDecay);
    seen.child.need = std::max(seen.child.need, needOf(one.urgency));
  }
  return seen;
}

FindingLine lineOf(std::string label, const std::vector<Seen>& children,
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

FindingTotals findingTotals(const TermRecords& records) {
  const TermView view(records);
  std::map<std::pair<std::string, roster::SchoolId>, std::vector<Seen>> bySchool;
  for (const auto& row : records.children) {
    const auto& screenings = view.screenings.of(row.id);
    if (screenings.empty()) continue;
    const auto seen = seenAt(view, screenings);
    bySchool[{view.schoolName(seen.school), seen.school}].push_back(seen);
  }
  FindingTotals out;
  std::vector<Seen> all;
  std::size_t label = 0;
  for (auto& [school, children] : bySchool) {
    for (auto& seen : children)
      seen.child.school = label;
    ++label;
    out.schools.push_back(lineOf(school.first, children, estimates::ScreeningDesign::simpleRandom));
    all.insert(all.end(), children.begin(), children.end());
  }
  const bool bySchools = bySchool.size() >= estimates::fewestClusters;
  out.unit = bySchools ? ClusterUnit::schools : ClusterUnit::children;
  out.total = lineOf("Total", all,
                     bySchools ? estimates::ScreeningDesign::schools
                               : estimates::ScreeningDesign::simpleRandom);
  return out;
}

} // namespace gk::reports
