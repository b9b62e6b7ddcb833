#include "reports/funder/published_grades.h"

#include "reports/funder/funder_figures.h"
#include "reports/publish/publication.h"
#include "reports/records/lookup.h"

namespace gk::reports {

namespace {

/// A grade that is no number comes first.
int numberOf(const std::string& grade) {
  return roster::gradeNumber(grade).value_or(-1);
}

std::map<std::string, int> studentsByGrade(const TermRecords& records) {
  auto ofTerm = records.enrollments;
  std::erase_if(ofTerm, [&](const auto& row) { return row.value.term != records.id; });
  const auto last =
      newestOfEach(ofTerm, [](const auto& one) { return std::pair(one.school, one.grade); });
  std::map<std::string, int> sums;
  for (const auto& [key, row] : last)
    sums[key.second] += row->value.students;
  return sums;
}

GradeBands bandsOf(const Groups& groups) {
  GradeBands bands;
  for (const auto& group : groups)
    if (group.size() > 1) bands.push_back({numberOf(group.front()), numberOf(group.back())});
  return bands;
}

std::optional<GradeBands> bandsIssued(std::span<const Release> earlier) {
  const auto last = std::find_if(earlier.rbegin(), earlier.rend(), [](const Release& one) {
    // A state's groups of grades are no bands.
    return one.of == OfTerm::same && !one.grades.empty() &&
           one.grades.back().cells.contains(Figure::consented);
  });
  if (last == earlier.rend()) return std::nullopt;
  Groups groups;
  for (const auto& row : last->grades)
    groups.push_back(row.schools);
  return bandsOf(groups);
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
                      const Groups& groups) {
  auto counts = gradeCounts(grades, total, earlier, groups, rule.bySchool());
  sort(counts);
  return publication(std::move(counts), rule, earlier, &Release::grades);
}

/// How much a table by grade says, above its total: more numbers above zero, then fewer hidden.
struct Said {
  int numbers = -1;
  int notHidden = 0;
  auto operator<=>(const Said&) const = default;
};

/// Nothing where the total is not whole, or the words say too much.
Said saidBy(const ByGrade& made) {
  if (made.isLeaky()) return {};
  Said said{0, 0};
  for (std::size_t row = 0; row < made.counts.grid.size(); ++row)
    for (const auto& [figure, cell] : made.counts.grid[row]) {
      const bool isTotal = made.counts.schools[row].empty();
      const bool isShown = made.shown.cells[cell] == Showing::number;
      if (isTotal && !isShown) return {};
      // Enrollment is shown whatever the bands: it is no reason for fine ones.
      if (isTotal || figure == Figure::enrolled) continue;
      if (!isShown) {
        --said.numbers; // a wider band is better than a blank
        --said.notHidden;
      } else if (made.counts.system.cells[cell].value > 0)
        ++said.numbers;
    }
  return said;
}

} // namespace

Groups gradeGroups(const std::vector<Participation>& grades, const GradeBands& bands) {
  Groups groups;
  const GradeBand* open = nullptr;
  for (const auto& one : grades) {
    const int grade = numberOf(one.school);
    const auto band = std::ranges::find_if(
        bands, [&](const auto& of) { return of.first <= grade && grade <= of.last; });
    const auto* at = band == bands.end() ? nullptr : &*band;
    if (!at || at != open) groups.emplace_back();
    groups.back().push_back(one.school);
    open = at;
  }
  return groups;
}

std::vector<Participation> participationByGrade(const TermView& view, const TermTotals& totals) {
  const Lookup<roster::Child> children(view.records.children);
  std::map<std::string, std::vector<Participation>> shares;
  for (const auto& share : participationByChild(view))
    if (const auto* child = children.find(share.child))
      shares[child->grade].push_back(share.counts);
  const auto students = studentsByGrade(view.records);
  for (const auto& [grade, count] : students)
    shares.try_emplace(grade);
  std::vector<Participation> grades;
  bool allKnown = totals.total.enrolled.has_value();
  for (const auto& [grade, counts] : shares) {
    auto& sum = grades.emplace_back(sumOf(counts));
    sum.school = grade;
    const auto enrolled = students.find(grade);
    const bool isKnown = enrolled != students.end() && enrolled->second >= sum.formsBack &&
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
  const auto saidWith = [&](const Groups& groups) {
    return saidBy(publishGrades(grades, total, rule, earlier, groups));
  };
  auto groups = gradeGroups(grades, {});
  auto best = groups;
  auto most = saidWith(groups);
  while (groups.size() > 2) {
    Groups next;
    std::optional<Said> mostNext;
    for (std::size_t i = 0; i + 1 < groups.size(); ++i) {
      auto merged = groups;
      merged[i].insert(merged[i].end(), groups[i + 1].begin(), groups[i + 1].end());
      merged.erase(merged.begin() + static_cast<std::ptrdiff_t>(i) + 1);
      const auto said = saidWith(merged);
      if (mostNext && said <= *mostNext) continue;
      mostNext = said;
      next = std::move(merged);
    }
    groups = std::move(next);
    if (*mostNext <= most) continue;
    most = *mostNext;
    best = groups;
  }
  return bandsOf(best);
}

namespace {

/// Columns in which nothing is known.
void leaveOut(Table& table, std::initializer_list<std::string_view> keys) {
  for (const auto key : keys) {
    const auto at = static_cast<std::ptrdiff_t>(columnOf(table, key));
    table.columns.erase(table.columns.begin() + at);
    for (auto& row : table.rows)
      row.erase(row.begin() + at);
  }
}

} // namespace

void addGrades(Published& published, const std::vector<Participation>& grades,
               const TermTotals& totals, const SuppressionRule& rule,
               std::span<const Release> earlier, const std::optional<GradeBands>& bands) {
  if (grades.empty() || hidesIn(published.tables.front().rows.back())) return;
  auto total = totals.total;
  if (!grades.front().enrolled) total.enrolled.reset();
  auto wanted = bands ? bands : bandsIssued(earlier);
  if (!wanted) wanted = bandsToShow(grades, total, rule, earlier);
  const auto made = publishGrades(grades, total, rule, earlier, gradeGroups(grades, *wanted));
  const bool hasBands =
      std::ranges::any_of(made.counts.schools, [](const auto& row) { return row.size() > 1; });
  auto table = participationTable(
      "Participation by grade", "Grade",
      std::string("Grade as it is now, the student's own and not the room's.") +
          (hasBands ? " Adjacent grades share a row so that fewer counts are suppressed." : "") +
          (total.enrolled ? "" : " Enrollment by grade is not known."),
      made);
  if (hidesIn(table.rows.back()) || made.isLeaky()) return;
  if (!total.enrolled) leaveOut(table, {"enrolled", "consented_share"});
  published.byGrade = std::move(table);
  published.release.grades = made.released();
  published.counts += made.size();
  published.hidden += made.hidden();
}

} // namespace gk::reports
