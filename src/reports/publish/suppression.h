#pragma once

#include "base/enum_names.h"
#include "base/result.h"
#include "roster/program/program.h"

#include <cstddef>
#include <string>
#include <utility>
#include <vector>

namespace gk::reports {

using roster::BySchool;

/// Which counts are too small to publish. A threshold under 5 cannot be made.
class SuppressionRule {
 public:
  static constexpr int least = 5;
  /// Counts under 10 are hidden.
  SuppressionRule() = default;
  /// Fails with `numberMalformed` for less than `least`.
  static base::Result<SuppressionRule> under(int threshold, BySchool bySchool = BySchool::all);
  /// As the program set it. Precondition: the program is sound.
  static SuppressionRule of(const roster::Program& program);

  [[nodiscard]] int threshold() const { return threshold_; }
  [[nodiscard]] BySchool bySchool() const { return bySchool_; }
  /// How many values must stay possible for a small count: all or five.
  [[nodiscard]] int leftOpen() const;
  bool operator==(const SuppressionRule&) const = default;

 private:
  SuppressionRule(int threshold, BySchool bySchool) : threshold_(threshold), bySchool_(bySchool) {}
  int threshold_ = 10;
  BySchool bySchool_ = BySchool::all;
};

/// What of the rule a program has set aside, to be said wherever the rule is; empty where nothing.
std::string openlyWords(const SuppressionRule& rule);

/// A count hides when it is small and not zero. A rest is what a group has left beside a count:
/// it hides at zero too, for then the count is the whole group. A slack is any other difference
/// that cannot be negative; it is no one's secret and only bounds the others.
enum class CountKind { count, rest, slack };

struct CountCell {
  int value;
  CountKind kind = CountKind::count;
  std::size_t row = 0;
  bool printed = true;       ///< otherwise only implied, as what a table printed lets be worked out
  bool outAlready = false;   ///< was published earlier and cannot be called back
  double dearness = 1;       ///< how much is lost by withholding it, beside its size
  bool groupIsEmpty = false; ///< of a rest: then zero of it tells nothing
  bool isOfOtherTerm = false; ///< of a page that another term put out
  int saidUnder = 0;          ///< an earlier page said that it is fewer than this; 0: none did
};

/// `times` the value of `whole` is the sum of the values of `parts`; all are places in `cells`.
struct CountSum {
  std::size_t whole;
  std::vector<std::size_t> parts;
  int times = 1;
};

/// Counts and all that a reader knows of how they add up.
struct CountSystem {
  std::vector<CountCell> cells;
  std::vector<CountSum> sums;
  std::size_t totalRow = 0;
  /// Part and whole of each rate that is printed where both are.
  std::vector<std::pair<std::size_t, std::size_t>> rates;

  std::size_t add(CountCell cell);
  /// The difference of a group, so many times, and some of its parts, as a cell of its own that is
  /// not printed.
  std::size_t addRest(CountKind kind, std::size_t whole, std::vector<std::size_t> parts,
                      int times = 1);
};

enum class Showing { number, fewer, withheld };

struct Suppressed {
  std::vector<Showing> cells;
  /// Small counts that stay within reach because of what is out already.
  std::vector<std::size_t> exposed;
  /// Small counts for which the words, read at their strongest, leave fewer values than they must.
  std::vector<std::size_t> narrowed{};

  [[nodiscard]] int leaks() const { return static_cast<int>(exposed.size() + narrowed.size()); }
};

/// One count within reach is enough where another set of rows can be tried.
enum class Search { whole, untilLeak };

/// Whether a cell must be hidden for its own sake.
bool isTooSmall(const CountCell& cell, const SuppressionRule& rule);

/// Hides small counts, and with them as few and as small other counts as keep a reader, who knows
/// every sum, from working them out: docs/methods.md, "Small numbers". At least `leftOpen` values
/// stay possible for every small count, by the numbers and by the words ("fewer than 10" read as 1
/// to 9, "withheld" instead of a large number as 10 or more).
/// A count of another term's page that its own pages give away already is not this page's to save.
/// Precondition: the values obey the sums and are not negative. The same answer for the same input.
Suppressed suppress(const CountSystem& system, const SuppressionRule& rule,
                    Search search = Search::whole);

} // namespace gk::reports

template <>
inline constexpr auto gk::base::enumNames<gk::reports::Showing> =
    std::to_array<std::string_view>({"number", "fewer", "withheld"});
