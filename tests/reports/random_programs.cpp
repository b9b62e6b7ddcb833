#include "reports/random_programs.h"

#include "base/text.h"
#include "reports/published_grades.h"
#include "reports/render.h"

#include <algorithm>
#include <fstream>

namespace gk::test {

namespace {

using namespace reports;

using Names = std::vector<std::string>;

constexpr int terms = 3;

/// What became of one child of one school in one term.
struct Drawn {
  std::size_t school = 0;
  int grade = 0;
  bool early = false; ///< seen before the first issue of the term
  bool form = false;
  bool yes = false;
  bool seen = false;
  bool needs = false;
  bool sealed = false;
  bool varnish = false;
  int first = 0;
  int second = 0;
  int other = 0;
  int urgency = 0; ///< 1 early care, 2 urgent
};

class Program {
 public:
  explicit Program(base::Random& random)
      : random_(random), schools_(3 + below(5)), lowestGrade_(below(2)),
        grades_(3 + below(4)), hasSeconds_(below(3) == 0), cohortIsWhole_(below(4) > 0) {
    for (std::size_t i = 0; i < schools_; ++i)
      sizes_.push_back(40 + static_cast<int>(below(below(3) == 0 ? 40 : 130)));
  }

  std::vector<Drawn> drawTerm() {
    std::vector<Drawn> children;
    const double forms = .45 + .4 * random_.uniform();
    const double decay = .1 + .25 * random_.uniform();
    for (std::size_t school = 0; school < schools_; ++school) {
      const double missed = .2 * random_.uniform();
      const double unsealed = .3 * random_.uniform();
      for (int i = 0; i < sizes_[school]; ++i)
        children.push_back(drawChild(school, forms, decay, missed, unsealed));
    }
    return children;
  }

  [[nodiscard]] Participation count(const std::vector<Drawn>& children, bool firstIssue,
                                    std::optional<std::size_t> school,
                                    std::optional<int> grade) const {
    Participation at;
    at.enrolled = 0;
    for (const auto& one : children) {
      if ((school && one.school != *school) || (grade && one.grade != *grade)) continue;
      *at.enrolled += 1;
      const bool counts = !firstIssue || one.early;
      at.formsBack += one.form ? 1 : 0;
      at.consented += one.yes ? 1 : 0;
      if (!counts || !one.seen) continue;
      at.screened += 1;
      at.needing += one.needs ? 1 : 0;
      at.sealed += one.sealed ? 1 : 0;
      at.varnish += one.varnish ? 1 : 0;
      at.firstMolars += one.first;
      at.secondMolars += one.second;
      at.otherTeeth += one.other;
      at.early += one.urgency == 1 ? 1 : 0;
      at.urgent += one.urgency == 2 ? 1 : 0;
      at.untreated = at.early + at.urgent;
    }
    return at;
  }

  /// The checks of those sealed in `before`.
  RetentionLine check(const std::vector<Drawn>& before, std::size_t school) {
    RetentionLine at;
    const double found = .5 + .45 * random_.uniform();
    for (const auto& one : before) {
      if (one.school != school || !one.sealed) continue;
      if (!cohortIsWhole_ && below(12) == 0) continue;
      const int teeth = one.first + one.second + one.other;
      at.childrenDue += 1;
      at.due += teeth;
      if (random_.uniform() > found) continue;
      at.childrenFound += 1;
      for (int i = 0; i < teeth; ++i)
        look(at);
    }
    at.assessable = at.whole + at.part + at.lost;
    at.examined = at.assessable + at.cannotAssess;
    return at;
  }

  [[nodiscard]] std::size_t schools() const { return schools_; }
  [[nodiscard]] int lowestGrade() const { return lowestGrade_; }
  [[nodiscard]] int highestGrade() const { return lowestGrade_ + grades_ - 1; }
  std::size_t below(std::size_t bound) { return static_cast<std::size_t>(random_.below(bound)); }

 private:
  Drawn drawChild(std::size_t school, double forms, double decay, double missed, double unsealed) {
    const auto chance = [&](double share) { return random_.uniform() < share; };
    Drawn one;
    one.school = school;
    one.grade = lowestGrade_ + static_cast<int>(below(static_cast<std::size_t>(grades_)));
    one.early = chance(.6);
    one.form = chance(forms);
    one.yes = one.form && chance(.9);
    one.seen = one.yes && !chance(missed);
    if (!one.seen) return one;
    one.needs = chance(.75);
    one.varnish = chance(.8);
    one.urgency = chance(decay) ? (chance(.15) ? 2 : 1) : 0;
    one.sealed = one.needs && !chance(unsealed);
    if (!one.sealed) return one;
    one.first = 1 + static_cast<int>(below(2) + below(2) + below(2));
    one.second = hasSeconds_ && chance(.3) ? 1 + static_cast<int>(below(4)) : 0;
    one.other = chance(.02) ? 1 : 0;
    return one;
  }

  void look(RetentionLine& at) {
    const auto what = below(100);
    if (what < 84) at.whole += 1;
    else if (what < 90) at.part += 1;
    else if (what < 97) at.lost += 1;
    else at.cannotAssess += 1;
  }

  base::Random& random_;
  std::size_t schools_;
  int lowestGrade_;
  int grades_;
  bool hasSeconds_;
  bool cohortIsWhole_;
  std::vector<int> sizes_;
};

std::string schoolName(std::size_t school) {
  return "School " + std::string(1, static_cast<char>('A' + school));
}

TermTotals totalsOf(const Program& program, const std::vector<Drawn>& children, bool firstIssue,
                    const std::vector<RetentionLine>& checks) {
  const auto day = *base::Date::parse("2026-11-17");
  TermTotals totals{"Autumn", day, day, day, {}, {}, true, {}, {}, {}, {}, {}, {}};
  for (std::size_t school = 0; school < program.schools(); ++school) {
    totals.schools.push_back(program.count(children, firstIssue, school, std::nullopt));
    totals.schools.back().school = schoolName(school);
  }
  totals.total = sumOf(totals.schools);
  auto& all = totals.retention.total;
  all.label = "Total";
  totals.retention.schools = checks;
  for (const auto& one : checks) {
    all.childrenDue += one.childrenDue;
    all.childrenFound += one.childrenFound;
    all.due += one.due;
    all.examined += one.examined;
    all.assessable += one.assessable;
    all.whole += one.whole;
    all.part += one.part;
    all.lost += one.lost;
    all.cannotAssess += one.cannotAssess;
  }
  return totals;
}

void writeTruth(std::ofstream& out, const std::string& page, const Published& made) {
  const auto rows = [&](const auto& released, const auto& nameOfRow) {
    for (const auto& row : released)
      for (const auto& [figure, cell] : row.cells)
        out << page << ',' << (row.schools.empty() ? "Total" : nameOfRow(row.schools)) << ','
            << base::nameOf(figure) << ',' << cell.value << '\n';
  };
  const auto ofSchools = [](const Names& names) { return base::join(names, " + "); };
  rows(made.release.term, ofSchools);
  rows(made.release.checks, ofSchools);
  rows(made.release.grades, [](const Names& names) {
    return names.size() == 1 ? "Grade " + names.front()
                             : "Grades " + names.front() + "-" + names.back();
  });
}

std::vector<Release> seenFrom(std::vector<std::pair<int, Release>> all, int term) {
  std::vector<Release> out;
  for (auto& [of, release] : all) {
    release.of = of == term       ? OfTerm::same
                 : of == term - 1 ? OfTerm::sealedBefore
                                  : OfTerm::other;
    out.push_back(release);
  }
  return out;
}

/// The newest of another term is what it put out.
std::vector<std::pair<int, Release>> newestOfOthers(const std::vector<std::pair<int, Release>>& all,
                                                    int term) {
  std::vector<std::pair<int, Release>> out;
  for (std::size_t i = 0; i < all.size(); ++i)
    if (all[i].first == term || i + 1 == all.size() || all[i + 1].first != all[i].first)
      out.push_back(all[i]);
  return out;
}

void writeProgram(const std::filesystem::path& folder, base::Random& random, Pages& pages) {
  std::filesystem::create_directories(folder);
  Program program(random);
  std::ofstream truth(folder / "truth.csv");
  const auto bySchool = program.below(4) == 0 ? BySchool::services : BySchool::all;
  if (bySchool == BySchool::services) std::ofstream(folder / "openly");
  const auto rule = *SuppressionRule::under(10, bySchool);
  std::vector<std::pair<int, Release>> out;
  std::vector<Drawn> before;
  for (int term = 0; term < terms; ++term) {
    const auto children = program.drawTerm();
    std::vector<RetentionLine> checks;
    for (std::size_t school = 0; term > 0 && school < program.schools(); ++school) {
      checks.push_back(program.check(before, school));
      checks.back().label = schoolName(school);
    }
    const int issues = program.below(3) == 0 ? 2 : 1;
    for (int issue = 0; issue < issues; ++issue) {
      const bool isFirst = issue + 1 < issues;
      const auto totals = totalsOf(program, children, isFirst, checks);
      const auto earlier = seenFrom(newestOfOthers(out, term), term);
      auto made = publish(totals, rule, earlier);
      std::vector<Participation> grades;
      for (int grade = program.lowestGrade(); grade <= program.highestGrade(); ++grade) {
        grades.push_back(program.count(children, isFirst, std::nullopt, grade));
        grades.back().school = grade == 0 ? "K" : std::to_string(grade);
      }
      addGrades(made, grades, totals, rule, earlier);
      const auto page = std::to_string(term) + "-" + std::to_string(issue);
      std::filesystem::create_directories(folder / page);
      auto tables = made.tables;
      if (made.byGrade) tables.push_back(*made.byGrade);
      for (const auto& [name, text] : toCsvFiles(tables))
        std::ofstream(folder / page / name) << text;
      writeTruth(truth, page, made);
      pages.cells += made.counts;
      pages.withheld += made.hidden;
      for (const auto& table : made.tables)
        pages.tables += table.rows.size() == 1 ? 1 : 0;
      out.emplace_back(term, std::move(made.release));
    }
    before = children;
  }
}

} // namespace

Pages writeRandomPrograms(const std::filesystem::path& folder, int programs, base::Random& random) {
  Pages pages;
  for (int i = 0; i < programs; ++i)
    writeProgram(folder / std::to_string(i), random, pages);
  return pages;
}

} // namespace gk::test
