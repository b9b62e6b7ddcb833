#include "reports/publish/random_programs.h"

#include "base/text/text.h"
#include "reports/funder/funder_referrals.h"
#include "reports/funder/funder_report.h"
#include "reports/funder/published_grades.h"
#include "reports/funder/state_report.h"
#include "reports/print/render.h"
#include "reports/publish/drawn_program.h"
#include "reports/publish/issue.h"
#include "reports/sample.h"
#include "reports/services/referral_report.h"
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

std::string schoolName(std::size_t school) {
  return "School " + std::string(1, static_cast<char>('A' + school));
}

roster::SchoolId schoolId(std::size_t school) {
  base::Uuid uuid;
  uuid.bytes[15] = static_cast<std::uint8_t>(school + 1);
  return roster::SchoolId(uuid);
}

TermTotals totalsOf(const DrawnProgram& program, const std::vector<Drawn>& children,
                    bool firstIssue, const std::vector<RetentionLine>& checks) {
  const auto day = *base::Date::parse("2026-11-17");
  TermTotals totals{"Autumn", day, day, day, {}, {}, true, {}, {}, {}, {}, {}, {}};
  for (std::size_t school = 0; school < program.schools(); ++school) {
    totals.schools.push_back(program.count(children, firstIssue, school, std::nullopt));
    totals.schools.back().school = schoolName(school);
    totals.schools.back().id = schoolId(school);
  }
  totals.total = sumOf(totals.schools);
  totals.total.days = 2 * static_cast<int>(program.schools());
  totals.students = DrawnProgram::students(children, firstIssue);
  totals.shortTerm = DrawnProgram::shortTerm(children, firstIssue);
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

/// The records that the pages read themselves: what became of the calls for a dentist.
TermRecords recordsOf(const std::vector<Drawn>& children, bool firstIssue) {
  SampleTerm term;
  const auto school = term.school("Any");
  // More than sixty days before the pages, and less.
  const std::array days{term.day(school, "2026-09-10"), term.day(school, "2026-11-10")};
  auto& records = term.records;
  records.asOf = date("2026-11-17");
  for (const auto& one : children) {
    if (!one.referred || (firstIssue && !one.early)) continue;
    const bool isClosed = !firstIssue || one.closedEarly;
    const auto child = term.make.id<roster::ChildId>();
    const auto day = days.at(one.school % 2);
    const auto outcome = isClosed ? one.outcome : 0;
    records.referrals.push_back(term.make.row<followup::Referral>(
        {child, day, one.urgency == 1 ? chairside::Urgency::early : chairside::Urgency::urgent,
         "decay", date("2026-12-01"), followup::ReferredTo::ownDentist,
         static_cast<followup::ReferralState>(outcome)}));
    if (one.reached && isClosed)
      records.contacts.push_back(term.make.row<followup::ContactAttempt>(
          {child, days.back(), followup::Channel::phone, followup::ContactResult::reached, ""}));
  }
  return records;
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
           {"sealed in need", at.sealed - at.sealedUnscreened},
           {"varnish screened", at.varnish - at.varnishUnscreened},
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
  /// Of a grade or all: what a state asks for besides.
  void add(const std::string& page, const std::string& row, const std::vector<SeenChild>& seen) {
    const auto of = [&](auto which) {
      return static_cast<int>(std::ranges::count_if(seen, which));
    };
    write(
        truth_, page, row,
        {{"treated known", of([](const auto& one) { return one.child.treatedDecay.has_value(); })},
         {"treated", of([](const auto& one) { return one.child.treatedDecay == true; })},
         {"experience known", of([](const auto& one) {
            return one.child.untreatedDecay == true || one.child.treatedDecay == true ||
                   (one.child.untreatedDecay && one.child.treatedDecay);
          })},
         {"experience", of([](const auto& one) {
            return one.child.untreatedDecay == true || one.child.treatedDecay == true;
          })},
         {"both kinds", of([](const auto& one) {
            return one.child.untreatedDecay == true && one.child.treatedDecay == true;
          })},
         {"sealants known", of([](const auto& one) { return one.child.sealants.has_value(); })},
         {"had sealants", of([](const auto& one) { return one.child.sealants == true; })},
         {"no problem",
          of([](const auto& one) { return one.child.need == estimates::CareNeed::none; })}});
  }
  void add(const std::string& page, const StudentCounts& students) {
    for (const auto& question : studentQuestions())
      for (const auto figure : question.figures)
        write(truth_, page, "Total",
              {{(std::string(question.heading) + ": " + wordsOf(figure)).c_str(),
                students.at(static_cast<std::size_t>(figure))}});
  }
  void add(const std::string& page, const EarlyChecks& at) {
    write(truth_, page, "Short-term",
          {{"children found", at.children},
           {"examined", at.examined},
           {"assessable", at.assessable},
           {"whole", at.whole},
           {"part", at.part},
           {"lost", at.lost},
           {"cannot assess", at.cannotAssess}});
  }
  void add(const std::string& page, const std::string& row, const ReferralCounts& at) {
    write(truth_, page, row,
          {{"made", at.made},
           {"guardian reached", at.reached},
           {"complete", at.complete},
           {"started", at.started},
           {"declined", at.declined},
           {"moved", at.moved},
           {"lost to follow-up", at.lost},
           {"open", at.open},
           {"open long", at.openLong}});
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
      const auto children = program_.drawTerm(before);
      std::vector<RetentionLine> checks;
      for (std::size_t school = 0; term > 0 && school < program_.schools(); ++school) {
        checks.push_back(program_.check(before, school));
        checks.back().label = schoolName(school);
        checks.back().school = schoolId(school);
      }
      const int issues = program_.below(3) == 0 ? 2 : 1;
      for (int issue = 0; issue < issues; ++issue)
        putOut({term, issue, issue + 1 < issues}, children, checks);
      before = children;
    }
  }

 private:
  struct Issue {
    int term;
    int number;
    bool isFirst; ///< of two
    [[nodiscard]] std::string page() const {
      return std::to_string(term) + "-" + std::to_string(number);
    }
  };

  /// For the funder and the state, of which some issue one alone, in either order.
  void putOut(const Issue& issue, const std::vector<Drawn>& children,
              const std::vector<RetentionLine>& checks) {
    const auto totals = totalsOf(program_, children, issue.isFirst, checks);
    const auto which = program_.below(5);
    bool anyOut = false;
    if (which == 0 || which == 1) anyOut = putOutForState(issue, children, totals) || anyOut;
    if (which != 1) anyOut = putOutForFunder(issue, children, totals) || anyOut;
    if (which == 2) anyOut = putOutForState(issue, children, totals) || anyOut;
    if (!anyOut) return;
    ++pages_.pages;
    sayTruth(issue, children, totals);
  }

  bool putOutForFunder(const Issue& issue, const std::vector<Drawn>& children,
                       const TermTotals& totals) {
    const auto earlier = seenFrom(out_, issue.term);
    Groups groups;
    if (program_.below(4) == 0) groups = {{schoolId(0).text(), schoolId(1).text()}};
    auto made = publish(totals, rule_, earlier, groups);
    addGrades(made, gradesOf(issue, children), totals, rule_, earlier);
    if (made.exposed > 0) { // the program refuses to issue it
      ++pages_.refused;
      return false;
    }
    const auto records = recordsOf(children, issue.isFirst);
    addReferrals(made, records, rule_, totals.asOf, earlier);
    putOutAs(issue, "annex", funderAnnex(records, totals, made, rule_));
    putOutAs(issue, "principals", schoolPages(totals, made, rule_, "The team", std::nullopt));
    HandedOut handed{"The team"};
    if (const auto last = forFunder_.find(issue.term - 1); last != forFunder_.end())
      handed.before = last->second;
    putOutAs(issue, "funder", funderSummary(totals, made, rule_, handed));
    pages_.cells += made.counts;
    pages_.withheld += made.hidden;
    pages_.totalsAlone += made.tables.front().rows.size() == 1 ? 1 : 0;
    // The term is named as its page is, where the attack finds it.
    forFunder_[issue.term] = EarlierTerm{issue.page(), made.release};
    out_.emplace_back(issue.term, std::move(made.release));
    return true;
  }

  /// Of a year that is this term.
  bool putOutForState(const Issue& issue, const std::vector<Drawn>& children,
                      const TermTotals& totals) {
    const auto earlier = seenFrom(out_, issue.term);
    const auto day = totals.asOf;
    const YearOptions year{{"2026-27", roster::YearKind::school, day, day}, "The team", "County"};
    auto made = stateReport({totals, DrawnProgram::seen(children, issue.isFirst), day}, year, rule_,
                            earlier, groupsIssued(earlier));
    if (made.exposed > 0) {
      ++pages_.refused;
      return false;
    }
    putOutAs(issue, "state", made.tables);
    std::ofstream(folder_ / issue.page() / "state.csv")
        << toCsv(stateFigures(made.tables, day, year));
    ++pages_.ofState;
    out_.emplace_back(issue.term, std::move(made.release));
    return true;
  }

  [[nodiscard]] std::vector<Participation> gradesOf(const Issue& issue,
                                                    const std::vector<Drawn>& children) const {
    std::vector<Participation> grades;
    for (int grade = program_.lowestGrade(); grade <= program_.highestGrade(); ++grade) {
      grades.push_back(program_.count(children, issue.isFirst, std::nullopt, grade));
      grades.back().school = grade == 0 ? "K" : std::to_string(grade);
    }
    return grades;
  }

  void sayTruth(const Issue& issue, const std::vector<Drawn>& children, const TermTotals& totals) {
    const auto page = issue.page();
    for (const auto& one : totals.schools)
      truth_.add(page, one.school, one);
    auto seen = DrawnProgram::seen(children, issue.isFirst);
    truth_.add(page, "Total", seen);
    for (const auto& one : gradesOf(issue, children)) {
      truth_.add(page, "Grade " + one.school, one);
      auto ofGrade = seen;
      std::erase_if(ofGrade, [&](const auto& child) { return child.grade != one.school; });
      truth_.add(page, "Grade " + one.school, ofGrade);
    }
    for (const auto& one : totals.retention.schools)
      truth_.add(page, one.label, one);
    truth_.add(page, "Total", totals.total);
    truth_.add(page, "Total", totals.retention.total);
    truth_.add(page, totals.students);
    truth_.add(page, totals.shortTerm);
    const auto records = recordsOf(children, issue.isFirst);
    const TermView view(records);
    using chairside::Urgency;
    for (const auto& [row, urgency] :
         {std::pair("Referrals early", std::optional(Urgency::early)),
          std::pair("Referrals urgent", std::optional(Urgency::urgent)),
          std::pair("Referrals", std::optional<Urgency>())})
      truth_.add(page, row, referralCounts(view, totals.asOf, urgency));
  }

  /// In files for a spreadsheet, and as the page that is printed and sent.
  void putOutAs(const Issue& issue, const std::string& name, const std::vector<Table>& tables) {
    const auto folder = folder_ / issue.page();
    std::filesystem::create_directories(folder);
    const auto file = (folder / name).string();
    std::ofstream(file + ".xlsx", std::ios::binary) << toWorkbook(name, tables).value();
    if (tables.front().front) { // of the others, the files of their tables say the same
      std::ofstream(file + ".html") << toHtml(name, tables);
      return;
    }
    if (name == "annex")
      for (const auto& [csv, text] : toCsvFiles(tables))
        std::ofstream(folder / csv) << text;
  }

  std::filesystem::path folder_;
  DrawnProgram program_;
  Truth truth_;
  Pages& pages_;
  SuppressionRule rule_;
  std::vector<std::pair<int, Release>> out_;
  std::map<int, EarlierTerm> forFunder_; ///< the last of each term
};

} // namespace

Pages writeRandomPrograms(const std::filesystem::path& folder, int programs, base::Random& random) {
  Pages pages;
  for (int i = 0; i < programs; ++i)
    Writer(folder / std::to_string(i), random, pages).write();
  return pages;
}

} // namespace gk::test
