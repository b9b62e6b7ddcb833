#pragma once

#include "base/enum_names.h"
#include "base/result.h"

#include <cstddef>
#include <string>
#include <vector>

namespace gk::reports {

/// Which counts are too small to publish. A threshold under 5 cannot be made.
class SuppressionRule {
 public:
  static constexpr int least = 5;
  /// Counts under 10 are hidden.
  SuppressionRule() = default;
  /// Fails with `numberMalformed` for less than `least`.
  static base::Result<SuppressionRule> under(int threshold);

  [[nodiscard]] int threshold() const { return threshold_; }
  /// How many values the published words must leave open for a small count: all or five.
  [[nodiscard]] int leftOpenByWords() const;
  bool operator==(const SuppressionRule&) const = default;

 private:
  explicit SuppressionRule(int threshold) : threshold_(threshold) {}
  int threshold_ = 10;
};

/// A count hides when it is small and not nought. A rest is what a group has left beside a count:
/// it hides at nought too, for then the count is the whole group. A slack is any other difference
/// that cannot be negative; it is nobody's secret and only bounds the others.
enum class CountKind { count, rest, slack };

struct CountCell {
  int value;
  CountKind kind = CountKind::count;
  std::size_t row = 0;
  bool printed = true;       ///< otherwise only implied, as what a table printed lets be worked out
  bool outAlready = false;   ///< was published earlier and cannot be called back
  double dearness = 1;       ///< how much is lost by withholding it, beside its size
  bool groupIsEmpty = false; ///< of a rest: then nought of it tells nothing
};

/// The value of `whole` is the sum of the values of `parts`; all are places in `cells`.
struct CountSum {
  std::size_t whole;
  std::vector<std::size_t> parts;
};

/// Counts and all that a reader knows of how they add up.
struct CountSystem {
  std::vector<CountCell> cells;
  std::vector<CountSum> sums;
  std::size_t totalRow = 0;

  std::size_t add(CountCell cell);
  /// The difference of a group and some of its parts, as a cell of its own that is not printed.
  std::size_t addRest(CountKind kind, std::size_t whole, std::vector<std::size_t> parts);
};

enum class Showing { number, fewer, withheld };

struct Suppressed {
  std::vector<Showing> cells;
  /// Small counts that stay within reach because of what is out already.
  std::vector<std::size_t> exposed;
  /// Small counts for which the words, read at their strongest, leave fewer values than they must.
  std::vector<std::size_t> narrowed{};
};

/// Whether a cell must be hidden for its own sake.
bool isTooSmall(const CountCell& cell, const SuppressionRule& rule);

/// Hides small counts, and with them as few and as small other counts as keep a reader, who knows
/// every sum, from working them out: docs/methods.md, "Small numbers".
/// - By the numbers: every small count could as well be any number from 0 to the threshold less 1.
/// - By the words too ("fewer than 10" read as 1 to 9, "withheld" as 10 or more): at least
///   `leftOpenByWords` values stay possible.
/// Precondition: the values obey the sums and are not negative. The same answer for the same input.
Suppressed suppress(const CountSystem& system, const SuppressionRule& rule);

} // namespace gk::reports

template <>
inline constexpr auto gk::base::enumNames<gk::reports::Showing> =
    std::to_array<std::string_view>({"number", "fewer", "withheld"});
