#include "reports/term/students.h"

#include "base/random.h"
#include "reports/publish/attack.h"
#include "reports/publish/published.h"
#include "reports/publish/release_lines.h"
#include "reports/sample.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <numeric>

using namespace gk;
using namespace gk::reports;
using gk::test::attack;
using gk::test::SampleTerm;
using roster::Ethnicity;
using roster::Payer;

namespace {

int of(const StudentCounts& counts, StudentFigure figure) {
  return counts.at(static_cast<std::size_t>(figure));
}

/// One school of so many screened children, with these counts of them.
TermTotals studentTotals(const StudentCounts& students) {
  const auto day = test::date("2026-11-17");
  Participation at;
  at.school = "Cobble Lantern";
  at.screened = of(students, StudentFigure::screened);
  at.consented = at.screened;
  at.formsBack = at.screened + 20;
  TermTotals totals{"Fall 2026", day, day, day, {}, {},       true, {at},
                    {},          {},  {},  {},  {}, students, {}};
  totals.total = sumOf(totals.schools);
  totals.retention.total.label = "Total";
  return totals;
}

/// So many children, each answer to each question drawn again; some questions are seldom answered.
StudentCounts randomStudents(base::Random& random, int screened) {
  StudentCounts counts{};
  counts[0] = screened;
  for (const auto& question : studentQuestions()) {
    std::vector<std::uint64_t> weights;
    for (std::size_t i = 0; i < question.figures.size(); ++i)
      weights.push_back(random.below(3) == 0 ? random.below(3) : 1 + random.below(60));
    weights.back() += 1;
    const auto sum = std::accumulate(weights.begin(), weights.end(), std::uint64_t{0});
    for (int child = 0; child < screened; ++child) {
      auto at = random.below(sum);
      std::size_t answer = 0;
      while (at >= weights[answer])
        at -= weights[answer++];
      ++counts.at(static_cast<std::size_t>(question.figures[answer]));
    }
  }
  return counts;
}

/// As `counts`, and so many more of one kind.
StudentCounts with(StudentCounts counts, int more, StudentFigure sex, StudentFigure payer,
                   StudentFigure group) {
  for (const auto figure : {StudentFigure::screened, sex, payer, group})
    counts.at(static_cast<std::size_t>(figure)) += more;
  return counts;
}

const Table& about(const Published& published, const std::string& question) {
  for (const auto& table : published.students)
    if (table.columns.front().heading == question) return table;
  FAIL("no table about " << question);
  return published.students.front();
}

StudentCounts plain() {
  StudentCounts counts{};
  return with(with(with(counts, 120, StudentFigure::female, StudentFigure::medicaid,
                        StudentFigure::hispanic),
                   140, StudentFigure::male, StudentFigure::chip, StudentFigure::white),
              40, StudentFigure::male, StudentFigure::payerUnknown, StudentFigure::severalGroups);
}

} // namespace

TEST_CASE("A child is counted once for each question, and of several groups in a row alone") {
  SampleTerm term;
  const auto school = term.school("Cobble Lantern");
  const auto day = term.day(school, "2026-10-06");
  std::vector<roster::ChildId> children;
  for (int i = 0; i < 3; ++i) {
    children.push_back(term.child(school));
    term.screen(children.back(), day);
  }
  term.child(school); // not screened
  term.records.backgrounds = {
      term.make.row<roster::Background>({children[0], {Ethnicity::asian}, Payer::none}),
      term.make.row<roster::Background>(
          {children[1], {Ethnicity::asian, Ethnicity::white}, Payer::medicaid})};
  const auto counts = studentCounts(term.records);
  CHECK(of(counts, StudentFigure::screened) == 3);
  CHECK(of(counts, StudentFigure::asian) == 1);
  CHECK(of(counts, StudentFigure::white) == 0);
  CHECK(of(counts, StudentFigure::severalGroups) == 1);
  CHECK(of(counts, StudentFigure::groupsNotStated) == 1);
  CHECK(of(counts, StudentFigure::noInsurance) == 1);
  CHECK(of(counts, StudentFigure::medicaid) == 1);
  CHECK(of(counts, StudentFigure::payerUnknown) == 1);
}

TEST_CASE("Who the children are is published by question, the small groups hidden", "[case-83]") {
  const auto counts = with(plain(), 4, StudentFigure::female, StudentFigure::noInsurance,
                           StudentFigure::middleEastern);
  const auto published = publish(studentTotals(counts));
  const auto& groups = about(published, "Race and ethnicity");
  const auto shown = [&](const std::string& row) {
    const auto at =
        std::ranges::find_if(groups.rows, [&](const auto& one) { return one.front() == row; });
    REQUIRE(at != groups.rows.end());
    return at->at(1);
  };
  CHECK(shown("Middle Eastern or North African alone") == "fewer than 10");
  CHECK(shown("Total") == "304");
  // With every other group shown, the total would tell.
  CHECK(std::ranges::count_if(groups.rows, [](const auto& row) { return row[1] == "suppressed"; }) >
        0);
  CHECK(groups.notes.front().find("Directive No. 15") != std::string::npos);
}

TEST_CASE("A question that no one answered has no table") {
  StudentCounts counts{};
  counts = with(counts, 60, StudentFigure::female, StudentFigure::payerUnknown,
                StudentFigure::groupsNotStated);
  counts = with(counts, 50, StudentFigure::male, StudentFigure::payerUnknown,
                StudentFigure::groupsNotStated);
  const auto published = publish(studentTotals(counts));
  REQUIRE(published.students.size() == 1);
  CHECK(published.students[0].columns.front().heading == "Sex");
}

TEST_CASE("No attack on who the children are works out a small count", "[case-83]") {
  base::SeededRandom random(715);
  int leftOut = 0;
  for (int i = 0; i < 400; ++i) {
    const auto counts = randomStudents(random, 10 + static_cast<int>(random.below(200)));
    const auto rule = *SuppressionRule::under(i % 2 == 0 ? 10 : 5);
    const auto system = studentSystem(studentTotals(counts)).system;
    const auto shown = suppress(system, rule);
    INFO("pupils " << i);
    if (!shown.exposed.empty() || !shown.narrowed.empty()) { // then they are left out
      ++leftOut;
      continue;
    }
    REQUIRE(attack(system, shown, rule) == std::vector<std::string>{});
  }
  CHECK(leftOut < 20); // so few children that any table tells
}

TEST_CASE("Who so few children are is left out", "[case-83]") {
  StudentCounts counts{};
  counts = with(counts, 1, StudentFigure::female, StudentFigure::medicaid, StudentFigure::white);
  counts = with(counts, 1, StudentFigure::male, StudentFigure::medicaid, StudentFigure::white);
  counts = with(counts, 10, StudentFigure::otherSex, StudentFigure::medicaid, StudentFigure::white);
  counts =
      with(counts, 10, StudentFigure::sexNotStated, StudentFigure::medicaid, StudentFigure::white);
  auto totals = studentTotals(counts);
  totals.schools.front().formsBack = 50;
  const auto published = publish(totals);
  CHECK(published.students.empty());
  CHECK(published.release.students.empty());
}

TEST_CASE("Who the children are, told twice, does not give away who came between", "[case-83]") {
  const auto before = plain();
  const auto after =
      with(before, 2, StudentFigure::female, StudentFigure::medicaid, StudentFigure::hispanic);
  const auto first = publish(studentTotals(before));
  REQUIRE_FALSE(first.release.students.empty());
  const std::vector<Release> earlier{first.release};
  const auto second = publish(studentTotals(after), {}, earlier);
  // Two more children in all: how many there are is withheld, and with it who they are.
  CHECK(second.students.empty());
  CHECK(second.release.students.empty());
  const auto many =
      with(before, 12, StudentFigure::female, StudentFigure::medicaid, StudentFigure::hispanic);
  const auto changed =
      with(many, 11, StudentFigure::male, StudentFigure::noInsurance, StudentFigure::asian);
  const auto system = studentSystem(studentTotals(changed), earlier).system;
  const auto shown = suppress(system, {});
  CHECK(attack(system, shown, {}) == std::vector<std::string>{});
}

TEST_CASE("A release keeps who the children were, and is read back the same") {
  const auto release = publish(studentTotals(plain())).release;
  REQUIRE(release.students.size() == 1);
  CHECK(releaseFrom(toLines(release)) == release);
}
