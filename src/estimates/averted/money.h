#pragma once

#include "estimates/averted/averted.h"

#include <optional>
#include <vector>

namespace gk::estimates {

/// The user's own amounts in one currency; nothing is built in.
struct MoneyInputs {
  double programCost;         ///< of placing the sealants, paid now
  double costPerCavity;       ///< of treating one cavity, in each year the same
  double discountRate = 0.03; ///< a year
};

enum class MoneyNote {
  /// The program costs no more than the treatment it spares.
  paysForItself,
  /// Nothing is averted, so there is no cost per cavity averted.
  nothingAverted,
};

struct MoneyEstimate {
  double averted;           ///< as `averted` gives it
  double discountedAverted; ///< cavities, each discounted to now from the end of its year
  double savings;           ///< costPerCavity x discountedAverted
  double netCost;           ///< programCost - savings; below 0 it saves money
  /// programCost / averted, and with cavities discounted: the price of a cavity at which the
  /// program just pays for itself.
  std::optional<double> costPerAverted;
  std::optional<double> breakEvenCost;
  std::optional<double> netCostPerAverted; ///< netCost / discountedAverted
  std::optional<double> benefitCost;       ///< savings / programCost; none at no cost
  std::vector<MoneyNote> notes;

  [[nodiscard]] bool has(MoneyNote note) const;
};

/// Money over the years of the averted model, whose yearly differences place each spared cavity in
/// time; a cavity only put off is a saving in one year and a cost in a later one. Fails as
/// `averted` does, and for an amount that is negative, not finite or above a million million, and
/// a discount rate outside [0, 1].
base::Result<MoneyEstimate> money(const AvertedInputs& inputs, const MoneyInputs& amounts);

} // namespace gk::estimates
