#include "reports/publish/same_counts.h"

#include <algorithm>

namespace gk::reports {

namespace {

/// Schools or grades that a row of either has together are one.
class Together {
 public:
  template <class E>
  void add(const std::vector<ReleasedRow<E>>& rows) {
    for (const auto& row : rows)
      for (const auto& key : row.schools)
        first_[firstOf(key)] = firstOf(row.schools.front());
  }
  std::string firstOf(const std::string& key) {
    auto at = key;
    for (auto next = first_.find(at); next != first_.end() && next->second != at;
         next = first_.find(at))
      at = next->second;
    return at;
  }
  /// The total is by itself.
  std::string of(const std::vector<std::string>& schools) {
    return schools.empty() ? std::string() : firstOf(schools.front());
  }

 private:
  std::map<std::string, std::string> first_;
};

template <class E>
using Sums = std::map<std::pair<std::string, E>, int>;

template <class E>
Sums<E> sumsOf(const std::vector<ReleasedRow<E>>& rows, Together& together) {
  Sums<E> sums;
  for (const auto& row : rows)
    for (const auto& [figure, cell] : row.cells)
      sums[{together.of(row.schools), figure}] += cell.value;
  return sums;
}

template <class E>
bool areAlike(const std::vector<ReleasedRow<E>>& one, const std::vector<ReleasedRow<E>>& other) {
  Together together;
  together.add(one);
  together.add(other);
  const auto theirs = sumsOf(other, together);
  return std::ranges::all_of(sumsOf(one, together), [&](const auto& sum) {
    const auto at = theirs.find(sum.first);
    return at == theirs.end() || at->second == sum.second;
  });
}

} // namespace

bool countedAlike(const Release& one, const Release& other) {
  return areAlike(one.term, other.term) && areAlike(one.checks, other.checks) &&
         areAlike(one.grades, other.grades) && areAlike(one.shortTerm, other.shortTerm) &&
         areAlike(one.pupils, other.pupils);
}

} // namespace gk::reports
