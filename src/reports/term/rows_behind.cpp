#include "reports/term/rows_behind.h"

#include "reports/print/cells.h"
#include "reports/records/term_view.h"

#include <algorithm>

namespace gk::reports {

namespace {

using followup::Held;

std::string nameOf(const Names& names, const roster::ChildId& child) {
  const auto at = names.find(child);
  return at == names.end() ? nothing : at->second;
}

bool isCounted(const SealantFact& fact, SealantCount count) {
  switch (count) {
  case SealantCount::placed:
    return true;
  case SealantCount::due:
    return fact.due;
  case SealantCount::examined:
    return fact.isExamined();
  case SealantCount::assessable:
    return fact.isAssessable();
  case SealantCount::whole:
    return fact.held == Held::whole;
  case SealantCount::part:
    return fact.held == Held::part;
  case SealantCount::lost:
    return fact.held == Held::lost;
  case SealantCount::cannotAssess:
    return fact.isExamined() && !fact.isAssessable();
  }
  base::fail("no such count");
}

std::string foundWords(const SealantFact& fact) {
  switch (fact.from) {
  case HeldFrom::unknown:
    return fact.isKnownLost ? "not examined in the window; known missing" : "not examined";
  case HeldFrom::look:
    return named(fact.held) + (fact.isRepaired ? ", repaired since and fully retained" : "");
  case HeldFrom::earlierLook:
    return named(fact.held) + " at an earlier check";
  case HeldFrom::reseal:
    return fact.held == Held::lost ? "missing: resealed since" : "resealed while fully retained";
  }
  base::fail("no such way to know");
}

std::string dateOf(const TermView& view, const roster::DayId& day) {
  const auto on = view.dateOf(day);
  return on ? on->iso() : nothing;
}

} // namespace

Table childrenBehind(const TermView& view, const Names& names, ChildCount count,
                     std::optional<roster::SchoolId> school, std::string title) {
  Table table{std::move(title),
              {texts("Number"), texts("Name"), texts("School"), texts("Grade"), texts("Room"),
               counts("Counted")}};
  int sum = 0;
  for (const auto& share : participationByChild(view)) {
    if (share.counts.*count == 0 || (school && share.school != *school)) continue;
    const auto* child = view.children.find(share.child);
    sum += share.counts.*count;
    table.rows.push_back({child->number, nameOf(names, share.child), view.schoolName(share.school),
                          child->grade, child->room, share.counts.*count});
  }
  std::ranges::stable_sort(table.rows);
  table.notes = {"Adds up to " + number(sum) + "."};
  return table;
}

Table sealantsBehind(const TermView& view, const Names& names, const RetentionFacts& facts,
                     const Choice& choice, SealantCount count, std::string title) {
  Table table{std::move(title),
              {texts("Number"), texts("Name"), texts("School where placed"), dated("Placed on"),
               texts("Tooth"), texts("Isolation"), texts("Delivery"), texts("Operator"),
               texts("Light"), texts("Lot"), dated("Checked on"), texts("Found")}};
  const auto words = [&](const SealantFact& fact, Factor factor) {
    return facts.labels(factor)[fact.at(factor)];
  };
  for (const auto& fact : facts.rows()) {
    if (!choice.takes(fact) || !isCounted(fact, count)) continue;
    const auto& placement = view.records.placements[fact.placement].value;
    const auto* child = view.children.find(placement.child);
    const auto* check = fact.check ? &view.records.checks[*fact.check].value : nullptr;
    table.rows.push_back({child ? child->number : "unknown", nameOf(names, placement.child),
                          words(fact, Factor::school), dateOf(view, placement.day),
                          words(fact, Factor::tooth), words(fact, Factor::isolation),
                          words(fact, Factor::delivery), words(fact, Factor::placedBy),
                          words(fact, Factor::light), words(fact, Factor::lot),
                          check ? dateOf(view, check->day) : nothing, foundWords(fact)});
  }
  std::ranges::stable_sort(table.rows);
  table.notes = {counted(static_cast<int>(table.rows.size()), "sealant", "sealants") +
                 ". For use inside the program."};
  return table;
}

} // namespace gk::reports
