#pragma once

#include "chairside/placement.h"
#include "plan/county.h"

#include <map>

namespace gk::demo {

/// What is found and done at one permanent molar.
enum class Spot {
  seal,
  sealEarly, ///< a first lesion, not a cavity: sealed all the same
  stopped,   ///< chosen, and the child would not go on
  cavity,
  filled,
  elsewhere, ///< sealed by someone else, whole
  notUp,
  partlyUp,
};

/// One child's day in the chair as the story wants it.
struct ChildPlan {
  std::string grade;
  std::map<int, Spot> molars; ///< by ISO 3950 number; those not named are not up
  bool primaryCavity = false; ///< on the lower right primary second molar
  chairside::Urgency urgency = chairside::Urgency::none; ///< early and urgent mean untreated decay
  bool varnish = true;
  chairside::DayEnd end = chairside::DayEnd::screenedNoneNeeded;

  [[nodiscard]] int count(Spot spot) const;
  [[nodiscard]] int sealedTeeth() const { return count(Spot::seal) + count(Spot::sealEarly); }
};

/// One sealed child's part of a school's teeth.
struct Share {
  std::string grade;
  int firsts;
  int seconds;
  bool unfinished = false;
};

/// `total` over so many, as evenly as whole numbers go, the larger parts first.
std::vector<int> deal(int total, std::size_t among);

/// Plans of all that consented, in this order: sealed (as `shares`), in need but not treated, not
/// in need, absent, declined, left. They add up to `term` to the last unit; a table that does not
/// add up is a bug. `grades` are those of the children that are not sealed, in turn.
std::vector<ChildPlan> planSchool(const SchoolTerm& term, const std::vector<Share>& shares,
                                  const std::vector<std::string>& grades);

/// Shares of fall 2026 by the school's own grades.
std::vector<Share> sharesOf2026(const SchoolTerm& term, std::string_view code);
/// Shares of fall 2025: first those found a year later, then the others.
std::vector<Share> sharesOf2025(const School& school);

} // namespace gk::demo
