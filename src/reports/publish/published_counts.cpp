#include "reports/publish/published_counts.h"

#include "base/text.h"
#include "reports/publish/figure_relations.h"
#include "reports/publish/placed_rows.h"

#include <algorithm>
#include <deque>
#include <iterator>
#include <set>
#include <type_traits>

namespace gk::reports {

namespace {

/// A total says more to more readers than one school's line.
constexpr double dearTotal = 20;

/// Puts schools, groups of them and the total into one system, then what went out before.
template <class E>
class Builder {
 public:
  Builder(const std::vector<Line<E>>& schools, const Line<E>& total, const Groups& groups,
          BySchool bySchool, RowsPrinted rows)
      : bySchool_(bySchool), next_(schools.size() + 1) {
    for (std::size_t i = 0; i < schools.size(); ++i) {
      names_[schools[i].key] = schools[i].name;
      schools_.push_back(addLine(schools[i], {schools[i].key}, i, 1));
    }
    total_ = addLine(total, {}, schools.size(), dearTotal);
    addSum(out_.system, total_, schools_);
    std::set<std::string> inGroups;
    for (const auto& group : groups)
      if (const auto members = membersOf(group); members.size() > 1) {
        addGroup(members);
        inGroups.insert(group.begin(), group.end());
      }
    if (rows == RowsPrinted::all) {
      for (const auto& one : schools_)
        if (!inGroups.contains(one.schools.front())) print(one, namesOf(one));
      for (const auto& one : groups_)
        print(one, namesOf(one));
    }
    print(total_, "Total");
  }

  /// The newest one: its rows, its sums and what has changed since. A row in which nothing has
  /// changed is the same row, of which what was shown is out.
  void addNewest(const std::vector<ReleasedRow<E>>& rows, int under) {
    std::vector<Placed<E>> then;
    bool anyChanged = false;
    for (const auto& row : rows) {
      const auto* now = counterpart(row.schools);
      if (now && isUnchanged(out_.system, row, *now)) {
        showToo(out_.system, row, *now, under);
        then.push_back(*now);
        continue;
      }
      anyChanged = true;
      auto old = placeOld(row, now, under);
      if (now)
        for (const auto& [figure, cell] : old.cells)
          if (const auto at = now->cells.find(figure); at != now->cells.end())
            joinEarlier(cell, at->second);
      then.push_back(std::move(old));
    }
    if (!anyChanged || !then.back().schools.empty()) return;
    const auto total = std::move(then.back());
    then.pop_back();
    addSum(out_.system, total, then);
  }

  /// An older one was checked against the next when that went out: what is left is the change
  /// since, of what it showed.
  void addOlder(const std::vector<ReleasedRow<E>>& rows, int under) {
    for (const auto& row : rows) {
      const auto* now = counterpart(row.schools);
      if (!now || isUnchanged(out_.system, row, *now)) continue;
      for (const auto& [figure, cell] : row.cells)
        if (const auto at = now->cells.find(figure);
            at != now->cells.end() && cell.showing == Showing::number)
          joinEarlier(addOld(cell, now->row, figure, under), at->second);
    }
  }

  /// What other terms' pages showed, oldest first in each term, of children or teeth that are
  /// counted here too: `pairs` are their figure and ours.
  template <class F>
  void addOtherTerms(const std::vector<OldRows<F>>& pages,
                     const std::vector<std::pair<F, E>>& pairs, bool areWhole) {
    std::map<std::string, std::vector<OldRows<F>>> byTerm;
    for (const auto& page : pages)
      byTerm[page.otherTerm].push_back(page);
    std::map<std::vector<std::string>, std::vector<Placed<F>>> sameSchools;
    for (const auto& [term, told] : byTerm) {
      RowsBySchools<F> newer;
      std::vector<Placed<F>> alone;
      for (auto page = told.rbegin(); page != told.rend(); ++page)
        for (auto& row : addPageOfOtherTerm(*page, newer))
          (page == told.rbegin() ? sameSchools[row.schools] : alone).push_back(std::move(row));
      // A school that was later shown in a group: what is due now says how far it went on.
      if (areWhole)
        for (const auto& row : alone)
          if (const auto* now = counterpart(row.schools))
            for (const auto& [theirs, ours] : pairs)
              if (row.cells.contains(theirs) && now->cells.contains(ours))
                joinEarlier(row.cells.at(theirs), now->cells.at(ours));
    }
    for (const auto& [schools, rows] : sameSchools)
      if (const auto* now = counterpart(schools); now && rows.size() == byTerm.size())
        for (const auto& [theirs, ours] : pairs)
          follow(out_.system, rows, theirs, now->cells, ours, areWhole);
  }

  Counts<E> take() { return std::move(out_); }

 private:
  template <class F>
  using RowsBySchools = std::map<std::vector<std::string>, Placed<F>>;

  /// `newer` are the rows that went out after it, which take its place. Its rows of which none did.
  template <class F>
  std::vector<Placed<F>> addPageOfOtherTerm(const OldRows<F>& page, RowsBySchools<F>& newer) {
    std::vector<Placed<F>> placed;
    std::vector<Placed<F>> first;
    for (const auto& row : *page.rows) {
      const auto next = newer.find(row.schools);
      if (next != newer.end() && isUnchanged(out_.system, row, next->second)) {
        showToo(out_.system, row, next->second, page.under);
        placed.push_back(next->second);
        continue;
      }
      placed.push_back(placeOld(row, counterpart(row.schools), page.under, true));
      if (next != newer.end())
        for (const auto& [figure, cell] : placed.back().cells)
          if (const auto at = next->second.cells.find(figure); at != next->second.cells.end())
            joinEarlier(cell, at->second);
      if (next == newer.end()) first.push_back(placed.back());
      newer[row.schools] = placed.back();
    }
    if (!placed.empty() && placed.back().schools.empty()) {
      const auto total = std::move(placed.back());
      placed.pop_back();
      addSum(out_.system, total, placed);
    }
    return first;
  }

  /// Printed only once `print` says so.
  Placed<E> addLine(const Line<E>& line, std::vector<std::string> schools, std::size_t row,
                    double dear) {
    Placed<E> placed{std::move(schools), row, {}};
    for (const auto& [figure, value] : line.values)
      if (value)
        placed.cells[figure] = out_.system.add({.value = *value,
                                                .kind = kindOf(figure, bySchool_),
                                                .row = row,
                                                .printed = false,
                                                .outAlready = isOpen(figure, bySchool_),
                                                .dearness = dearness(figure) * dear});
    if constexpr (std::is_same_v<E, Figure>) sayWhetherEmpty(placed);
    relate(out_.system, placed.cells, bySchool_);
    return placed;
  }

  /// Of nobody with consent nobody can be left unscreened.
  void sayWhetherEmpty(const Placed<Figure>& placed) {
    const auto whole = placed.cells.find(Figure::consented);
    const auto rest = placed.cells.find(Figure::notScreened);
    if (whole == placed.cells.end() || rest == placed.cells.end()) return;
    auto& cells = out_.system.cells;
    cells.at(rest->second).groupIsEmpty = cells.at(whole->second).value == 0;
  }

  template <class F>
  Placed<F> placeOld(const ReleasedRow<F>& row, const Placed<E>* now, int under,
                     bool isOfOtherTerm = false) {
    Placed<F> old{row.schools, now ? now->row : next_++, {}};
    for (const auto& [figure, cell] : row.cells) {
      const auto at = addOld(cell, old.row, figure, under);
      out_.system.cells[at].isOfOtherTerm = isOfOtherTerm;
      old.cells[figure] = at;
    }
    relate(out_.system, old.cells, bySchool_);
    return old;
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
    addSum(out_.system, groups_.back(), members);
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
    for (const auto& [part, whole] : rates<E>())
      if (placed.cells.contains(part) && placed.cells.contains(whole))
        out_.system.rates.emplace_back(placed.cells.at(part), placed.cells.at(whole));
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

  template <class Cell, class F>
  std::size_t addOld(const Cell& cell, std::size_t row, F figure, int under) {
    return out_.system.add(
        {.value = cell.value,
         .kind = kindOf(figure, bySchool_),
         .row = row,
         .printed = false,
         .outAlready = cell.showing == Showing::number || isOpen(figure, bySchool_),
         .saidUnder = cell.showing == Showing::fewer ? under : 0});
  }

  /// A figure of an earlier table, and how far it has changed since: both are known sums.
  void joinEarlier(std::size_t then, std::size_t now) {
    const bool grew = out_.system.cells.at(now).value >= out_.system.cells.at(then).value;
    const bool isSecret = out_.system.cells.at(now).kind != CountKind::slack;
    out_.system.addRest(isSecret ? CountKind::count : CountKind::slack, grew ? now : then,
                        {grew ? then : now});
  }

  BySchool bySchool_;
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
using RowsOf = std::vector<ReleasedRow<E>>;

template <class F>
std::vector<OldRows<F>> pagesOf(std::span<const Release> releases, OfTerm of,
                                RowsOf<F> Release::*rows) {
  std::vector<OldRows<F>> pages;
  for (const auto& one : releases)
    if (one.of == of && !(one.*rows).empty())
      pages.push_back({&(one.*rows), one.under, one.otherTerm});
  return pages;
}

template <class E>
Builder<E> begin(const std::vector<Line<E>>& schools, const Line<E>& total,
                 std::span<const Release> earlier, RowsOf<E> Release::*rows, const Groups& groups,
                 BySchool bySchool, RowsPrinted printed = RowsPrinted::all) {
  Builder<E> builder(schools, total, groups, bySchool, printed);
  const auto told = pagesOf(earlier, OfTerm::same, rows);
  for (std::size_t i = 0; i < told.size(); ++i)
    if (i + 1 == told.size())
      builder.addNewest(*told[i].rows, told[i].under);
    else
      builder.addOlder(*told[i].rows, told[i].under);
  return builder;
}

/// What is found of one school or group is not put out where care alone is.
std::vector<Line<Figure>> withoutFindings(std::vector<Line<Figure>> lines) {
  for (auto& line : lines)
    std::erase_if(line.values, [](const auto& one) { return isFinding(one.first); });
  return lines;
}

} // namespace

std::string keyOf(const Participation& school) {
  return school.id ? school.id->text() : school.school;
}

std::vector<Release> ofSameTerm(std::span<const Release> releases) {
  std::vector<Release> out;
  std::ranges::copy_if(releases, std::back_inserter(out),
                       [](const auto& one) { return one.of == OfTerm::same; });
  return out;
}

TermCounts termCounts(const TermTotals& totals, std::span<const Release> earlier,
                      const Groups& groups, BySchool bySchool, RowsPrinted rows) {
  auto lines = linesOf<Figure>(totals.schools);
  if (bySchool == BySchool::services) lines = withoutFindings(std::move(lines));
  lines.push_back({"", "", rowOf(totals.total)});
  if (totals.total.couldNotTell == 0) // then it is the number screened under another name
    for (auto& line : lines)
      line.values.erase(Figure::decayKnown);
  const auto total = std::move(lines.back());
  lines.pop_back();
  auto builder = begin<Figure>(lines, total, earlier, &Release::term, groups, bySchool, rows);
  std::vector<std::pair<CheckFigure, Figure>> pairs;
  for (const auto& one : cohortRelations())
    pairs.emplace_back(one.dueNow, one.sealedThen);
  builder.addOtherTerms(pagesOf(earlier, OfTerm::dueAfter, &Release::checks), pairs, false);
  return builder.take();
}

TermCounts gradeCounts(const std::vector<Participation>& grades, const Participation& total,
                       std::span<const Release> earlier, const Groups& groups, BySchool bySchool) {
  auto lines = linesOf<Figure>(grades);
  lines.push_back({"", "", rowOf(total)});
  for (auto& line : lines)
    std::erase_if(line.values, [](const auto& one) { return one.first > Figure::notScreened; });
  const auto whole = std::move(lines.back());
  lines.pop_back();
  return begin<Figure>(lines, whole, earlier, &Release::grades, groups, bySchool).take();
}

CheckCounts checkCounts(const TermTotals& totals, std::span<const Release> earlier,
                        const Groups& groups, BySchool bySchool, RowsPrinted rows) {
  auto builder = begin<CheckFigure>(linesOf<CheckFigure>(totals.retention.schools),
                                    {"", "", rowOf(totals.retention.total)}, earlier,
                                    &Release::checks, groups, bySchool, rows);
  std::vector<std::pair<Figure, CheckFigure>> pairs;
  for (const auto& one : cohortRelations())
    pairs.emplace_back(one.sealedThen, one.dueNow);
  builder.addOtherTerms(pagesOf(earlier, OfTerm::sealedBefore, &Release::term), pairs, true);
  return builder.take();
}

CheckCounts shortTermCounts(const TermTotals& totals, std::span<const Release> earlier) {
  return begin<CheckFigure>({}, Line<CheckFigure>{"", "", rowOf(totals.shortTerm)}, earlier,
                            &Release::shortTerm, {}, BySchool::all)
      .take();
}

PupilSystem pupilSystem(const TermTotals& totals, std::span<const Release> earlier) {
  auto counts = begin<PupilFigure>({}, Line<PupilFigure>{"", "", rowOf(totals.pupils)}, earlier,
                                   &Release::pupils, {}, BySchool::all)
                    .take();
  counts.system.cells.at(counts.grid.front().at(PupilFigure::screened)).outAlready = true;
  return counts;
}

} // namespace gk::reports
