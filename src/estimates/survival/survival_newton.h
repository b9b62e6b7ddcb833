#pragma once

#include <cstddef>
#include <span>
#include <vector>

namespace gk::estimates {

/// Spells that cover the same innermost intervals, first to last; for the sources of the survival
/// fit alone.
struct Coverage {
  std::size_t first;
  std::size_t last;
  double weight;
};

/// Masses proposed by one constrained Newton step at `masses` (Wang 2008, Comput Stat Data Anal
/// 52:2388-402): the quadratic model of the log-likelihood on the intervals with a mass and,
/// between each two of them, the one with the steepest slope, maximised over masses >= 0. `slopes`
/// are d log L / d mass and `chances` the probability of each coverage, all above 0. Empty when
/// more than `most` intervals would take part or the model is not solvable.
std::vector<double> newtonProposal(std::span<const Coverage> coverages,
                                   std::span<const double> chances, std::span<const double> masses,
                                   std::span<const double> slopes, std::size_t most);

} // namespace gk::estimates
