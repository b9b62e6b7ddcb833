#include "reports/funder/published_grades.h"

#include "base/random.h"
#include "reports/publish/attack.h"
#include "reports/report.h"
#include "reports/sample.h"
#include "support/long_checks.h"

#include <algorithm>
#include <catch2/catch.hpp>

using namespace gk;
using namespace gk::reports;
using gk::test::attack;

namespace {

/// The same children by school and by grade.
struct TwoWays {
  TermTotals totals;
  std::vector<Participation> grades;
};

/// One grade of one school: of `students`, so many forms, yeses and children seen.
struct Class {
  int students;
  int forms;
  int yeses;
  int seen;
};

void add(Participation& at, const Class& one, bool studentsAreKnown) {
  at.enrolled =
      studentsAreKnown ? std::optional(at.enrolled.value_or(0) + one.students) : std::nullopt;
  at.formsBack += one.forms;
  at.consented += one.yeses;
  at.screened += one.seen;
  at.needing += one.seen / 2;
}

/// `classes` of each school, K first.
TwoWays counted(const std::vector<std::vector<Class>>& classes, bool studentsAreKnown = true) {
  const auto day = test::date("2026-11-17");
  TwoWays out{{"Fall 2026", day, day, day, {}, {}, true, {}, {}, {}, {}, {}, {}}, {}};
  for (std::size_t school = 0; school < classes.size(); ++school) {
    out.totals.schools.emplace_back().school = "School " + std::to_string(school);
    out.grades.resize(std::max(out.grades.size(), classes[school].size()));
    for (std::size_t grade = 0; grade < classes[school].size(); ++grade) {
      add(out.totals.schools.back(), classes[school][grade], studentsAreKnown);
      add(out.grades[grade], classes[school][grade], studentsAreKnown);
    }
  }
  for (std::size_t grade = 0; grade < out.grades.size(); ++grade)
    out.grades[grade].school = grade == 0 ? "K" : std::to_string(grade);
  out.totals.total = sumOf(out.totals.schools);
  out.totals.retention.total.label = "Total";
  return out;
}

Class randomClass(base::Random& random) {
  const auto upTo = [&](int most) {
    return static_cast<int>(random.below(static_cast<std::uint64_t>(most) + 1));
  };
  Class one{8 + upTo(30), 0, 0, 0};
  one.forms = one.students - upTo(one.students / 2);
  one.yeses = one.forms - upTo(one.forms / 2);
  one.seen = one.yeses - std::min(one.yeses, upTo(5));
  return one;
}

using Classes = std::vector<std::vector<Class>>;

Classes randomClasses(base::Random& random) {
  Classes classes(2 + random.below(3));
  const auto grades = 3 + random.below(6);
  for (auto& school : classes)
    for (std::uint64_t grade = 0; grade < grades; ++grade)
      school.push_back(randomClass(random));
  return classes;
}

/// Some children more of a few classes were seen, and some gave their yes.
void goOn(Classes& classes, base::Random& random) {
  for (int i = 0; i < 9; ++i) {
    auto& school = classes[random.below(classes.size())];
    auto& one = school[random.below(school.size())];
    one.yeses = std::min(one.forms, one.yeses + static_cast<int>(random.below(9)));
    one.seen = std::min(one.yeses, one.seen + static_cast<int>(random.below(9)));
  }
}

/// Few children in the lowest and the highest grades, many between.
TwoWays gradedCounty() {
  const Class few{24, 10, 5, 2};
  const Class some{60, 34, 21, 20};
  const Class many{120, 80, 60, 47};
  return counted({{few, few, many, many, some, few, few}, {few, some, many, some, few, few, few}});
}

Published published(const TwoWays& term, const SuppressionRule& rule = {},
                    std::span<const Release> earlier = {},
                    const std::optional<GradeBands>& bands = std::nullopt) {
  auto out = publish(term.totals, rule, earlier);
  addGrades(out, term.grades, term.totals, rule, earlier, bands);
  return out;
}

GradeBands bandsOf(const Published& made) {
  GradeBands bands;
  for (const auto& row : made.release.grades)
    if (row.schools.size() > 1)
      bands.push_back(
          {*roster::gradeNumber(row.schools.front()), *roster::gradeNumber(row.schools.back())});
  return bands;
}

std::vector<std::string> rowNames(const Table& table) {
  std::vector<std::string> names;
  for (const auto& row : table.rows)
    names.push_back(row.front().text());
  return names;
}

/// How each count stood in what went out.
Suppressed shownIn(const std::vector<ReleasedRow<Figure>>& rows, const TermCounts& counts) {
  Suppressed shown{std::vector(counts.system.cells.size(), Showing::withheld), {}};
  for (std::size_t i = 0; i < counts.grid.size(); ++i) {
    const auto row = std::ranges::find(rows, counts.schools[i], &ReleasedRow<Figure>::schools);
    REQUIRE(row != rows.end());
    for (const auto& [figure, cell] : counts.grid[i])
      shown.cells[cell] = row->cells.at(figure).showing;
  }
  return shown;
}

/// What a reader of both tables has in hand: their totals are one.
std::vector<std::string> attackBoth(const TwoWays& term, const Published& made,
                                    const SuppressionRule& rule = {},
                                    std::span<const Release> earlier = {}) {
  const auto schools = termCounts(term.totals, earlier);
  auto total = term.totals.total;
  if (!term.grades.front().enrolled) total.enrolled.reset();
  const auto grades =
      gradeCounts(term.grades, total, earlier, gradeGroups(term.grades, bandsOf(made)));
  auto system = schools.system;
  auto shown = shownIn(made.release.term, schools);
  const auto shownGrades = shownIn(made.release.grades, grades);
  const auto cells = system.cells.size();
  constexpr std::size_t rowsApart = 1000;
  for (auto cell : grades.system.cells) {
    cell.row += rowsApart;
    system.cells.push_back(cell);
  }
  shown.cells.insert(shown.cells.end(), shownGrades.cells.begin(), shownGrades.cells.end());
  for (auto sum : grades.system.sums) {
    sum.whole += cells;
    for (auto& part : sum.parts)
      part += cells;
    system.sums.push_back(std::move(sum));
  }
  for (const auto& [figure, cell] : grades.grid.back())
    system.sums.push_back({schools.grid.back().at(figure), {cells + cell}});
  return attack(system, shown, rule);
}

} // namespace

TEST_CASE("Neighboring grades are one row where that hides less, in the order of grades",
          "[case-83]") {
  const auto term = gradedCounty();
  const auto each = published(term, {}, {}, GradeBands{});
  REQUIRE(each.byGrade);
  CHECK(rowNames(*each.byGrade) == std::vector<std::string>{"Grade K", "Grade 1", "Grade 2",
                                                            "Grade 3", "Grade 4", "Grade 5",
                                                            "Grade 6", "Total"});
  const auto merged = published(term);
  REQUIRE(merged.byGrade);
  const auto names = rowNames(*merged.byGrade);
  INFO(Catch::StringMaker<std::vector<std::string>>::convert(names));
  CHECK(names.size() > 3);
  CHECK(names.size() < 8);
  CHECK(merged.hidden * each.counts < each.hidden * merged.counts); // a smaller share
  CHECK(merged.hidden < each.hidden);
  CHECK(merged.byGrade->rows.back() == each.byGrade->rows.back()); // the total is the total
}

TEST_CASE("Grades are shown as one row as they are named, the others by themselves", "[case-83]") {
  const auto made = published(gradedCounty(), {}, {}, GradeBands{{0, 1}, {4, 8}});
  REQUIRE(made.byGrade);
  CHECK(rowNames(*made.byGrade) ==
        std::vector<std::string>{"Grades K-1", "Grade 2", "Grade 3", "Grades 4-6", "Total"});
  CHECK(made.byGrade->rows[0][1] == "132"); // students: 24, 24, 24 and 60
}

TEST_CASE("Bands are the same again in the next table of the term, and a new grade joins its band",
          "[case-72]") {
  const std::vector<Release> earlier{
      published(gradedCounty(), {}, {}, GradeBands{{0, 1}, {4, 6}}).release};
  CHECK(bandsOf(published(gradedCounty(), {}, earlier)) == GradeBands{{0, 1}, {4, 6}});
  CHECK(published(gradedCounty(), {}, earlier).byGrade ==
        published(gradedCounty(), {}, {}, GradeBands{{0, 1}, {4, 6}}).byGrade);
  auto now = gradedCounty();
  std::erase_if(now.grades, [](const auto& one) { return one.school == "5"; });
  CHECK(gradeGroups(now.grades, {{0, 1}, {4, 6}}) == Groups{{"K", "1"}, {"2"}, {"3"}, {"4", "6"}});
}

TEST_CASE("No enrollment is shown by grade where that of one grade of one school is unknown",
          "[case-83]") {
  auto term = gradedCounty();
  for (auto& one : term.grades)
    one.enrolled.reset();
  const auto made = published(term);
  REQUIRE(made.byGrade);
  for (const auto& column : made.byGrade->columns)
    CHECK(column.heading.find("nrolled") == std::string::npos); // nor what is a share of it
  for (const auto& row : made.byGrade->rows)
    CHECK(row.size() == made.byGrade->columns.size());
}

TEST_CASE("No attack on a table by grade beside one by school works out a small count",
          "[case-83]") {
  base::SeededRandom random(test::seedOr(7));
  int both = 0;
  int merged = 0;
  for (int i = 0; i < 40; ++i) {
    const bool know = random.below(4) > 0;
    const auto term = i == 0 ? gradedCounty() : counted(randomClasses(random), know);
    const auto rule = *SuppressionRule::under(i % 2 == 0 ? 10 : 5);
    const auto made = published(term, rule);
    if (!made.byGrade) continue; // a total is hidden
    ++both;
    merged += bandsOf(made).empty() ? 0 : 1;
    INFO("term " << i << ", " << bandsOf(made).size() << " bands");
    CHECK(made.exposed == 0);
    REQUIRE(attackBoth(term, made, rule) == std::vector<std::string>{});
  }
  CHECK(both > 20);
  CHECK(merged > 10);
}

TEST_CASE("A table by grade that follows another does not give away what changed between them",
          "[case-83]") {
  const auto before = gradedCounty();
  auto after = before;
  // Three more in grade 3 and nine more in grade 2: the total grew by twelve.
  for (const auto& [grade, more] : {std::pair{2, 9}, std::pair{3, 3}}) {
    for (auto* at : {&after.grades[static_cast<std::size_t>(grade)], &after.totals.schools[0]}) {
      at->formsBack += more;
      at->consented += more;
      at->screened += more;
    }
  }
  after.totals.total = sumOf(after.totals.schools);
  const std::vector<Release> earlier{published(before).release};
  REQUIRE_FALSE(earlier.front().grades.empty());
  const auto made = published(after, {}, earlier);
  REQUIRE(made.byGrade);
  CHECK(made.exposed == 0);
  CHECK(attackBoth(after, made, {}, earlier) == std::vector<std::string>{});
  const auto three = std::ranges::find(made.byGrade->rows, "Grade 3",
                                       [](const auto& row) { return row.front().text(); });
  if (three != made.byGrade->rows.end()) CHECK_FALSE((*three)[5] == "90");
  // Bands of another choice: each grade of the earlier table is still checked against.
  const auto others = published(after, {}, earlier, GradeBands{{0, 2}, {3, 6}});
  if (others.byGrade) CHECK(attackBoth(after, others, {}, earlier) == std::vector<std::string>{});
}

TEST_CASE(
    "No attack on tables by school and grade that followed each other works out a small count",
    "[case-83]") {
  base::SeededRandom random(test::seedOr(11));
  int followed = 0;
  for (int i = 0; i < test::rounds(25, 100); ++i) {
    auto classes = randomClasses(random);
    std::vector<Release> earlier;
    for (int issue = 0; issue < 3; ++issue) {
      const auto term = counted(classes);
      const auto made = published(term, {}, earlier);
      INFO("term " << i << ", issue " << issue);
      CHECK(made.exposed == 0);
      if (made.byGrade) {
        followed += issue > 0 && !earlier.front().grades.empty() ? 1 : 0;
        REQUIRE(attackBoth(term, made, {}, earlier) == std::vector<std::string>{});
      }
      earlier.push_back(made.release);
      goOn(classes, random);
    }
  }
  CHECK(followed > test::rounds(6, 6) - 1);
}

TEST_CASE("Counts shown again as before are marked again where what is out gives one away",
          "[case-72][case-83]") {
  const Class few{24, 9, 6, 4};
  const Class many{120, 80, 60, 47};
  const auto term = counted({{few, few}, {many, many}, {many, many}});
  auto careless = published(term).release;
  for (auto& row : careless.term)
    for (auto& [figure, cell] : row.cells)
      cell.showing = Showing::number;
  for (const int times : {1, 2}) {
    const std::vector<Release> earlier(static_cast<std::size_t>(times), careless);
    const auto again = publish(term.totals, {}, earlier);
    CHECK(again.release.term == careless.term); // the same choice of what to hide
    CHECK(again.exposed > 0);
    CHECK(again.tables.front().notes.back().starts_with("NOT TO BE PUBLISHED"));
    // What is out stays out: neither a group of schools nor a higher threshold repairs it.
    CHECK(publish(term.totals, {}, earlier, {{"School 0", "School 1"}}).exposed > 0);
    CHECK(publish(term.totals, *SuppressionRule::under(20), earlier).exposed > 0);
  }
  const std::vector<Release> careful{published(term).release};
  CHECK(published(term, {}, careful).exposed == 0);
}
