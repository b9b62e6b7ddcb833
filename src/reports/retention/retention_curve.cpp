#include "reports/retention/retention_curve.h"

#include "reports/records/lookup.h"
#include "reports/records/term_view.h"
#include "reports/retention/sealant_fate.h"

#include <algorithm>
#include <map>
#include <set>

namespace gk::reports {

namespace {

using estimates::SpellState;
using followup::CannotAssess;
using followup::CheckKind;
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

/// What was placed on one tooth on one date.
struct Placed {
  dentition::SurfaceSet surfaces{};
  bool isOtherwise = false; ///< the recorder said that what was there had not failed
};
using PlacedByDate = std::map<base::Date, Placed>;

/// Placements of one tooth that end what was there before on their surfaces.
std::map<ToothOfChild, PlacedByDate> resealed(const TermView& view) {
  const auto otherwise = resealedOtherwise(view.records);
  std::map<ToothOfChild, PlacedByDate> out;
  for (const auto& row : view.records.placements) {
    if (!chairside::countsAsSealant(row.value)) continue;
    const auto on = view.dateOf(row.value.day);
    if (!on || *on > view.records.asOf) continue;
    auto& placed = out[{row.value.child, row.value.tooth}][*on];
    placed.surfaces = placed.surfaces.with(row.value.surfaces);
    placed.isOtherwise |= otherwise.contains({row.value.child, row.value.tooth, row.value.day});
  }
  return out;
}

/// One sealant of the cohort with its looks.
struct Followed {
  const chairside::Placement* placement;
  const roster::ClinicDay* day;
  std::vector<const followup::RetentionCheck*> rows;
  std::vector<estimates::SpellCheck> checks;
  std::vector<estimates::SpellCheck> reported; ///< because a loss was reported
};

bool isFailure(SpellState state) {
  return state == SpellState::failed || state == SpellState::restoredOver;
}

bool judgesSpell(SpellState state) {
  return state == SpellState::whole || isFailure(state);
}

/// Years after placement at which a report led to a sealant that had failed, of which no look of
/// another kind had known: that it was looked at just then says that it had failed.
std::optional<double> reportedLoss(const Followed& one,
                                   const std::optional<estimates::SpellCheck>& reseal) {
  std::optional<double> first;
  for (const auto& look : one.reported)
    if (isFailure(look.state)) first = std::min(first.value_or(look.time), look.time);
  if (!first || (reseal && reseal->time < *first)) return std::nullopt;
  for (const auto& look : one.checks)
    if (look.time <= *first && look.state != SpellState::whole &&
        look.state != SpellState::cannotTell)
      return std::nullopt; // its end was known
  return first;
}

class Spells {
 public:
  Spells(const TermView& view, const CurveOptions& options)
      : view_(view), options_(options), resealed_(resealed(view)) {
    const Lookup<chairside::Placement> placements(view.records.placements);
    for (const auto& row : view.records.checks) {
      checks_[row.value.placement].push_back(&row.value);
      const auto* of = placements.find(row.value.placement);
      const auto on = view.dateOf(row.value.day);
      if (of && on && *on <= view.records.asOf && row.value.kind != CheckKind::reportedLoss &&
          judgesSpell(stateOf(row.value, options.partFails)))
        looksAt_[{of->child, of->tooth}].insert(*on);
    }
  }

  std::vector<estimates::Spell> of(std::optional<roster::SchoolId> school, RetentionCurve& out) {
    std::vector<Followed> cohort;
    std::optional<double> firstLook;
    for (const auto& row : view_.records.placements) {
      const auto* day = view_.days.find(row.value.day);
      if (!day || day->date > view_.records.asOf || (school && day->school != *school)) continue;
      if (!chairside::countsAsSealant(row.value)) continue;
      auto& one = cohort.emplace_back(followed(row, *day));
      for (const auto& check : one.checks)
        if (check.state != SpellState::cannotTell)
          firstLook = std::min(firstLook.value_or(check.time), check.time);
    }
    // No one could have been looked at that young: not checked says nothing of them, and of those
    // among them that were sealed again only failures would be known.
    if (firstLook)
      out.tooYoung = std::erase_if(cohort, [&](const auto& one) {
        return base::yearsBetween(one.day->date, view_.records.asOf) < *firstLook;
      });
    std::vector<estimates::Spell> spells;
    for (auto& one : cohort)
      spells.push_back(spellOf(one, out));
    return spells;
  }

  /// By the last time each was judged, rising.
  [[nodiscard]] std::vector<double> lastLooks() const {
    auto sorted = lastLooks_;
    std::ranges::sort(sorted);
    return sorted;
  }

 private:
  estimates::Spell spellOf(Followed& one, RetentionCurve& out) {
    const auto& placement = *one.placement;
    auto& checks = one.checks;
    noteCohort(*one.day, out);
    for (std::size_t i = 0; i < checks.size(); ++i) {
      out.lastCheck = std::max(out.lastCheck, checks[i].time);
      ++out.checks;
      ++out.kinds[one.rows[i]->kind];
    }
    out.reportedChecks += one.reported.size();
    const auto reseal = resealOf(one);
    const auto report = reportedLoss(one, reseal);
    // A sealant that was sealed over in part is looked at still, but its spell is over.
    if (reseal && isPartLeft(placement, one.day->date))
      std::erase_if(checks, [&](const auto& check) { return check.time > reseal->time; });
    // The reseal came of the report, and says no more than it.
    const auto dated = report ? nextLook(one, *report) : std::nullopt;
    if (dated) checks.push_back({*dated, SpellState::failed});
    noteLooks(checks, out);
    if (reseal && !report) checks.push_back(*reseal);
    const auto child = children_.try_emplace(placement.child, children_.size()).first->second;
    auto spell = *estimates::spellOf(checks, child, options_.ends); // times are our own
    spell.spell.school = schools_.at(one.day->school);
    ++out.placements;
    noteEnd(one, spell, report.has_value(), dated.has_value(), out);
    return spell.spell;
  }

  static void noteEnd(const Followed& one, const estimates::PlacementSpell& spell, bool isReported,
                      bool isDated, RetentionCurve& out) {
    if (isReported) ++(isDated ? out.reportedDated : out.reportedOpen);
    if (isReported && !isDated) return;
    const bool isOnly =
        spell.end == SpellState::cannotTell &&
        std::ranges::any_of(one.reported, [](const auto& look) { return judgesSpell(look.state); });
    if (isOnly)
      ++out.reportedOnly;
    else
      out.ends.add(spell);
  }

  /// The first look at its tooth, at whatever is on it, that would have come without the report:
  /// there it would have been found failed.
  [[nodiscard]] std::optional<double> nextLook(const Followed& one, double report) const {
    const auto at = looksAt_.find({one.placement->child, one.placement->tooth});
    if (at == looksAt_.end()) return std::nullopt;
    for (const auto on : at->second) {
      if (on < one.day->date) continue;
      if (const double years = base::yearsBetween(one.day->date, on); years >= report) return years;
    }
    return std::nullopt;
  }

  void noteCohort(const roster::ClinicDay& day, RetentionCurve& out) {
    out.firstPlaced = std::min(out.firstPlaced.value_or(day.date), day.date);
    out.lastPlaced = std::max(out.lastPlaced.value_or(day.date), day.date);
    schools_.try_emplace(day.school, schools_.size());
    out.schools = schools_.size();
  }

  void noteLooks(const std::vector<estimates::SpellCheck>& checks, RetentionCurve& out) {
    std::optional<double> last;
    for (const auto& check : checks) {
      if (check.state == SpellState::cannotTell) continue;
      out.looks.push_back(check.time);
      last = std::max(last.value_or(check.time), check.time);
    }
    if (last) lastLooks_.push_back(*last);
  }

  Followed followed(const base::Recorded<chairside::Placement>& row,
                    const roster::ClinicDay& day) const {
    Followed one{&row.value, &day, {}, {}, {}};
    const auto at = checks_.find(row.id);
    if (at == checks_.end()) return one;
    for (const auto* check : at->second) {
      const auto on = view_.dateOf(check->day);
      if (!on || *on > view_.records.asOf || *on < day.date) continue;
      const estimates::SpellCheck look{base::yearsBetween(day.date, *on),
                                       stateOf(*check, options_.partFails)};
      if (check->kind == CheckKind::reportedLoss) {
        one.reported.push_back(look);
        continue;
      }
      one.rows.push_back(check);
      one.checks.push_back(look);
    }
    return one;
  }

  /// Whether no later sealant was placed on some surface of it.
  [[nodiscard]] bool isPartLeft(const chairside::Placement& placement, base::Date placedOn) const {
    auto left = placement.surfaces;
    const auto& dates = resealed_.at({placement.child, placement.tooth});
    for (auto later = dates.upper_bound(placedOn); later != dates.end(); ++later)
      left = left.without(later->second.surfaces);
    return !left.isEmpty();
  }

  /// No look: it tells of failures alone, and so not how many were whole at that age.
  [[nodiscard]] std::optional<estimates::SpellCheck> resealOf(const Followed& one) const {
    const auto& placement = *one.placement;
    const auto placedOn = one.day->date;
    const auto& dates = resealed_.at({placement.child, placement.tooth});
    const auto next =
        std::find_if(dates.upper_bound(placedOn), dates.end(), [&](const auto& later) {
          return isOver(later.second.surfaces, placement.surfaces);
        });
    if (next == dates.end()) return std::nullopt;
    const double years = base::yearsBetween(placedOn, next->first);
    // Who seals again a sealant that a look that day found whole had another reason than its loss.
    const auto isWholeThen = [&](const auto& check) {
      return check.time == years && check.state == SpellState::whole;
    };
    const bool wasWhole = std::ranges::any_of(one.checks, isWholeThen) ||
                          std::ranges::any_of(one.reported, isWholeThen);
    return estimates::SpellCheck{years, next->second.isOtherwise || wasWhole ? SpellState::replaced
                                                                             : SpellState::failed};
  }

  const TermView& view_;
  const CurveOptions& options_;
  std::map<ToothOfChild, PlacedByDate> resealed_;
  std::map<chairside::PlacementId, std::vector<const followup::RetentionCheck*>> checks_;
  std::map<ToothOfChild, std::set<base::Date>> looksAt_; ///< that judged; of no reported loss
  std::map<roster::ChildId, std::size_t> children_;
  std::map<roster::SchoolId, std::size_t> schools_;
  std::vector<double> lastLooks_;
};

/// The looks on either side of an age; that of placement before the first.
std::pair<double, double> looksAbout(const std::vector<double>& looks, double year) {
  const auto after = std::ranges::lower_bound(looks, year);
  const double to = after == looks.end() ? year : *after;
  if (to == year) return {year, year};
  return {after == looks.begin() ? 0 : *(after - 1), to};
}

void read(RetentionCurve& out, const std::vector<double>& years,
          const std::vector<double>& lastLooks) {
  for (const double year : years) {
    if (out.looks.empty() || year < out.looks.front() || year > out.looks.back()) continue;
    const auto later = std::ranges::lower_bound(lastLooks, year);
    out.readings.push_back({.year = year,
                            .survival = out.survivalAt(year),
                            .band = std::nullopt,
                            .followed = static_cast<std::size_t>(lastLooks.end() - later)});
  }
}

/// The band of a reading: from the lower limit at the look after it to the upper one before it.
void addBand(RetentionCurve& out, std::span<const estimates::Spell> spells,
             const CurveOptions& options) {
  std::vector<double> times;
  for (const auto& reading : out.readings) {
    const auto [from, to] = looksAbout(out.looks, reading.year);
    times.insert(times.end(), {from, to});
  }
  base::SeededRandom random(options.seed);
  const auto band = estimates::survivalBand(spells, times, options.replicates, random);
  if (!band) return;
  out.isFewChildren = band->isFewChildren;
  out.units = band->units;
  out.schoolsChecked = band->schools;
  for (std::size_t i = 0; i < out.readings.size(); ++i) {
    const auto& before = band->points[2 * i];
    const auto& after = band->points[2 * i + 1];
    if (!before.band || !after.band) continue;
    out.readings[i].band = estimates::Interval{after.band->low, before.band->high};
    out.readings[i].isExactLimit = after.isExactLimit || before.isExactLimit;
    out.readings[i].settled = after.isExactLimit ? after.settled : before.settled;
  }
}

} // namespace

RetentionCurve retentionCurve(const TermView& view, const CurveOptions& options,
                              std::optional<roster::SchoolId> school) {
  RetentionCurve out;
  Spells reader(view, options);
  const auto spells = reader.of(school, out);
  std::ranges::sort(out.looks);
  out.looks.erase(std::ranges::unique(out.looks).begin(), out.looks.end());
  if (out.looks.empty()) return out; // no check judged a sealant
  auto curve = estimates::survivalCurve(spells);
  if (!curve) return out;
  out.curve = *std::move(curve);
  read(out, options.years, reader.lastLooks());
  if (options.replicates > 0) addBand(out, spells, options);
  return out;
}

estimates::Interval RetentionCurve::survivalAt(double year) const {
  const auto [from, to] = looksAbout(looks, year);
  return {curve->survivalAt(to).low, curve->survivalAt(from).high};
}

} // namespace gk::reports
