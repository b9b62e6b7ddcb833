#pragma once

#include "estimates/attack_rate/attack_rate.h"

namespace gk::estimates {

/// The likelihood under every attack-rate estimate, in the yearly hazard h = -log(1 - annual); for
/// the sources beside it alone.

/// Checked rows with a molar and enough exposure, the rows of a child together.
struct KeptExposure {
  std::vector<Exposure> rows;
  std::size_t children = 0;
  double molars = 0;
  double affected = 0;
  double molarYears = 0;
  std::size_t rowsLeftOut = 0;
  double molarsLeftOut = 0;
};

/// Fails as `attackRate` does for a row; `rows` may come out empty.
base::Result<KeptExposure> keepExposure(std::span<const Exposure> rows);

/// The refusal when nothing was kept of `offered` rows.
base::Error nothingKept(const KeptExposure& kept, std::size_t offered);

/// 1 - exp(-hazard).
double annualFrom(double hazard);

/// Precondition: some but not all are affected.
double likeliestHazard(std::span<const Exposure> rows);

/// Terms of molars that cannot occur (affected at hazard 0) make it minus infinity.
double logLikelihoodAt(double hazard, std::span<const Exposure> rows);

/// A row's part of the score and of the expected information on the cloglog scale, log h.
struct CloglogTerm {
  double score;
  double information;
};
CloglogTerm cloglogTerm(double hazard, const Exposure& row);

struct CloglogVariances {
  double robust; ///< clustered by child, CR0 times m/(m-1)
  double model;  ///< inverse of the expected information
};
/// Precondition: the rows of a child are together.
CloglogVariances cloglogVariances(double hazard, std::span<const Exposure> rows);

} // namespace gk::estimates
