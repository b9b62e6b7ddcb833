#include "reports/retention_curve.h"

#include "reports/term_view.h"

#include <algorithm>
#include <map>
#include <set>

namespace gk::reports {

namespace {

using estimates::SpellState;
using followup::CannotAssess;
using followup::Held;

SpellState stateOf(const followup::RetentionCheck& check, bool partFails) {
  switch (check.asCounted()) {
  case Held::whole:
    return SpellState::whole;
  case Held::part:
    return partFails ? SpellState::failed : SpellState::whole;
  case Held::lost:
    return SpellState::failed;
  case Held::notSealed:
    return SpellState::cannotTell;
  case Held::cannotAssess:
    break;
  }
  switch (check.why) {
  case CannotAssess::restoredOver:
    return SpellState::restoredOver;
  case CannotAssess::crowned:
    return SpellState::crowned;
  case CannotAssess::extracted:
    return SpellState::extracted;
  case CannotAssess::shed:
    return SpellState::shed;
  case CannotAssess::none:
  case CannotAssess::banded:
  case CannotAssess::coveredByGum:
  case CannotAssess::childUnable:
  case CannotAssess::recordDoubtful:
    return SpellState::cannotTell;
  }
  base::fail("no such reason");
}

using ToothOfChild = std::pair<roster::ChildId, dentition::Tooth>;

/// Placements of one tooth that end what was there before, by date.
std::map<ToothOfChild, std::set<base::Date>> resealed(const TermView& view) {
  std::map<ToothOfChild, std::set<base::Date>> out;
  for (const auto& row : view.records.placements) {
    if (!chairside::countsAsSealant(row.value)) continue;
    if (const auto on = view.dateOf(row.value.day); on && *on <= view.records.asOf)
      out[{row.value.child, row.value.tooth}].insert(*on);
  }
  return out;
}

class Spells {
 public:
  Spells(const TermView& view, const CurveOptions& options)
      : view_(view), options_(options), resealed_(resealed(view)) {
    for (const auto& row : view.records.checks)
      checks_[row.value.placement].push_back(&row.value);
  }

  std::vector<estimates::Spell> of(std::optional<roster::SchoolId> school, RetentionCurve& out) {
    std::vector<estimates::Spell> spells;
    for (const auto& row : view_.records.placements) {
      const auto* day = view_.days.find(row.value.day);
      if (!day || day->date > view_.records.asOf || (school && day->school != *school)) continue;
      if (!chairside::countsAsSealant(row.value)) continue;
      const auto checks = checksOf(row, day->date, out);
      const auto child = children_.try_emplace(row.value.child, children_.size()).first->second;
      const auto spell = *estimates::spellOf(checks, child, options_.ends); // times are our own
      ++out.placements;
      out.ends.add(spell);
      spells.push_back(spell.spell);
    }
    return spells;
  }

 private:
  std::vector<estimates::SpellCheck> checksOf(const base::Recorded<chairside::Placement>& row,
                                              base::Date placedOn, RetentionCurve& out) const {
    std::vector<estimates::SpellCheck> checks;
    // Who seals again a sealant that a look that day found whole had another reason than its loss.
    std::set<base::Date> wholeOn;
    if (const auto at = checks_.find(row.id); at != checks_.end()) {
      for (const auto* check : at->second) {
        const auto on = view_.dateOf(check->day);
        if (!on || *on > view_.records.asOf || *on < placedOn) continue;
        const double years = base::yearsBetween(placedOn, *on);
        checks.push_back({years, stateOf(*check, options_.partFails)});
        if (checks.back().state == SpellState::whole) wholeOn.insert(*on);
        out.lastCheck = std::max(out.lastCheck, years);
        ++out.checks;
      }
    }
    const auto& dates = resealed_.at({row.value.child, row.value.tooth});
    if (const auto next = dates.upper_bound(placedOn); next != dates.end())
      checks.push_back({base::yearsBetween(placedOn, *next),
                        wholeOn.contains(*next) ? SpellState::replaced : SpellState::failed});
    return checks;
  }

  const TermView& view_;
  const CurveOptions& options_;
  std::map<ToothOfChild, std::set<base::Date>> resealed_;
  std::map<chairside::PlacementId, std::vector<const followup::RetentionCheck*>> checks_;
  std::map<roster::ChildId, std::size_t> children_;
};

} // namespace

RetentionCurve retentionCurve(const TermRecords& records, const CurveOptions& options,
                              std::optional<roster::SchoolId> school) {
  RetentionCurve out;
  const TermView view(records);
  const auto spells = Spells(view, options).of(school, out);
  if (out.checks == 0) return out;
  auto curve = estimates::survivalCurve(spells);
  if (!curve) return out; // no check judged a sealant
  out.curve = *std::move(curve);
  if (options.replicates == 0) return out;
  std::vector<double> years;
  for (const double year : options.years)
    if (year <= out.lastCheck) years.push_back(year);
  base::SeededRandom random(options.seed);
  auto band = estimates::survivalBand(spells, years, options.replicates, random);
  if (band) out.band = *std::move(band);
  return out;
}

} // namespace gk::reports
