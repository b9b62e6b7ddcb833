#pragma once

#include "estimates/survival/survival_curve.h"
#include "estimates/survival/survival_fit.h"

namespace gk::estimates {

/// Checked spells joined into distinct stretches; for the survival sources alone.
struct JoinedSpells {
  /// A tooth's stretch, its child and its weight.
  struct Part {
    std::size_t child; ///< counted from 0 without gaps, in the order of the labels
    std::size_t stretch;
    double teeth;
  };
  std::vector<Stretch> stretches; ///< distinct, sorted
  std::vector<double> teeth;      ///< of each stretch
  std::vector<Part> parts;        ///< sorted by child, then stretch; each pair once
  std::size_t children = 0;
  double unchecked = 0; ///< teeth left out
};

/// Fails as `survivalCurve` does.
base::Result<JoinedSpells> joinSpells(std::span<const Spell> spells);

/// P(no failure by `time`) under fitted masses.
Interval survivalOf(std::span<const FittedMass> masses, double time);

} // namespace gk::estimates
