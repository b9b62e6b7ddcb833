#pragma once

#include "base/random.h"
#include "estimates/shares/proportion.h"

#include <cstddef>
#include <optional>
#include <vector>

namespace gk::estimates {

/// f(t) for t = 1 .. years: retention in year t relative to year 1, max(0, 1 - 0.05 (t - 1)). The
/// 0.05 was chosen to agree with the worked example of Griffin, Jones and Crespin 2014 (J Public
/// Health Dent 74:202-9), so that example does not validate it.
std::vector<double> defaultRetentionCurve(int years);

/// A cautious `efficacy` to show beside the default of 1: the median effect at two years of the
/// Community Guide review, read as if it were the protection of a retained sealant.
inline constexpr double cautiousEfficacy = 0.81;

struct AvertedInputs {
  double attackRate;       ///< yearly, of a never-sealed molar, 0 to 1
  double retentionYearOne; ///< share retained at one year, 0 to 1
  double sealants;         ///< teeth sealed at the start
  int years = 9;
  std::vector<double> curve = {};   ///< f(t), begins at 1 and never rises; empty for the default
  double efficacy = 1;              ///< share of attacks a retained sealant stops
  double relativeRiskAfterLoss = 1; ///< of a tooth that lost its sealant, against one never sealed
  /// Standard error of log(-log(1 - attackRate)); none: the rate is taken as known.
  std::optional<double> attackRateSe = std::nullopt;
  /// Effective number of teeth behind retentionYearOne; none: it is taken as known.
  std::optional<double> retentionEffectiveN = std::nullopt;
  double level = usualLevel;
};

enum class AvertedNote {
  attackRateTakenAsKnown,
  retentionTakenAsKnown,
  /// The rate is 0 or 1, where its standard error says nothing; no interval is given. Run the
  /// scenario again at the rate's own upper or lower limit.
  attackRateAtBoundary,
  /// Retention is 0 or 1: its uncertainty is taken about (n r + 1/2) / (n + 1), and the interval
  /// is widened to hold the estimate.
  retentionAtBoundary,
  /// The risk after loss is so much above that of a never-sealed tooth that the sum is a net loss.
  negative,
};

struct AvertedEstimate {
  double averted;         ///< teeth spared decay or filling by the end of the last year
  double perSealant;      ///< averted / sealants; given for 0 sealants too
  double withoutSealants; ///< teeth expected to be affected had none been sealed
  /// averted / withoutSealants; none when nothing was to be prevented.
  std::optional<double> preventedFraction;
  /// Delta method; none when both inputs are taken as known or the attack rate is 0 or 1. It
  /// carries the sampling error of the two inputs alone, not doubt about the model.
  std::optional<double> standardError;
  std::optional<Interval> interval;
  std::vector<AvertedNote> notes;

  [[nodiscard]] bool has(AvertedNote note) const;
};

/// Closed form of the three-state yearly chain below. With S(t) = retentionYearOne f(t), efficacy e
/// and relative risk 1, per sealant: sum over t of e a S(t) (1 - a (1 - e))^(t-1) (1 - a)^(T-t).
/// Fails with `estimateInput` for a share outside [0, 1], a count or risk that is negative or not
/// finite, an effective number below 1, years outside 0 to 100, a curve that is shorter than
/// `years`, does not begin at 1, rises or leaves [0, 1], and attackRate x relativeRiskAfterLoss
/// above 1.
base::Result<AvertedEstimate> averted(const AvertedInputs& inputs);

/// The state of the sealed group at the end of a year, as shares that sum to 1, and the share
/// affected in the same group never sealed.
struct ChainYear {
  double sealedSound;
  double unsealedSound;
  double carious;
  double cariousWithout;
};

/// The chain itself, one entry a year. In each year sealants are lost first and the attack follows.
/// Fails as `averted` does.
base::Result<std::vector<ChainYear>> avertedChain(const AvertedInputs& inputs);

struct AvertedSimulation {
  double mean;
  double standardDeviation;
  Interval interval; ///< equal-tailed percentiles, type 7 of Hyndman and Fan 1996
};

/// `draws` parametric draws: the rate normal on the cloglog scale, retention on the logit scale.
/// The same seed gives the same answer. Fails as `averted` does, for fewer than 100 draws, when
/// neither uncertainty is given, and when the attack rate is 0 or 1.
base::Result<AvertedSimulation> simulateAverted(const AvertedInputs& inputs, std::size_t draws,
                                                base::Random& random);

} // namespace gk::estimates
