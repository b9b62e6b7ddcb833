#include "estimates/averted/money.h"

#include "estimates/numbers/checks.h"

#include <algorithm>
#include <cmath>
#include <string>

namespace gk::estimates {
namespace {

base::Result<base::Done> checkAmount(const std::string& name, double amount) {
  if (amount >= 0 && amount <= 1e12) return base::Done{};
  return refused(name + " is " + shown(amount) + "; give an amount of 0 or more.");
}

double discounted(const std::vector<ChainYear>& chain, double rate) {
  double sum = 0;
  double before = 0;
  int year = 0;
  for (const auto& now : chain) {
    const double spared = now.cariousWithout - now.carious;
    sum += (spared - before) * std::pow(1 + rate, -++year);
    before = spared;
  }
  return sum;
}

} // namespace

bool MoneyEstimate::has(MoneyNote note) const {
  return std::find(notes.begin(), notes.end(), note) != notes.end();
}

base::Result<MoneyEstimate> money(const AvertedInputs& inputs, const MoneyInputs& amounts) {
  if (auto checked = checkAmount("The program's cost", amounts.programCost); !checked)
    return checked.error();
  if (auto checked = checkAmount("The cost of a cavity", amounts.costPerCavity); !checked)
    return checked.error();
  if (auto checked = checkShare("The discount rate", amounts.discountRate); !checked)
    return checked.error();
  const auto estimate = averted(inputs);
  if (!estimate) return estimate.error();
  const auto chain = avertedChain(inputs);
  if (!chain) return chain.error();

  MoneyEstimate out{};
  out.averted = estimate->averted;
  out.discountedAverted = inputs.sealants * discounted(*chain, amounts.discountRate);
  out.savings = amounts.costPerCavity * out.discountedAverted;
  out.netCost = amounts.programCost - out.savings;
  if (out.averted > 0 && out.discountedAverted > 0) {
    out.costPerAverted = amounts.programCost / out.averted;
    out.breakEvenCost = amounts.programCost / out.discountedAverted;
    out.netCostPerAverted = out.netCost / out.discountedAverted;
  } else {
    out.notes.push_back(MoneyNote::nothingAverted);
  }
  if (amounts.programCost > 0) out.benefitCost = out.savings / amounts.programCost;
  if (out.netCost <= 0) out.notes.push_back(MoneyNote::paysForItself);
  return out;
}

} // namespace gk::estimates
