#pragma once

#include "estimates/shares/proportion.h"

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace gk::estimates {

/// Never-sealed first permanent molars of one child with the same time in the mouth. A child may
/// have several rows (upper and lower molars differ); `child` is any label that joins them.
/// Counts may be fractional so that expected counts can be put in.
struct Exposure {
  double years; ///< age at screening less age at eruption; may be negative
  double examined;
  double affected; ///< decayed or filled
  std::size_t child;
};

/// Years of age; the caller may keep others by sex and arch. Handbook average for first molars.
inline constexpr double defaultEruptionAge = 6.2;

/// Years. Shorter exposures say more of the eruption table than of decay, and are left out.
inline constexpr double shortestExposure = 0.25;

enum class AttackRateNote {
  /// Rows under `shortestExposure` were left out; the counts say how many.
  shortExposures,
  /// Nothing was affected: the rate is 0 with an upper limit, and `conservative` is filled.
  noneAffected,
  /// Everything was affected: the rate is 1 with a lower limit, and `conservative` is filled.
  allAffected,
  /// One child: the standard error is as if it had one molar.
  oneChild,
  /// The variance between children fell below that of independent molars, which was used.
  varianceRaised,
};

struct AttackRateEstimate {
  double annual; ///< constant yearly probability that a sound, unsealed molar is affected
  double low;
  double high;
  /// log(-log(1 - annual)) and its standard error as used for the limits; none when no or all
  /// molars are affected.
  std::optional<double> cloglog;
  std::optional<double> standardError;
  /// On the cloglog scale: child-clustered sandwich (CR0 times m/(m-1)); none with one child.
  std::optional<double> robustVariance;
  /// On the cloglog scale: inverse of the expected information.
  std::optional<double> modelVariance;
  /// When none or all are affected: the limits as if each child had one molar.
  std::optional<Interval> conservative;
  std::size_t children;
  double molars;
  double affected;
  double molarYears;
  std::size_t rowsLeftOut;
  double molarsLeftOut;
  std::vector<AttackRateNote> notes;

  [[nodiscard]] bool has(AttackRateNote note) const;
  /// What a person reads: `conservative` where there is one, since molars of a child are alike.
  [[nodiscard]] Interval toRead() const { return conservative.value_or(Interval{low, high}); }
};

/// Binomial maximum likelihood for P(affected) = 1 - (1 - a)^years, which is complementary log-log
/// regression with offset log(years) and an intercept alone. Limits are symmetric on that scale.
/// With none or all affected they are exact for independent molars (each tail (1 - level) / 2).
/// Fails with `estimateInput`, naming the row by its place from 1, for years that are not finite or
/// above 150, counts that are negative or not finite, more affected than examined, and when no row
/// has both a molar and enough exposure; and for a level outside 0.5 to 0.9999.
base::Result<AttackRateEstimate> attackRate(std::span<const Exposure> rows,
                                            double level = usualLevel);

} // namespace gk::estimates
