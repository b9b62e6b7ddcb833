#include "estimates/survival/survival_curve.h"
#include "reference/reference.h"

using namespace gk::estimates;

namespace gk::reference {

// A right of -1 stands for still whole.
Values survivalMasses(const base::CsvTable& table) {
  const auto children = labels(table, "child");
  const auto left = numbers(table, "left");
  const auto right = numbers(table, "right");
  std::vector<Spell> spells;
  for (std::size_t i = 0; i < left.size(); ++i)
    spells.push_back({.left = left[i],
                      .right = right[i] < 0 ? std::nullopt : std::optional(right[i]),
                      .child = children[i]});
  const auto curve = survivalCurve(spells).value();
  Values out{{"loglik", curve.logLikelihood}};
  for (std::size_t i = 0; i < curve.intervals.size(); ++i) {
    const auto place = std::to_string(i + 1);
    out["from" + place] = curve.intervals[i].left;
    out["until" + place] = curve.intervals[i].right.value_or(-1);
    out["mass" + place] = curve.intervals[i].mass;
  }
  return out;
}

} // namespace gk::reference
