#include "reports/funder_report.h"

#include "reports/cells.h"
#include "reports/lookup.h"
#include "reports/published.h"
#include "reports/referral_report.h"

#include <algorithm>
#include <charconv>
#include <map>

namespace gk::reports {

namespace {

using chairside::Urgency;

bool isHidden(const std::string& cell) {
  return cell == "withheld" || cell.starts_with("fewer than");
}

bool hidesIn(const Cells& row) {
  return std::ranges::any_of(row, isHidden);
}

/// The cell of the total under this heading.
std::string totalUnder(const Table& table, std::string_view heading) {
  for (std::size_t i = 0; i < table.columns.size(); ++i)
    if (table.columns[i].heading == heading) return table.rows.back()[i];
  base::fail("no such column");
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

/// The same totals with grades in the place of schools.
TermTotals byGrade(const TermRecords& records, TermTotals totals) {
  const Lookup<roster::Child> children(records.children);
  std::map<std::string, std::vector<Participation>> shares;
  for (const auto& share : participationByChild(records))
    if (const auto* child = children.find(share.child))
      shares[child->grade].push_back(share.counts);
  const auto pupils = pupilsByGrade(records);
  for (const auto& [grade, count] : pupils)
    shares.try_emplace(grade);
  std::vector<std::pair<int, Participation>> grades;
  bool allKnown = true;
  for (auto& [grade, counts] : shares) {
    for (auto& one : counts)
      one.enrolled = 0;
    auto sum = sumOf(counts);
    const auto enrolled = pupils.find(grade);
    const bool isKnown = enrolled != pupils.end() && enrolled->second >= sum.formsBack &&
                         enrolled->second >= sum.consented;
    sum.enrolled = isKnown ? std::optional(enrolled->second) : std::nullopt;
    allKnown = allKnown && isKnown;
    sum.school = "Grade " + grade;
    grades.emplace_back(roster::gradeNumber(grade).value_or(-1), std::move(sum));
  }
  std::ranges::sort(grades, {}, [](const auto& one) { return one.first; });
  totals.schools.clear();
  for (auto& [order, sum] : grades) {
    if (!allKnown) sum.enrolled.reset();
    totals.schools.push_back(std::move(sum));
  }
  if (!allKnown) totals.total.enrolled.reset();
  return totals;
}

Table coverTable(const TermRecords& records, const TermTotals& totals, const SuppressionRule& rule,
                 const std::string& version) {
  Table table{"Report to funder or state: " + totals.term, {{"What"}, {"Which"}}, {}, {}};
  table.rows = {
      {"Period", totals.start.words() + " to " + std::min(totals.asOf, totals.end).words()},
      {"Schools; clinic days held",
       number(static_cast<int>(totals.schools.size())) + "; " + number(totals.total.days)},
      {"Small numbers", "counts of 1 to " + number(rule.threshold() - 1) +
                            " are hidden, and what "
                            "would give them away"}};
  if (!version.empty()) table.rows.push_back({"Version", version});
  const auto aside =
      std::ranges::count_if(records.lots, [](const auto& row) { return row.value.quarantined; });
  table.rows.push_back({"Material lots set aside", number(static_cast<int>(aside))});
  return table;
}

/// Grades beside schools: what one table hides must not be readable in the other, so that both are
/// shown only where neither hides a total.
std::optional<Table> gradeTable(const TermRecords& records, const TermTotals& totals,
                                const SuppressionRule& rule, const Table& bySchool) {
  if (hidesIn(bySchool.rows.back())) return std::nullopt;
  auto table = publishedTables(byGrade(records, totals), rule).front();
  if (hidesIn(table.rows.back())) return std::nullopt;
  table.title = "Participation by grade";
  table.columns.front().heading = "Grade";
  table.notes = {"Grade as it is now, the child's own and not the room's."};
  return table;
}

enum ReferralFigure : std::size_t {
  made,
  reached,
  complete,
  started,
  declined,
  moved,
  lost,
  open,
  openLong,
  referralFigures ///< how many there are
};

std::vector<int> figuresOf(const ReferralCounts& at) {
  return {at.made,  at.reached, at.complete, at.started, at.declined,
          at.moved, at.lost,    at.open,     at.openLong};
}

/// Early and urgent and their sum, with all that a reader knows of how they add up.
class ReferralSystem {
 public:
  ReferralSystem(const TermRecords& records, base::Date today) {
    add(figuresOf(referralCounts(records, today, Urgency::early)), 0);
    add(figuresOf(referralCounts(records, today, Urgency::urgent)), 1);
    add(figuresOf(referralCounts(records, today, std::nullopt)), 2);
    system_.totalRow = 2;
    for (std::size_t i = 0; i < referralFigures; ++i)
      system_.sums.push_back({place(2, i), {place(0, i), place(1, i)}});
  }

  [[nodiscard]] Cells row(std::size_t row, const Suppressed& shown,
                          const SuppressionRule& rule) const {
    Cells cells;
    for (std::size_t i = 0; i < referralFigures; ++i) {
      const auto at = place(row, i);
      switch (shown.cells.at(at)) {
      case Showing::number:
        cells.push_back(number(system_.cells.at(at).value));
        break;
      case Showing::fewer:
        cells.push_back("fewer than " + number(rule.threshold()));
        break;
      case Showing::withheld:
        cells.emplace_back("withheld");
        break;
      }
    }
    return cells;
  }
  [[nodiscard]] const CountSystem& system() const { return system_; }

 private:
  [[nodiscard]] std::size_t place(std::size_t row, std::size_t figure) const {
    return starts_.at(row) + figure;
  }

  void add(const std::vector<int>& figures, std::size_t row) {
    starts_.push_back(system_.cells.size());
    for (const auto value : figures)
      system_.add({value, CountKind::count, row});
    const auto at = [&](ReferralFigure figure) { return place(row, figure); };
    system_.sums.push_back(
        {at(made), {at(complete), at(started), at(declined), at(moved), at(lost), at(open)}});
    system_.addRest(CountKind::rest, at(made), {at(reached)});
    // Open for long: of those open or started.
    system_.addRest(CountKind::slack, at(made), {at(openLong)});
  }

  CountSystem system_;
  std::vector<std::size_t> starts_;
};

Table referralTable(const TermRecords& records, const SuppressionRule& rule, base::Date today,
                    bool findingsAreWhole) {
  Table table{"Referrals and outcomes, as of " + today.words(),
              {{"Urgency"},
               right("Made"),
               right("Guardian reached"),
               right("Complete"),
               right("Started"),
               right("Declined"),
               right("Moved"),
               right("Lost after attempts"),
               right("Open"),
               right("Open over " + number(longOpen) + " days")},
              {},
              {}};
  if (!findingsAreWhole) {
    table.notes = {"Left out: with a total of the findings hidden, the number of referrals would "
                   "give it away."};
    return table;
  }
  const ReferralSystem counts(records, today);
  const auto shown = suppress(counts.system(), rule);
  std::size_t row = 0;
  for (const auto* label : {"early", "urgent", "Total"}) {
    table.rows.push_back({label});
    const auto cells = counts.row(row++, shown, rule);
    table.rows.back().insert(table.rows.back().end(), cells.begin(), cells.end());
  }
  table.notes = {"Complete: treated, or a dentist found no need. A referral closes on an outcome "
                 "only; small numbers as in the tables above."};
  return table;
}

Table targetTable(const TermTotals& totals, const std::vector<Table>& published) {
  Table table{"Targets against actual",
              {{"Measure"}, right("Reference line, %"), right("Actual, %"), {"Reached"}},
              {},
              {"Reference lines are published state guidance unless the program set its own; they "
               "speak of programs."}};
  const auto add = [&](const std::string& what, double target, const std::string& actual) {
    double share = 0;
    const bool isNumber =
        std::from_chars(actual.data(), actual.data() + actual.size(), share).ec == std::errc{};
    table.rows.push_back({what, base::fixed(100 * target, 0), actual,
                          !isNumber               ? nothing
                          : share >= 100 * target ? "yes"
                                                  : "NO"});
  };
  add("Consented of enrolled", totals.targets.consented, totalUnder(published[0], "% of enrolled"));
  add("Screened of consented", totals.targets.screened, totalUnder(published[0], "% of consented"));
  add("Sealed of those in need", totals.targets.sealed, totalUnder(published[1], "% of needing"));
  add("Whole of assessable at one year", totals.targets.retained,
      totalUnder(published[3], "Whole %"));
  return table;
}

Table sparedTable(const TermTotals& totals, bool teethAreShown) {
  Table table{"Decay spared, estimated", {{"Figure"}, right("Estimate")}, {}, {}};
  const auto& averted = totals.averted;
  const auto withRange = [](const auto& one) {
    return base::fixed(one.averted, 0) + (one.interval
                                              ? " (" + base::fixed(one.interval->low, 0) + "-" +
                                                    base::fixed(one.interval->high, 0) + ")"
                                              : "");
  };
  const auto years = number(averted.years);
  if (!teethAreShown) {
    table.rows.push_back({"Teeth spared decay in " + years + " years", "withheld"});
  } else if (averted.averted && averted.cautious) {
    table.rows.push_back(
        {"Teeth spared decay in " + years + " years, full protection while retained (range)",
         withRange(*averted.averted)});
    table.rows.push_back(
        {"The same at " + base::fixed(estimates::cautiousEfficacy, 2) + " of full protection",
         withRange(*averted.cautious)});
  } else {
    table.rows.push_back({"Teeth spared decay in " + years + " years", averted.whyNot});
  }
  table.notes = {
      "Methods and limits. Consented: a form of this term that says yes, or screened in it. "
      "Screened is a look by a licensed person at school, not a dental examination, no x-rays. "
      "Sealed: at least one complete sealant by this program; teeth are counted once. Retention: "
      "found children only, first placements, whole of those that could be judged at " +
          number(totals.window.fromMonths) + " to " + number(totals.window.untilMonths) +
          " months, by placing school; those not found may have kept fewer or more.",
      "Decay spared is a model after Griffin, Jones and Crespin 2014: it speaks of programs, never "
      "of one child; its range holds the sampling error of attack rate and retention, not doubt "
      "about the model."};
  return table;
}

} // namespace

std::vector<Table> funderReport(const TermRecords& records, const TermTotals& totals,
                                const SuppressionRule& rule, base::Date today,
                                const std::string& version) {
  const auto published = publishedTables(totals, rule);
  std::vector<Table> out{coverTable(records, totals, rule, version), published[0]};
  if (auto grades = gradeTable(records, totals, rule, published[0]))
    out.push_back(*std::move(grades));
  else
    out.back().notes.emplace_back(
        "By grade is left out: with a total hidden, one table would give the other away.");
  out.insert(out.end(), {published[2], published[1], published[3]});
  out.push_back(referralTable(records, rule, today, !hidesIn(published[2].rows.back())));
  out.push_back(targetTable(totals, published));
  out.push_back(sparedTable(totals, !hidesIn(published[1].rows.back())));
  return out;
}

} // namespace gk::reports
