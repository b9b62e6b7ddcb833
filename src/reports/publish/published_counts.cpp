#include "reports/publish/published_counts.h"

#include "base/text.h"
#include "reports/publish/figure_relations.h"

#include <algorithm>
#include <deque>
#include <set>

namespace gk::reports {

namespace {

/// A total says more to more readers than one school's line.
constexpr double dearTotal = 5;

template <class E>
struct Line {
  std::string key;
  std::string name;
  std::map<E, std::optional<int>> values;
};

/// A row of the system and the keys of the schools that it is the sum of; none for the total.
template <class E>
struct Placed {
  std::vector<std::string> schools;
  std::size_t row = 0;
  std::map<E, std::size_t> cells;
};

/// Puts schools, groups of them and the total into one system, then what went out before.
template <class E>
class Builder {
 public:
  Builder(const std::vector<Line<E>>& schools, const Line<E>& total, const Groups& groups)
      : next_(schools.size() + 1) {
    out_.system.totalRow = schools.size();
    for (std::size_t i = 0; i < schools.size(); ++i) {
      names_[schools[i].key] = schools[i].name;
      schools_.push_back(addLine(schools[i], {schools[i].key}, i, 1));
    }
    total_ = addLine(total, {}, schools.size(), dearTotal);
    addSum(total_, schools_);
    std::set<std::string> inGroups;
    for (const auto& group : groups)
      if (const auto members = membersOf(group); members.size() > 1) {
        addGroup(members);
        inGroups.insert(group.begin(), group.end());
      }
    for (const auto& one : schools_)
      if (!inGroups.contains(one.schools.front())) print(one, namesOf(one));
    for (const auto& one : groups_)
      print(one, namesOf(one));
    print(total_, "Total");
  }

  /// The newest one: its rows, its sums and what has changed since. A row in which nothing has
  /// changed is the same row, of which what was shown is out.
  void addNewest(const std::vector<ReleasedRow<E>>& rows) {
    std::vector<Placed<E>> then;
    bool anyChanged = false;
    for (const auto& row : rows) {
      const auto* now = counterpart(row.schools);
      if (now && isUnchanged(row, *now)) {
        for (const auto& [figure, cell] : row.cells)
          if (cell.showing == Showing::number)
            out_.system.cells.at(now->cells.at(figure)).outAlready = true;
        then.push_back(*now);
        continue;
      }
      anyChanged = true;
      Placed<E> old{row.schools, now ? now->row : next_++, {}};
      for (const auto& [figure, cell] : row.cells)
        old.cells[figure] = addOld(cell, old.row);
      relate(out_.system, old.cells);
      if (now)
        for (const auto& [figure, cell] : old.cells)
          if (const auto at = now->cells.find(figure); at != now->cells.end())
            joinEarlier(cell, at->second);
      then.push_back(std::move(old));
    }
    if (!anyChanged || !then.back().schools.empty()) return;
    const auto total = std::move(then.back());
    then.pop_back();
    addSum(total, then);
  }

  /// An older one was checked against the next when that went out: what is left is the change
  /// since, of what it showed.
  void addOlder(const std::vector<ReleasedRow<E>>& rows) {
    for (const auto& row : rows) {
      const auto* now = counterpart(row.schools);
      if (!now || isUnchanged(row, *now)) continue;
      for (const auto& [figure, cell] : row.cells)
        if (const auto at = now->cells.find(figure);
            at != now->cells.end() && cell.showing == Showing::number)
          joinEarlier(addOld(cell, now->row), at->second);
    }
  }

  Counts<E> take() { return std::move(out_); }

 private:
  /// Printed only once `print` says so.
  Placed<E> addLine(const Line<E>& line, std::vector<std::string> schools, std::size_t row,
                    double dear) {
    Placed<E> placed{std::move(schools), row, {}};
    for (const auto& [figure, value] : line.values)
      if (value)
        placed.cells[figure] = out_.system.add({.value = *value,
                                                .kind = kindOf(figure),
                                                .row = row,
                                                .printed = false,
                                                .dearness = dearness(figure) * dear});
    relate(out_.system, placed.cells);
    return placed;
  }

  void addSum(const Placed<E>& whole, const std::vector<Placed<E>>& parts) {
    if (parts.empty()) return; // figures of all schools alone
    for (const auto& [figure, cell] : whole.cells) {
      CountSum sum{cell, {}};
      for (const auto& part : parts)
        if (const auto at = part.cells.find(figure); at != part.cells.end())
          sum.parts.push_back(at->second);
      out_.system.sums.push_back(std::move(sum));
    }
  }

  [[nodiscard]] std::vector<Placed<E>> membersOf(const std::vector<std::string>& schools) const {
    std::vector<Placed<E>> members;
    for (const auto& one : schools_)
      if (std::ranges::find(schools, one.schools.front()) != schools.end()) members.push_back(one);
    return members;
  }

  /// A figure that one of them lacks is unknown of the whole.
  const Placed<E>* addGroup(const std::vector<Placed<E>>& members) {
    Line<E> line;
    for (const auto& [figure, first] : members.front().cells) {
      int sum = 0;
      const bool allKnow = std::ranges::all_of(members, [&, which = figure](const auto& one) {
        const auto at = one.cells.find(which);
        if (at != one.cells.end()) sum += out_.system.cells[at->second].value;
        return at != one.cells.end();
      });
      if (allKnow) line.values[figure] = sum;
    }
    std::vector<std::string> keys;
    for (const auto& one : members)
      keys.push_back(one.schools.front());
    groups_.push_back(addLine(line, std::move(keys), next_++, 1));
    addSum(groups_.back(), members);
    return &groups_.back();
  }

  [[nodiscard]] std::string namesOf(const Placed<E>& placed) const {
    std::vector<std::string> names;
    for (const auto& key : placed.schools)
      names.push_back(names_.at(key));
    return base::join(names, " + ");
  }

  void print(const Placed<E>& placed, std::string name) {
    for (const auto& [figure, cell] : placed.cells)
      out_.system.cells[cell].printed = true;
    out_.grid.push_back(placed.cells);
    out_.names.push_back(std::move(name));
    out_.schools.push_back(placed.schools);
  }

  /// What stands now for the schools of an earlier row; none where one of them is no more.
  const Placed<E>* counterpart(const std::vector<std::string>& schools) {
    if (schools.empty()) return &total_;
    if (schools.size() == 1) {
      const auto at = std::ranges::find(schools_, schools, &Placed<E>::schools);
      return at == schools_.end() ? nullptr : &*at;
    }
    const auto at = std::ranges::find(groups_, schools, &Placed<E>::schools);
    if (at != groups_.end()) return &*at;
    const auto members = membersOf(schools);
    return members.size() == schools.size() ? addGroup(members) : nullptr;
  }

  std::size_t addOld(const typename ReleasedRow<E>::Cell& cell, std::size_t row) {
    return out_.system.add({.value = cell.value,
                            .row = row,
                            .printed = false,
                            .outAlready = cell.showing == Showing::number});
  }

  [[nodiscard]] bool isUnchanged(const ReleasedRow<E>& then, const Placed<E>& now) const {
    return std::ranges::equal(then.cells, now.cells, [&](const auto& old, const auto& cell) {
      return old.first == cell.first && old.second.value == out_.system.cells.at(cell.second).value;
    });
  }

  /// A figure of an earlier table, and how far it has changed since: both are known sums.
  void joinEarlier(std::size_t then, std::size_t now) {
    const bool grew = out_.system.cells.at(now).value >= out_.system.cells.at(then).value;
    out_.system.addRest(CountKind::count, grew ? now : then, {grew ? then : now});
  }

  Counts<E> out_;
  std::map<std::string, std::string> names_; ///< by key
  std::vector<Placed<E>> schools_;
  std::deque<Placed<E>> groups_; ///< also those of earlier tables alone
  Placed<E> total_;
  std::size_t next_; ///< row of the system that is free
};

std::string keyOf(const RetentionLine& line) {
  return line.school ? line.school->text() : line.label;
}
const std::string& labelOf(const Participation& school) {
  return school.school;
}
const std::string& labelOf(const RetentionLine& line) {
  return line.label;
}

template <class E, class Row>
std::vector<Line<E>> linesOf(const std::vector<Row>& rows) {
  std::vector<Line<E>> lines;
  for (const auto& row : rows)
    lines.push_back({keyOf(row), labelOf(row), rowOf(row)});
  return lines;
}

template <class E>
Counts<E> build(const std::vector<Line<E>>& schools, const Line<E>& total,
                std::span<const Release> earlier, std::vector<ReleasedRow<E>> Release::*rows,
                const Groups& groups) {
  Builder<E> builder(schools, total, groups);
  std::vector<const std::vector<ReleasedRow<E>>*> told;
  for (const auto& one : earlier)
    if (!(one.*rows).empty()) told.push_back(&(one.*rows));
  for (const auto* one : told)
    if (one == told.back())
      builder.addNewest(*one);
    else
      builder.addOlder(*one);
  return builder.take();
}

} // namespace

std::string keyOf(const Participation& school) {
  return school.id ? school.id->text() : school.school;
}

TermCounts termCounts(const TermTotals& totals, std::span<const Release> earlier,
                      const Groups& groups) {
  return build<Figure>(linesOf<Figure>(totals.schools), {"", "", rowOf(totals.total)}, earlier,
                       &Release::term, groups);
}

TermCounts gradeCounts(const std::vector<Participation>& grades, const Participation& total,
                       std::span<const Release> earlier, const Groups& groups) {
  auto lines = linesOf<Figure>(grades);
  lines.push_back({"", "", rowOf(total)});
  for (auto& line : lines)
    std::erase_if(line.values, [](const auto& one) { return one.first > Figure::notScreened; });
  const auto whole = std::move(lines.back());
  lines.pop_back();
  return build<Figure>(lines, whole, earlier, &Release::grades, groups);
}

CheckCounts checkCounts(const TermTotals& totals, std::span<const Release> earlier,
                        const Groups& groups) {
  return build<CheckFigure>(linesOf<CheckFigure>(totals.retention.schools),
                            {"", "", rowOf(totals.retention.total)}, earlier, &Release::checks,
                            groups);
}

CheckCounts shortTermCounts(const TermTotals& totals, std::span<const Release> earlier) {
  return build<CheckFigure>({}, {"", "", rowOf(totals.shortTerm)}, earlier, &Release::shortTerm,
                            {});
}

PupilSystem pupilSystem(const TermTotals& totals, std::span<const Release> earlier) {
  auto counts =
      build<PupilFigure>({}, {"", "", rowOf(totals.pupils)}, earlier, &Release::pupils, {});
  counts.system.cells.at(counts.grid.front().at(PupilFigure::screened)).outAlready = true;
  return counts;
}

} // namespace gk::reports
