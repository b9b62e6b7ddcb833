#pragma once

#include "reports/publish/published.h"

namespace gk::test {

struct Line {
  int screened;
  int early;
  int urgent;
};

inline reports::Participation schoolOf(const std::string& name, const Line& line) {
  reports::Participation at;
  at.school = name;
  at.enrolled = 2 * line.screened + 40;
  at.formsBack = line.screened + 20;
  at.consented = line.screened;
  at.screened = line.screened;
  at.needing = line.screened / 2;
  at.sealed = line.screened / 4;
  at.firstMolars = 4 * at.sealed;
  at.untreated = line.early + line.urgent;
  at.early = line.early;
  at.urgent = line.urgent;
  return at;
}

inline reports::TermTotals totalsOf(std::vector<reports::Participation> schools) {
  const auto day = *base::Date::parse("2026-11-17");
  reports::TermTotals totals{"Fall 2026",        day, day, day, {}, {}, true,
                             std::move(schools), {},  {},  {},  {}, {}};
  totals.total = reports::sumOf(totals.schools);
  totals.retention.total.label = "Total";
  return totals;
}

/// The findings of the invented county (demo-data/plan/county.cpp); Cobble Lantern has two urgent.
inline reports::TermTotals county() {
  return totalsOf({schoolOf("Alder Hollow", {66, 14, 1}), schoolOf("Brindle Quay", {51, 12, 1}),
                   schoolOf("Cobble Lantern", {75, 16, 2}), schoolOf("Dunlin Marsh", {38, 9, 2}),
                   schoolOf("Elderbrook", {55, 12, 0}), schoolOf("Fennel Ridge", {52, 8, 1})});
}

/// What was found of last year's sealants; every sum that a reader knows holds.
inline reports::RetentionLine checksOf(const std::string& name, int childrenDue, int found,
                                       int whole, int part, int lost, int cannotAssess) {
  reports::RetentionLine at;
  at.label = name;
  at.childrenDue = childrenDue;
  at.childrenFound = found;
  at.whole = whole;
  at.part = part;
  at.lost = lost;
  at.cannotAssess = cannotAssess;
  at.assessable = whole + part + lost;
  at.examined = at.assessable + cannotAssess;
  at.due = at.examined + 4 * (childrenDue - found);
  return at;
}

inline void addUp(reports::RetentionTotals& retention) {
  auto& total = retention.total;
  total = {};
  total.label = "Total";
  for (const auto& one : retention.schools) {
    total.childrenDue += one.childrenDue;
    total.childrenFound += one.childrenFound;
    total.due += one.due;
    total.examined += one.examined;
    total.assessable += one.assessable;
    total.whole += one.whole;
    total.part += one.part;
    total.lost += one.lost;
    total.cannotAssess += one.cannotAssess;
  }
}

} // namespace gk::test
