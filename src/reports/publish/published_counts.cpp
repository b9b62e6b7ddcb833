#include "reports/publish/published_counts.h"

#include "base/text/text.h"
#include "reports/publish/figure_relations.h"
#include "reports/publish/placed_rows.h"

#include <algorithm>
#include <deque>
#include <ranges>
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

  /// One that is weighed whole, the newest first: its rows, its sums and what has changed since. A
  /// row in which nothing has changed is the same row, of which what was shown is out.
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
      const auto next = newer_.find(row.schools);
      if (next != newer_.end() && isUnchanged(out_.system, row, next->second)) {
        showToo(out_.system, row, next->second, under);
        addMissing(row, next->second, under);
      } else {
        auto old = placeOld(row, now, under);
        if (now) joinEarlier(out_.system, old, *now);
        if (next != newer_.end()) joinEarlier(out_.system, old, next->second);
        newer_[row.schools] = std::move(old);
      }
      then.push_back(newer_.at(row.schools));
    }
    if (then.empty() || !then.back().schools.empty()) return;
    const auto total = std::move(then.back());
    then.pop_back();
    if (anyChanged) addSum(out_.system, total, then);
    totalsThen_.emplace(&rows, total);
  }

  /// An older one was checked against the next when that went out: left is the change since.
  void addOlder(const std::vector<ReleasedRow<E>>& rows, int under) {
    for (const auto& row : rows) {
      const auto* now = counterpart(row.schools);
      if (!now) continue;
      if (isUnchanged(out_.system, row, *now)) {
        showToo(out_.system, row, *now, under);
        continue;
      }
      for (const auto& [figure, cell] : row.cells)
        if (const auto at = now->cells.find(figure);
            at != now->cells.end() && cell.showing == Showing::number)
          joinEarlier(out_.system, addOld(cell, now->row, figure, under), at->second);
    }
  }

  /// What a state's report of this term told besides, of all schools.
  void addIndicators(const Release& page) {
    if (const auto then = totalsThen_.find(&page.term); then != totalsThen_.end())
      placeIndicators(out_.system, page, then->second);
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
                joinEarlier(out_.system, row.cells.at(theirs), now->cells.at(ours));
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
      if (next != newer.end()) joinEarlier(out_.system, placed.back(), next->second);
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

  /// Of no one with consent no one can be left unscreened.
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

  /// What an older page of the same counts told and the newer one did not.
  void addMissing(const ReleasedRow<E>& row, Placed<E>& newer, int under) {
    const auto before = newer.cells.size();
    for (const auto& [figure, cell] : row.cells)
      if (!newer.cells.contains(figure))
        newer.cells[figure] = addOld(cell, newer.row, figure, under);
    if (newer.cells.size() > before) relate(out_.system, newer.cells, bySchool_);
  }

  BySchool bySchool_;
  Counts<E> out_;
  std::map<std::string, std::string> names_; ///< by key
  std::vector<Placed<E>> schools_;
  std::deque<Placed<E>> groups_; ///< also those of earlier tables alone
  Placed<E> total_;
  RowsBySchools<E> newer_; ///< of this term's pages that are placed, where they differ from now
  /// Of those pages, as they were.
  std::map<const std::vector<ReleasedRow<E>>*, Placed<E>> totalsThen_;
  std::size_t next_; ///< row of the system that is free
};

template <class E>
Builder<E> begin(const std::vector<Line<E>>& schools, const Line<E>& total,
                 std::span<const Release> earlier, RowsOf<E> Release::*rows, const Groups& groups,
                 BySchool bySchool, RowsPrinted printed = RowsPrinted::all) {
  Builder<E> builder(schools, total, groups, bySchool, printed);
  const auto told = pagesOf(earlier, OfTerm::same, rows);
  for (const auto& page : told | std::views::reverse)
    if (page.isWeighedWhole)
      builder.addNewest(*page.rows, page.under);
    else
      builder.addOlder(*page.rows, page.under);
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

TermCounts termCounts(const TermTotals& totals, std::span<const Release> earlier,
                      const Groups& groups, BySchool bySchool, RowsPrinted rows,
                      Findings findings) {
  auto lines = linesOf<Figure>(totals.schools);
  if (bySchool == BySchool::services) lines = withoutFindings(std::move(lines));
  lines.push_back({"", "", rowOf(totals.total)});
  for (auto& [key, name, values] : lines) { // what is another number under a second name
    if (totals.total.couldNotTell == 0) values.erase(Figure::decayKnown);
    if (totals.total.sealedUnscreened == 0) values.erase(Figure::sealedInNeed);
    if (totals.total.varnishUnscreened == 0) values.erase(Figure::varnishScreened);
  }
  if (findings == Findings::left) lines = withoutFindings(std::move(lines));
  const auto total = std::move(lines.back());
  lines.pop_back();
  auto builder = begin<Figure>(lines, total, earlier, &Release::term, groups, bySchool, rows);
  for (const auto& one : earlier)
    if (one.of == OfTerm::same) builder.addIndicators(one);
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

StudentSystem studentSystem(const TermTotals& totals, std::span<const Release> earlier) {
  auto counts = begin<StudentFigure>({}, Line<StudentFigure>{"", "", rowOf(totals.students)},
                                     earlier, &Release::students, {}, BySchool::all)
                    .take();
  counts.system.cells.at(counts.grid.front().at(StudentFigure::screened)).outAlready = true;
  return counts;
}

ReferralSystem referralSystem(const std::array<ReferralCounts, 3>& calls,
                              const std::map<Figure, int>& found,
                              std::span<const Release> earlier) {
  auto counts = begin<ReferralFigure>(
                    {{"early", "early", rowOf(calls[0])}, {"urgent", "urgent", rowOf(calls[1])}},
                    {"", "", rowOf(calls[2])}, earlier, &Release::referrals, {}, BySchool::all)
                    .take();
  for (const auto& relation : callRelations()) {
    const auto made = counts.grid.at(relation.urgency).at(ReferralFigure::made);
    const auto children = found.find(relation.found);
    // More calls than children: a reader knows that some were called for twice, and no more.
    if (children == found.end() || children->second < counts.system.cells.at(made).value) continue;
    const auto whole = counts.system.add({.value = children->second,
                                          .row = counts.system.cells.at(made).row,
                                          .printed = false,
                                          .outAlready = true});
    counts.system.addRest(CountKind::count, whole, {made});
  }
  return counts;
}

} // namespace gk::reports
