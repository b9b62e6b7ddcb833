#include "reports/publish/release_lines.h"

#include "base/text/text.h"
#include "reports/print/kept_lines.h"

#include <algorithm>
#include <iterator>
#include <limits>
#include <map>

namespace gk::reports {

namespace {

using Words = std::vector<std::string>;

template <class E>
std::string rowLines(std::string_view kind, const std::vector<ReleasedRow<E>>& rows) {
  std::string out;
  for (const auto& row : rows) {
    Words head{std::string(kind)};
    head.insert(head.end(), row.schools.begin(), row.schools.end());
    out += keptLine(head);
    for (const auto& [figure, cell] : row.cells)
      out += keptLine({"cell", std::string(base::nameOf(figure)), std::to_string(cell.value),
                       std::string(base::nameOf(cell.showing))});
  }
  return out;
}

std::optional<int> count(const std::string& word) {
  const auto value = base::parseInt(word);
  if (!value || *value < 0 || *value > std::numeric_limits<int>::max()) return std::nullopt;
  return static_cast<int>(*value);
}

template <class E>
bool addCell(std::vector<ReleasedRow<E>>& rows, const Words& words) {
  if (rows.empty() || words.size() != 4) return false;
  const auto figure = base::fromName<E>(words[1]);
  const auto value = count(words[2]);
  const auto showing = base::fromName<Showing>(words[3]);
  if (!figure || !value || !showing) return false;
  rows.back().cells[*figure] = {*value, *showing};
  return true;
}

/// A state's report has every figure of each of its rows, and all grades together at the end.
bool hasEveryFigure(const std::vector<ReleasedRow<IndicatorFigure>>& rows) {
  return rows.empty() ||
         (rows.back().schools.empty() && std::ranges::all_of(rows, [](const auto& row) {
            return row.cells.size() == base::enumCount<IndicatorFigure>;
          }));
}

} // namespace

std::string toLines(const Release& release) {
  return keptLine({"under", std::to_string(release.under)}) +
         keptLine({"by-school", std::string(base::nameOf(release.bySchool))}) +
         rowLines("term", release.term) + rowLines("checks", release.checks) +
         rowLines("grades", release.grades) + rowLines("short-term", release.shortTerm) +
         rowLines("pupils", release.students) + rowLines("referrals", release.referrals) +
         rowLines("indicators", release.indicators);
}

std::optional<Release> releaseFrom(std::string_view lines) {
  Release release;
  bool (*addTo)(Release&, const Words&) = nullptr; // where the cells of the last row go
  for (const auto& words : fromKeptLines(lines)) {
    const Words schools(words.begin() + 1, words.end());
    const auto& kind = words.front();
    if (kind == "under" && words.size() == 2) {
      const auto under = count(words[1]);
      if (!under) return std::nullopt;
      release.under = *under;
    } else if (kind == "by-school" && words.size() == 2) {
      const auto bySchool = base::fromName<BySchool>(words[1]);
      if (!bySchool) return std::nullopt;
      release.bySchool = *bySchool;
    } else if (kind == "term") {
      release.term.push_back({schools, {}});
      addTo = [](Release& to, const Words& cell) { return addCell(to.term, cell); };
    } else if (kind == "checks") {
      release.checks.push_back({schools, {}});
      addTo = [](Release& to, const Words& cell) { return addCell(to.checks, cell); };
    } else if (kind == "grades") {
      release.grades.push_back({schools, {}});
      addTo = [](Release& to, const Words& cell) { return addCell(to.grades, cell); };
    } else if (kind == "short-term") {
      release.shortTerm.push_back({schools, {}});
      addTo = [](Release& to, const Words& cell) { return addCell(to.shortTerm, cell); };
    } else if (kind == "pupils") {
      release.students.push_back({schools, {}});
      addTo = [](Release& to, const Words& cell) { return addCell(to.students, cell); };
    } else if (kind == "referrals") {
      release.referrals.push_back({schools, {}});
      addTo = [](Release& to, const Words& cell) { return addCell(to.referrals, cell); };
    } else if (kind == "indicators") {
      release.indicators.push_back({schools, {}});
      addTo = [](Release& to, const Words& cell) { return addCell(to.indicators, cell); };
    } else if (kind != "cell" || !addTo || !addTo(release, words)) {
      return std::nullopt;
    }
  }
  if (release.under < SuppressionRule::least || !hasEveryFigure(release.indicators))
    return std::nullopt;
  return release;
}

std::vector<Release> ofSameTerm(std::span<const Release> releases) {
  std::vector<Release> out;
  std::ranges::copy_if(releases, std::back_inserter(out),
                       [](const auto& one) { return one.of == OfTerm::same; });
  return out;
}

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
         areAlike(one.students, other.students) && areAlike(one.referrals, other.referrals) &&
         areAlike(one.indicators, other.indicators);
}

} // namespace gk::reports
