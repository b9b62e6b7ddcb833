#include "reports/publish/random_programs.h"

#include "base/text.h"
#include "reports/funder/funder_report.h"
#include "reports/funder/published_grades.h"
#include "reports/print/render.h"
#include "reports/sample.h"
#include "reports/workbook/workbook.h"

#include <algorithm>
#include <fstream>
#include <map>
#include <ranges>

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
  int urgency = 0;    ///< 1 early care, 2 urgent
  bool toldOf = true; ///< whether there is untreated decay could be told
};

class Program {
 public:
  explicit Program(base::Random& random)
      : random_(random), schools_(3 + below(5)), lowestGrade_(static_cast<int>(below(2))),
        grades_(3 + static_cast<int>(below(4))), hasSeconds_(below(3) == 0),
        eachHasFirst_(below(2) == 0), cohortIsWhole_(below(4) > 0), isSure_(below(3) > 0) {
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
      at.couldNotTell += one.toldOf ? 0 : 1;
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
    one.toldOf = isSure_ || one.urgency > 0 || !chance(.08);
    one.sealed = one.needs && !chance(unsealed);
    if (!one.sealed) return one;
    one.second = hasSeconds_ && chance(.3) ? 1 + static_cast<int>(below(4)) : 0;
    one.first = 1 + static_cast<int>(below(2) + below(2) + below(2));
    if (one.second > 0 && !eachHasFirst_ && chance(.5)) one.first = 0;
    one.other = chance(.02) ? 1 : 0;
    return one;
  }

  void look(RetentionLine& at) {
    const auto what = below(100);
    if (what < 84)
      at.whole += 1;
    else if (what < 90)
      at.part += 1;
    else if (what < 97)
      at.lost += 1;
    else
      at.cannotAssess += 1;
  }

  base::Random& random_;
  std::size_t schools_;
  int lowestGrade_;
  int grades_;
  bool hasSeconds_;
  bool eachHasFirst_;
  bool cohortIsWhole_;
  bool isSure_; ///< decay can be told of every child
  std::vector<int> sizes_;
};

std::string schoolName(std::size_t school) {
  return "School " + std::string(1, static_cast<char>('A' + school));
}

roster::SchoolId schoolId(std::size_t school) {
  base::Uuid uuid;
  uuid.bytes[15] = static_cast<std::uint8_t>(school + 1);
  return roster::SchoolId(uuid);
}

TermTotals totalsOf(const Program& program, const std::vector<Drawn>& children, bool firstIssue,
                    const std::vector<RetentionLine>& checks) {
  const auto day = *base::Date::parse("2026-11-17");
  TermTotals totals{"Autumn", day, day, day, {}, {}, true, {}, {}, {}, {}, {}, {}};
  for (std::size_t school = 0; school < program.schools(); ++school) {
    totals.schools.push_back(program.count(children, firstIssue, school, std::nullopt));
    totals.schools.back().school = schoolName(school);
    totals.schools.back().id = schoolId(school);
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

/// What is behind the pages, by the names that they print, from the children and not from what
/// was made of them.
class Truth {
 public:
  explicit Truth(const std::filesystem::path& folder)
      : truth_(folder / "truth.csv"), public_(folder / "public.csv") {}

  void add(const std::string& page, const std::string& row, const Participation& at) {
    write(public_, page, row, {{"enrolled", at.enrolled.value()}});
    write(truth_, page, row,
          {{"enrolled", at.enrolled.value()},
           {"forms back", at.formsBack},
           {"consented", at.consented},
           {"screened", at.screened},
           {"not screened", at.consented - at.screened},
           {"needing", at.needing},
           {"sealed", at.sealed},
           {"first molars", at.firstMolars},
           {"second molars", at.secondMolars},
           {"other teeth", at.otherTeeth},
           {"teeth", at.firstMolars + at.secondMolars + at.otherTeeth},
           {"varnish", at.varnish},
           {"untreated", at.untreated},
           {"early", at.early},
           {"urgent", at.urgent},
           {"decay known", at.screened - at.couldNotTell}});
  }
  void add(const std::string& page, const std::string& row, const RetentionLine& at) {
    write(truth_, page, row,
          {{"children due", at.childrenDue},
           {"children found", at.childrenFound},
           {"due", at.due},
           {"examined", at.examined},
           {"assessable", at.assessable},
           {"whole", at.whole},
           {"part", at.part},
           {"lost", at.lost},
           {"cannot assess", at.cannotAssess}});
  }

 private:
  static void write(std::ofstream& out, const std::string& page, const std::string& row,
                    const std::vector<std::pair<const char*, int>>& figures) {
    for (const auto& [name, value] : figures)
      out << page << ',' << row << ',' << name << ',' << value << '\n';
  }

  std::ofstream truth_;
  std::ofstream public_;
};

/// Those of other terms first.
std::vector<Release> seenFrom(std::vector<std::pair<int, Release>> all, int term) {
  std::vector<Release> out;
  std::ranges::stable_partition(all, [&](const auto& one) { return one.first != term; });
  for (auto& [of, release] : all) {
    release.of = of == term ? OfTerm::same : of == term - 1 ? OfTerm::sealedBefore : OfTerm::other;
    if (of != term) release.otherTerm = std::to_string(of);
    out.push_back(release);
  }
  return out;
}

class Writer {
 public:
  Writer(std::filesystem::path folder, base::Random& random, Pages& pages)
      : folder_((std::filesystem::create_directories(folder), std::move(folder))), program_(random),
        truth_(folder_), pages_(pages) {
    const auto bySchool = program_.below(4) == 0 ? BySchool::services : BySchool::all;
    if (bySchool == BySchool::services) std::ofstream(folder_ / "openly");
    rule_ = *SuppressionRule::under(10, bySchool);
  }

  void write() {
    std::vector<Drawn> before;
    for (int term = 0; term < terms; ++term) {
      const auto children = program_.drawTerm();
      std::vector<RetentionLine> checks;
      for (std::size_t school = 0; term > 0 && school < program_.schools(); ++school) {
        checks.push_back(program_.check(before, school));
        checks.back().label = schoolName(school);
        checks.back().school = schoolId(school);
      }
      const int issues = program_.below(3) == 0 ? 2 : 1;
      for (int issue = 0; issue < issues; ++issue)
        putOut(term, issue, children, issue + 1 < issues, checks);
      before = children;
    }
  }

 private:
  void putOut(int term, int issue, const std::vector<Drawn>& children, bool isFirst,
              const std::vector<RetentionLine>& checks) {
    const auto totals = totalsOf(program_, children, isFirst, checks);
    const auto earlier = seenFrom(out_, term);
    Groups groups;
    if (program_.below(4) == 0) groups = {{schoolId(0).text(), schoolId(1).text()}};
    auto made = publish(totals, rule_, earlier, groups);
    std::vector<Participation> grades;
    for (int grade = program_.lowestGrade(); grade <= program_.highestGrade(); ++grade) {
      grades.push_back(program_.count(children, isFirst, std::nullopt, grade));
      grades.back().school = grade == 0 ? "K" : std::to_string(grade);
    }
    addGrades(made, grades, totals, rule_, earlier);
    if (made.exposed > 0) { // the program refuses to issue it
      ++pages_.refused;
      return;
    }
    const auto page = std::to_string(term) + "-" + std::to_string(issue);
    std::filesystem::create_directories(folder_ / page);
    auto tables = made.tables;
    if (made.byGrade) tables.push_back(*made.byGrade);
    for (const auto& [name, text] : toCsvFiles(tables))
      std::ofstream(folder_ / page / name) << text;
    putOutAs(page, "annex", tables, false);
    putOutAs(page, "principals", schoolPages(totals, made, rule_, "The team", std::nullopt));
    HandedOut handed{"The team"};
    // The term before is named as its page is, where the attack finds it.
    const auto last =
        std::ranges::find(out_ | std::views::reverse, term - 1, &std::pair<int, Release>::first);
    if (last != out_.rend()) handed.before = EarlierTerm{lastPage_.at(term - 1), last->second};
    putOutAs(page, "funder",
             funderSummary(SampleTerm().records, totals, made, rule_, totals.asOf, handed));
    for (const auto& one : totals.schools)
      truth_.add(page, one.school, one);
    for (const auto& one : grades)
      truth_.add(page, "Grade " + one.school, one);
    for (const auto& one : checks)
      truth_.add(page, one.label, one);
    truth_.add(page, "Total", totals.total);
    truth_.add(page, "Total", totals.retention.total);
    ++pages_.pages;
    pages_.cells += made.counts;
    pages_.withheld += made.hidden;
    pages_.totalsAlone += made.tables.front().rows.size() == 1 ? 1 : 0;
    out_.emplace_back(term, std::move(made.release));
    lastPage_[term] = page;
  }

  /// As a workbook, and as the page that is printed and sent.
  void putOutAs(const std::string& page, const std::string& name, const std::vector<Table>& tables,
                bool asPage = true) {
    const auto file = folder_ / page / name;
    std::ofstream(file.string() + ".xlsx", std::ios::binary) << toWorkbook(name, tables).value();
    if (asPage) std::ofstream(file.string() + ".html") << toHtml(name, tables);
  }

  std::filesystem::path folder_;
  Program program_;
  Truth truth_;
  Pages& pages_;
  SuppressionRule rule_;
  std::vector<std::pair<int, Release>> out_;
  std::map<int, std::string> lastPage_;
};

} // namespace

Pages writeRandomPrograms(const std::filesystem::path& folder, int programs, base::Random& random) {
  Pages pages;
  for (int i = 0; i < programs; ++i)
    Writer(folder / std::to_string(i), random, pages).write();
  return pages;
}

} // namespace gk::test
