#pragma once

#include "estimates/shares/retention.h"

#include <cstddef>
#include <optional>
#include <span>

namespace gk::estimates {

/// Urgency of need for care in the Basic Screening Survey for children (ASTDD manual). WHO's
/// five-level scale of 2013 is another and is not to be mixed with it.
enum class CareNeed { none, early, urgent };

/// One screened child. The label only joins children of a school. What no one could tell is empty.
struct ScreenedChild {
  std::size_t school;
  std::optional<bool> untreatedDecay;
  std::optional<bool> treatedDecay;
  std::optional<bool> sealants; ///< on a permanent molar
  CareNeed need;
};

/// How the children came to be screened.
enum class ScreeningDesign {
  /// Schools, then their children: the school is the cluster.
  schools,
  /// Children one by one, or all of them: each stands for itself.
  simpleRandom,
  /// All of a program: as `programShare` takes so many schools.
  program,
};

/// Each a share of the children for whom it is known, with intervals as `retention` has them
/// (`teeth` counts children); none where it is known of no child. No weights and no correction for
/// a finite population: a state sample with unequal chances of selection needs its own weights, and
/// a census needs no interval.
struct ScreeningMeasures {
  std::optional<RetentionEstimate> untreatedDecay;
  std::optional<RetentionEstimate> treatedDecay;
  /// Yes if either part is yes, no only if both are no; else not known.
  std::optional<RetentionEstimate> cariesExperience;
  std::optional<RetentionEstimate> sealants;
  std::optional<RetentionEstimate> anyNeed; ///< early or urgent
  std::optional<RetentionEstimate> urgentNeed;
};

/// Fails with `estimateInput` without a child and for a level outside 0.5 to 0.9999.
base::Result<ScreeningMeasures> screeningMeasures(std::span<const ScreenedChild> children,
                                                  ScreeningDesign design,
                                                  double level = usualLevel);

/// What the shares with untreated and treated decay alone say of caries experience:
/// max(U, T) <= E <= min(1, U + T) (Boole and Frechet). Fails for a share outside [0, 1].
base::Result<Interval> experienceBounds(double untreated, double treated);

} // namespace gk::estimates
