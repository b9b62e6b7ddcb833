#pragma once

#include "estimates/averted/averted.h"

namespace gk::estimates {

/// The closed form as a function of the two uncertain inputs, with its slopes; the rest is fixed
/// and checked. For the sources beside it alone.
class AvertedModel {
 public:
  /// Checks all of `inputs`; see `averted` for what fails.
  static base::Result<AvertedModel> of(const AvertedInputs& inputs);

  [[nodiscard]] double perSealant(double rate, double retention) const;
  /// d perSealant / d rate.
  [[nodiscard]] double slopeInRate(double rate, double retention) const;
  /// d perSealant / d retention; does not depend on the retention, since the model is linear in it.
  [[nodiscard]] double slopeInRetention(double rate) const;
  /// f(t) for each year of the model.
  [[nodiscard]] const std::vector<double>& curve() const { return curve_; }

 private:
  AvertedModel(std::vector<double> curve, double efficacy, double riskAfterLoss)
      : curve_(std::move(curve)), efficacy_(efficacy), riskAfterLoss_(riskAfterLoss) {}

  [[nodiscard]] double afterLoss(double rate) const;

  std::vector<double> curve_;
  double efficacy_;
  double riskAfterLoss_;
};

/// Whether a share is 0 or 1, where logit and cloglog have no value.
bool atBoundary(double share);

/// What a simulation needs beyond the model's own checks.
base::Result<base::Done> checkSimulation(const AvertedInputs& inputs, std::size_t draws);

} // namespace gk::estimates
