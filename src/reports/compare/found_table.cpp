#include "reports/compare/found_table.h"

#include "reports/print/cells.h"
#include "reports/records/term_view.h"

#include <map>

namespace gk::reports {

namespace {

struct Group {
  int children = 0;
  int sealants = 0;
  int upper = 0;
  int fourHanded = 0;
  int wet = 0;
  int knownLost = 0;
  double years = 0; ///< of age when sealed, summed over sealants
  int withAge = 0;
};

void add(Group& group, const TermView& view, const SealantFact& fact) {
  const auto& placement = view.records.placements[fact.placement].value;
  ++group.sealants;
  group.upper += placement.tooth.isUpper() ? 1 : 0;
  group.fourHanded += placement.fourHanded ? 1 : 0;
  group.wet += placement.wetEvents > 0 ? 1 : 0;
  group.knownLost += fact.isKnownLost && fact.from != HeldFrom::look ? 1 : 0;
  const auto* child = view.children.find(placement.child);
  const auto on = view.dateOf(placement.day);
  if (!child || !on) return;
  group.years += roster::approximateAge(child->birth, *on);
  ++group.withAge;
}

Cells row(const std::string& label, const Group& group) {
  return {label,
          group.children,
          group.sealants,
          numberPer(group.sealants, group.children, 2),
          numberPer(group.years, group.withAge, 1),
          shareOf(group.upper, group.sealants),
          shareOf(group.fourHanded, group.sealants),
          shareOf(group.wet, group.sealants),
          shareOf(group.knownLost, group.sealants)};
}

} // namespace

Table foundTable(const TermView& view, const RetentionFacts& facts, const Choice& choice) {
  std::map<std::uint32_t, bool> found; // children due, and whether any look judged one of theirs
  for (const auto& fact : facts.rows())
    if (fact.due && choice.takes(fact)) found[fact.child] |= fact.isExamined();
  std::array<Group, 2> groups; // not found, found
  for (const auto& [child, isFound] : found)
    ++groups.at(isFound ? 1 : 0).children;
  for (const auto& fact : facts.rows())
    if (fact.due && choice.takes(fact)) add(groups.at(found.at(fact.child) ? 1 : 0), view, fact);
  Table table{"Students found, and those not found",
              {texts("Students due", "children_due"), counts("Students", "children"),
               counts("Sealants"), numbers("Per student", "per_child"), numbers("Age when sealed"),
               shares("Upper %"), shares("Four-handed %"), shares("Contaminated %"),
               shares("Known missing before %")}};
  table.key = "children_found"; // as files have it, whatever the heading
  if (found.empty()) {
    table.notes = {"No student is due for a check yet."};
    return table;
  }
  table.rows = {row("Found", groups[1]), row("Not found", groups[0])};
  table.notes = {"As recorded when they were sealed, except what is known to be missing: by an "
                 "earlier check, a reseal, or a check because a loss was reported. Percentages "
                 "are of the sealants of the line.",
                 groups[1].children == 0   ? "No student was found yet."
                 : groups[0].children == 0 ? "Every student due was found."
                                           : "The more the two lines differ, the less the students "
                                             "found may represent all, and the more the bounds "
                                             "above say than the CI."};
  return table;
}

} // namespace gk::reports
