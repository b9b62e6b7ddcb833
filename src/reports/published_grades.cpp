#include "reports/published_grades.h"

#include "reports/funder_figures.h"
#include "reports/lookup.h"
#include "reports/publication.h"

namespace gk::reports {

namespace {

/// A grade that is no number comes first.
int numberOf(const std::string& grade) {
  return roster::gradeNumber(grade).value_or(-1);
}

std::map<std::string, int> pupilsByGrade(const TermRecords& records) {
  std::map<std::pair<roster::SchoolId, std::string>, const base::Recorded<roster::Enrolment>*> last;
  for (const auto& row : records.enrolments) {
    if (row.value.term != records.id) continue;
    auto& kept = last[{row.value.school, row.value.grade}];
    if (!kept || kept->stamp.entry < row.stamp.entry) kept = &row;
  }
  std::map<std::string, int> sums;
  for (const auto& [key, row] : last)
    sums[key.second] += row->value.pupils;
  return sums;
}

/// Neighbours among the grades of the term, by place.
using Runs = std::vector<std::vector<std::string>>;

Runs runsOf(const std::vector<Participation>& grades, const GradeBands& bands) {
  Runs runs;
  const GradeBand* open = nullptr;
  for (const auto& one : grades) {
    const int grade = numberOf(one.school);
    const auto band = std::ranges::find_if(
        bands, [&](const auto& of) { return of.first <= grade && grade <= of.last; });
    const auto* at = band == bands.end() ? nullptr : &*band;
    if (!at || at != open) runs.emplace_back();
    runs.back().push_back(one.school);
    open = at;
  }
  return runs;
}

GradeBands bandsOf(const Runs& runs) {
  GradeBands bands;
  for (const auto& run : runs)
    if (run.size() > 1) bands.push_back({numberOf(run.front()), numberOf(run.back())});
  return bands;
}

std::optional<GradeBands> bandsIssued(std::span<const Release> earlier) {
  const auto last = std::find_if(earlier.rbegin(), earlier.rend(),
                                 [](const Release& one) { return !one.grades.empty(); });
  if (last == earlier.rend()) return std::nullopt;
  Runs runs;
  for (const auto& row : last->grades)
    runs.push_back(row.schools);
  return bandsOf(runs);
}

/// Bands stand where their first grade would.
void sort(TermCounts& counts) {
  std::vector<std::size_t> order(counts.names.size());
  for (std::size_t i = 0; i < order.size(); ++i)
    order[i] = i;
  std::ranges::stable_sort(order, {}, [&](std::size_t row) {
    return std::pair(counts.schools[row].empty(),
                     counts.schools[row].empty() ? 0 : numberOf(counts.schools[row].front()));
  });
  auto sorted = counts;
  for (std::size_t i = 0; i < order.size(); ++i) {
    const auto& grades = counts.schools[order[i]];
    sorted.schools[i] = grades;
    sorted.grid[i] = counts.grid[order[i]];
    sorted.names[i] = grades.empty()       ? "Total"
                      : grades.size() == 1 ? "Grade " + grades.front()
                                           : "Grades " + grades.front() + "-" + grades.back();
  }
  counts = std::move(sorted);
}

using ByGrade = Publication<Figure>;

ByGrade publishGrades(const std::vector<Participation>& grades, const Participation& total,
                      const SuppressionRule& rule, std::span<const Release> earlier,
                      const Runs& runs) {
  auto counts = gradeCounts(grades, total, earlier, runs);
  sort(counts);
  return publication(std::move(counts), rule, earlier, &Release::grades);
}

/// Of the rows but the total; none where the total is not whole.
int countsShown(const ByGrade& made) {
  int shown = 0;
  for (std::size_t row = 0; row < made.counts.grid.size(); ++row)
    for (const auto& [figure, cell] : made.counts.grid[row]) {
      const bool isTotal = made.counts.schools[row].empty();
      const bool isShown = made.shown.cells[cell] == Showing::number;
      if (isTotal && !isShown) return 0;
      if (!isTotal && isShown) ++shown;
    }
  return shown;
}

} // namespace

std::vector<Participation> participationByGrade(const TermRecords& records,
                                                const TermTotals& totals) {
  const Lookup<roster::Child> children(records.children);
  std::map<std::string, std::vector<Participation>> shares;
  for (const auto& share : participationByChild(records))
    if (const auto* child = children.find(share.child))
      shares[child->grade].push_back(share.counts);
  const auto pupils = pupilsByGrade(records);
  for (const auto& [grade, count] : pupils)
    shares.try_emplace(grade);
  std::vector<Participation> grades;
  bool allKnown = totals.total.enrolled.has_value();
  for (const auto& [grade, counts] : shares) {
    auto& sum = grades.emplace_back(sumOf(counts));
    sum.school = grade;
    const auto enrolled = pupils.find(grade);
    const bool isKnown = enrolled != pupils.end() && enrolled->second >= sum.formsBack &&
                         enrolled->second >= sum.consented;
    if (isKnown)
      sum.enrolled = enrolled->second;
    else
      allKnown = false;
  }
  if (!allKnown)
    for (auto& one : grades)
      one.enrolled.reset();
  std::ranges::stable_sort(grades, {}, [](const auto& one) { return numberOf(one.school); });
  return grades;
}

GradeBands bandsToShow(const std::vector<Participation>& grades, const Participation& total,
                       const SuppressionRule& rule, std::span<const Release> earlier) {
  const auto shownBy = [&](const Runs& runs) {
    return countsShown(publishGrades(grades, total, rule, earlier, runs));
  };
  auto runs = runsOf(grades, {});
  auto best = runs;
  int most = shownBy(runs);
  while (runs.size() > 2) {
    Runs next;
    int mostNext = -1;
    for (std::size_t i = 0; i + 1 < runs.size(); ++i) {
      auto merged = runs;
      merged[i].insert(merged[i].end(), runs[i + 1].begin(), runs[i + 1].end());
      merged.erase(merged.begin() + static_cast<std::ptrdiff_t>(i) + 1);
      const int shown = shownBy(merged);
      if (shown <= mostNext) continue;
      mostNext = shown;
      next = std::move(merged);
    }
    runs = std::move(next);
    if (mostNext <= most) continue;
    most = mostNext;
    best = runs;
  }
  return bandsOf(best);
}

void addGrades(Published& published, const TermRecords& records, const TermTotals& totals,
               const SuppressionRule& rule, std::span<const Release> earlier,
               const std::optional<GradeBands>& bands) {
  if (hidesIn(published.tables.front().rows.back())) return;
  const auto grades = participationByGrade(records, totals);
  auto total = totals.total;
  if (grades.empty() || !grades.front().enrolled) total.enrolled.reset();
  auto wanted = bands ? bands : bandsIssued(earlier);
  if (!wanted) wanted = bandsToShow(grades, total, rule, earlier);
  const auto made = publishGrades(grades, total, rule, earlier, runsOf(grades, *wanted));
  auto table = participationTable("Participation by grade", "Grade",
                                  "Grade as it is now, the child's own and not the room's. "
                                  "Neighbouring grades are one row where that shows more.",
                                  made);
  if (hidesIn(table.rows.back())) return;
  published.byGrade = std::move(table);
  published.release.grades = made.released();
  published.counts += made.size();
  published.hidden += made.hidden();
  published.exposed += static_cast<int>(made.shown.exposed.size());
}

} // namespace gk::reports
