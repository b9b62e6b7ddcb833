#include "estimates/survival/survival_curve.h"

#include "base/contract.h"
#include "estimates/numbers/checks.h"
#include "estimates/survival/survival_spells.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <string>

namespace gk::estimates {
namespace {

constexpr double settledGap = 1e-6;

bool isTime(double value) {
  return value >= 0 && value <= 1e9;
}

bool isGood(const Spell& spell) {
  return isTime(spell.left) && isTime(spell.teeth) &&
         (!spell.right || (isTime(*spell.right) && *spell.right >= spell.left));
}

base::Error whatIsWrong(const Spell& spell, std::size_t place) {
  const std::string where = "Spell " + std::to_string(place) + ": ";
  if (auto checked = checkCount(where + "the number of teeth", spell.teeth); !checked)
    return checked.error();
  if (auto checked = checkCount(where + "the time last seen whole", spell.left); !checked)
    return checked.error();
  if (auto checked = checkCount(where + "the time first seen failed", *spell.right); !checked)
    return {checked.error().code,
            checked.error().detail + " Leave it empty while the sealant has not failed."};
  return refused(where + "it failed at " + shown(*spell.right) +
                 ", before it was last seen whole " + "at " + shown(spell.left) +
                 "; correct one of the two.");
}

double rightOf(const Spell& spell) {
  return spell.right.value_or(std::numeric_limits<double>::infinity());
}

struct Row {
  Stretch where;
  std::size_t child;
  double teeth;
};

void joinStretches(JoinedSpells& out, std::vector<Row>& rows) {
  std::sort(rows.begin(), rows.end(), [](const Row& a, const Row& b) {
    if (a.where.left != b.where.left) return a.where.left < b.where.left;
    if (a.where.right != b.where.right) return a.where.right < b.where.right;
    return a.child < b.child;
  });
  for (const auto& row : rows) {
    if (out.stretches.empty() || !(out.stretches.back() == row.where)) {
      out.stretches.push_back(row.where);
      out.teeth.push_back(0);
    }
    const std::size_t stretch = out.stretches.size() - 1;
    out.teeth.back() += row.teeth;
    const bool again = !out.parts.empty() && out.parts.back().stretch == stretch &&
                       out.parts.back().child == row.child;
    if (again)
      out.parts.back().teeth += row.teeth;
    else
      out.parts.push_back({row.child, stretch, row.teeth});
  }
}

void numberChildren(JoinedSpells& out) {
  std::sort(out.parts.begin(), out.parts.end(),
            [](const JoinedSpells::Part& a, const JoinedSpells::Part& b) {
              return a.child != b.child ? a.child < b.child : a.stretch < b.stretch;
            });
  std::size_t label = 0;
  for (auto& part : out.parts) {
    if (out.children == 0 || part.child != label) ++out.children;
    label = part.child;
    part.child = out.children - 1;
  }
}

} // namespace

base::Result<JoinedSpells> joinSpells(std::span<const Spell> spells) {
  JoinedSpells out;
  std::vector<Row> rows;
  rows.reserve(spells.size());
  for (std::size_t i = 0; i < spells.size(); ++i) {
    const auto& spell = spells[i];
    if (!isGood(spell)) return whatIsWrong(spell, i + 1);
    if (spell.teeth == 0) continue;
    if (spell.left == 0 && !spell.right)
      out.unchecked += spell.teeth;
    else
      rows.push_back({{spell.left, rightOf(spell)}, spell.child, spell.teeth});
  }
  if (rows.empty())
    return refused("None of the " + std::to_string(spells.size()) + " spells has a retention " +
                   "check that judged the sealant; a curve needs at least one.");
  joinStretches(out, rows);
  numberChildren(out);
  return out;
}

Interval survivalOf(std::span<const FittedMass> masses, double time) {
  base::require(!std::isnan(time), "survival at no time");
  double before = 0; // failed beyond doubt
  double open = 0;   // in the interval that holds `time`
  double after = 0;
  for (const auto& [where, mass] : masses) {
    const auto& [left, right] = where;
    (right <= time ? before : time > left ? open : after) += mass;
  }
  // Exactly 1 where no mass says otherwise: a sum of masses may miss it by a rounding.
  const double high = before > 0 ? std::min(1.0, after + open) : 1;
  return {open > 0 ? std::min(1.0, after) : high, high};
}

bool SurvivalCurve::has(SurvivalNote note) const {
  return std::find(notes.begin(), notes.end(), note) != notes.end();
}

Interval SurvivalCurve::survivalAt(double time) const {
  std::vector<FittedMass> masses;
  for (const auto& [left, right, mass] : intervals)
    masses.push_back({{left, right.value_or(std::numeric_limits<double>::infinity())}, mass});
  return survivalOf(masses, time);
}

base::Result<SurvivalCurve> survivalCurve(std::span<const Spell> spells) {
  const auto joined = joinSpells(spells);
  if (!joined) return joined.error();
  const auto fitted = StretchSet(joined->stretches).fit(joined->teeth);

  SurvivalCurve out{};
  for (const auto& [where, mass] : fitted.masses)
    out.intervals.push_back(
        {where.left, std::isinf(where.right) ? std::nullopt : std::optional(where.right), mass});
  out.logLikelihood = fitted.logLikelihood;
  out.iterations = fitted.iterations;
  out.gap = fitted.gap;
  for (std::size_t i = 0; i < joined->stretches.size(); ++i)
    (std::isinf(joined->stretches[i].right) ? out.stillWhole : out.failed) += joined->teeth[i];
  out.teeth = out.failed + out.stillWhole;
  out.unchecked = joined->unchecked;
  out.children = joined->children;
  if (out.unchecked > 0) out.notes.push_back(SurvivalNote::uncheckedSpells);
  if (out.failed == 0) out.notes.push_back(SurvivalNote::noneFailed);
  if (out.stillWhole == 0) out.notes.push_back(SurvivalNote::allFailed);
  if (out.children == 1) out.notes.push_back(SurvivalNote::oneChild);
  if (out.gap > settledGap) out.notes.push_back(SurvivalNote::notSettled);
  return out;
}

} // namespace gk::estimates
