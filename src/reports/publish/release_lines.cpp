#include "reports/publish/release_lines.h"

#include "base/text.h"
#include "reports/print/kept_lines.h"

#include <limits>

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

} // namespace

std::string toLines(const Release& release) {
  return keptLine({"under", std::to_string(release.under)}) +
         keptLine({"by-school", std::string(base::nameOf(release.bySchool))}) +
         rowLines("term", release.term) + rowLines("checks", release.checks) +
         rowLines("grades", release.grades) + rowLines("short-term", release.shortTerm) +
         rowLines("pupils", release.pupils);
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
      release.pupils.push_back({schools, {}});
      addTo = [](Release& to, const Words& cell) { return addCell(to.pupils, cell); };
    } else if (kind != "cell" || !addTo || !addTo(release, words)) {
      return std::nullopt;
    }
  }
  if (release.under < SuppressionRule::least) return std::nullopt;
  return release;
}

} // namespace gk::reports
