#pragma once

#include <iosfwd>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace gk::bench {

enum class Keep { atMost, atLeast };

/// What a figure is held to.
struct Target {
  Keep keep;
  double bound;
};

/// A line of the table.
struct Figure {
  std::string what;
  double value;
  std::string unit;
  std::optional<Target> target;

  [[nodiscard]] bool isMet() const;
};

/// How the cost of a question grows with the logbook.
enum class Growth { scan, lookUp };

/// The table that `tests/bench/run` prints, in the order in which it was measured.
class Figures {
 public:
  void add(Figure figure);
  /// As `add`, and remembered for `addExponents`.
  void addCost(const std::string& what, Growth growth, int children, double value,
               const std::string& unit);
  /// From the smallest logbook to the largest, for each cost of two sizes or more.
  void addExponents();

  /// Cost of `what` at the largest size over that at the smallest.
  [[nodiscard]] std::optional<double> growthOf(const std::string& what) const;
  [[nodiscard]] bool allMet() const;
  /// As Markdown, for docs/benchmarks.md.
  void print(std::ostream& out) const;

 private:
  struct Costs {
    Growth growth;
    std::map<int, double> byChildren;
  };
  std::vector<Figure> figures_;
  std::map<std::string, Costs> costs_;
};

} // namespace gk::bench
