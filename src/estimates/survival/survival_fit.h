#pragma once

#include <cstddef>
#include <span>
#include <vector>

namespace gk::estimates {

/// The engine under the survival curve; for the sources beside it alone.

/// (left, right], or the point {left} when the two are equal; right may be infinite.
struct Stretch {
  double left;
  double right;
  bool operator==(const Stretch&) const = default;
};

struct FittedMass {
  Stretch where;
  double mass; ///< above 0
};

struct FittedMasses {
  std::vector<FittedMass> masses; ///< by time; they sum to 1
  double logLikelihood;
  std::size_t iterations;
  /// max over all innermost intervals of (d log L / d mass) / weight - 1: 0 at the maximum
  /// (Karush-Kuhn-Tucker), and log L is at most weight x this below it.
  double gap;
};

/// Distinct stretches with their end points sorted once, so that one set can be fitted again under
/// other weights.
class StretchSet {
 public:
  /// Precondition: distinct, 0 <= left <= right, left finite.
  explicit StretchSet(std::vector<Stretch> stretches);

  [[nodiscard]] std::size_t size() const { return stretches_.size(); }

  /// The nonparametric maximum likelihood over the stretches with a weight above 0. Precondition:
  /// one weight per stretch, at least one above 0.
  [[nodiscard]] FittedMasses fit(std::span<const double> weights) const;

 private:
  struct End {
    double time;
    int kind; ///< at one time: 0 point's left end, 1 right end, 2 open left end
    std::size_t stretch;
  };
  std::vector<Stretch> stretches_;
  std::vector<End> ends_;
};

} // namespace gk::estimates
