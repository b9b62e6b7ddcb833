#include "reports/funder/state_report.h"

#include "base/random.h"
#include "base/text/text.h"
#include "reports/funder/state_indicators.h"
#include "reports/print/cells.h"
#include "reports/publish/published.h"
#include "reports/publish/release_lines.h"
#include "reports/records/one_term.h"
#include "reports/report.h"
#include "reports/sample.h"

#include <algorithm>
#include <array>
#include <catch2/catch.hpp>
#include <set>

using namespace gk;
using namespace gk::reports;
using chairside::Tri;
using gk::test::date;

namespace {

/// Fall 2026 and spring 2027 at one school, in one book.
struct TwoTermBook : test::SampleTerm {
  roster::TermId spring = make.id<roster::TermId>();
  roster::SchoolId here = school("Cobble Lantern Elementary", 142);
  roster::DayId inAutumn = day(here, "2026-10-13");
  roster::DayId inSpring = dayIn("2027-03-09");
  roster::DayId afterJune = dayIn("2027-07-02");

  roster::DayId dayIn(const std::string& iso) {
    const auto row = make.row<roster::ClinicDay>({spring, here, date(iso), 1, "", false});
    records.days.push_back(row);
    return row.id;
  }
  void answer(roster::ChildId child, roster::TermId term, roster::ConsentState state,
              const std::string& from, const std::string& signedOn) {
    consent(child, state);
    auto& form = records.consents.back().value;
    form.term = term;
    form.validFrom = date(from);
    form.validUntil = date("2027-07-31");
    if (signedOn.empty())
      form.validUntil.reset(); // a no rarely says until when
    else
      form.signedOn = date(signedOn);
  }

  /// As the session reads them, the older first.
  [[nodiscard]] TermRecords ofTerm(roster::TermId id) const {
    auto out = records;
    if (id == spring) {
      out.id = spring;
      out.term = {"Spring 2027", date("2027-01-11"), date("2027-07-10"), {}};
      out.asOf = date("2027-07-10");
    }
    std::erase_if(out.enrollments, [&](const auto& row) { return row.value.term != id; });
    return out;
  }
  [[nodiscard]] TermRecords year() const {
    return asOneTerm({ofTerm(records.id), ofTerm(spring)}, span(), date("2027-08-15"));
  }
  static roster::ProgramYear span() {
    return {"2026-27", roster::YearKind::fiscal, date("2026-07-01"), date("2027-06-30")};
  }
  static YearOptions options() { return {span(), "Larkmere Seals", "Larkmere County"}; }
};

estimates::ScreenedChild seenAs(std::optional<bool> untreated, std::optional<bool> treated,
                                std::optional<bool> sealants = false,
                                estimates::CareNeed need = estimates::CareNeed::none) {
  return {0, untreated, treated, sealants, need};
}

std::vector<SeenChild> many(int count, const std::string& grade,
                            const estimates::ScreenedChild& child) {
  return std::vector<SeenChild>(static_cast<std::size_t>(count),
                                {roster::SchoolId(base::Uuid{}), grade, child});
}

std::vector<SeenChild> joined(const std::vector<std::vector<SeenChild>>& groups) {
  std::vector<SeenChild> all;
  for (const auto& group : groups)
    all.insert(all.end(), group.begin(), group.end());
  return all;
}

/// "12", "fewer than 10", "suppressed" of a row and column of the indicators.
std::string indicatorCell(const Table& table, const std::string& grade, const std::string& name,
                          std::size_t column) {
  for (const auto& row : table.rows)
    if (row[0] == grade && row[1] == name) return row.at(column).text();
  FAIL("no row " << grade << ", " << name);
  return {};
}

} // namespace

TEST_CASE("A child seen in two terms of a year counts once in the year, and once in each term") {
  TwoTermBook book;
  const auto both = book.child(book.here);
  book.screen(both, book.inAutumn).untreatedDecay = Tri::no;
  book.screen(both, book.inSpring).untreatedDecay = Tri::yes;
  book.screen(book.child(book.here), book.inSpring);
  CHECK(termTotals(book.ofTerm(book.records.id)).total.screened == 1);
  CHECK(termTotals(book.ofTerm(book.spring)).total.screened == 2);
  const auto year = termTotals(book.year());
  CHECK(year.total.screened == 2);
  CHECK(year.total.untreated == 1); // the more serious of both
  CHECK(year.total.days == 2);
  CHECK(year.term == "Fiscal year 2026-27");
}

TEST_CASE("A day of a term that lies outside the year is not of the year") {
  TwoTermBook book;
  book.screen(book.child(book.here), book.afterJune);
  CHECK(termTotals(book.ofTerm(book.spring)).total.screened == 1);
  CHECK(termTotals(book.year()).total.screened == 0);
}

TEST_CASE("Students enrolled are those of the latest term that says it, never added up") {
  TwoTermBook book; // fall says 142
  CHECK(termTotals(book.year()).total.enrolled == 142);
  book.records.enrollments.push_back(
      book.make.row<roster::Enrollment>({book.spring, book.here, "2", 150}));
  for (auto& row : book.records.enrollments)
    row.value.grade = "2";
  CHECK(termTotals(book.year()).total.enrolled == 150);
}

TEST_CASE("A yes of spring outranks an undated no of fall in the year too") {
  TwoTermBook book;
  const auto child = book.child(book.here);
  book.answer(child, book.records.id, roster::ConsentState::no, "2026-09-08", "");
  book.answer(child, book.spring, roster::ConsentState::yes, "2027-01-11", "2027-01-20");
  CHECK(termTotals(book.ofTerm(book.spring)).total.consented == 1);
  CHECK(termTotals(book.year()).total.consented == 1);
}

TEST_CASE("Each indicator is of the children for whom it is known") {
  // By hand: untreated 12 of 32 known, treated 11 of 31, either: yes 23, no 8 -> 23 of 31.
  const auto children =
      joined({many(12, "1", seenAs(true, false)), many(11, "1", seenAs(false, true)),
              many(8, "1", seenAs(false, false, true)), many(1, "1", seenAs(false, std::nullopt))});
  const auto rows = indicatorRows(children);
  REQUIRE(rows.size() == 1); // one group alone is all of them
  CHECK(rows[0].screened == 32);
  CHECK(rows[0].at(Indicator::untreated) == IndicatorCount{32, 12});
  CHECK(rows[0].at(Indicator::treated) == IndicatorCount{31, 11});
  CHECK(rows[0].at(Indicator::experience) == IndicatorCount{31, 23});
  CHECK(rows[0].at(Indicator::sealants) == IndicatorCount{32, 8});
  CHECK(rows[0].at(Indicator::noProblem) == IndicatorCount{32, 32});
}

TEST_CASE("Untreated or treated alone makes caries experience known, whatever the other") {
  const auto rows = indicatorRows(
      joined({many(1, "3", seenAs(true, std::nullopt)), many(1, "3", seenAs(std::nullopt, true)),
              many(1, "3", seenAs(std::nullopt, false)),
              many(1, "3", seenAs(std::nullopt, std::nullopt))}));
  CHECK(rows.back().at(Indicator::experience) == IndicatorCount{2, 2});
}

TEST_CASE("Kindergarten and grade 3 stand apart, and the groups add up to all grades") {
  const auto rows =
      indicatorRows(joined({many(20, "K", seenAs(false, false)), many(30, "3", seenAs(true, false)),
                            many(25, "5", seenAs(false, true))}));
  REQUIRE(rows.size() == 4);
  CHECK(rows[0].group == "Kindergarten");
  CHECK(rows[1].group == "Grade 3");
  CHECK(rows[1].at(Indicator::untreated).with == 30);
  CHECK(rows[3].screened == 75);
}

TEST_CASE("Small indicators read fewer than 10, and the rest of three does not give one away") {
  using estimates::CareNeed;
  const auto children = joined({many(60, "2", seenAs(false, false)),
                                many(30, "2", seenAs(true, false, false, CareNeed::early)),
                                many(4, "2", seenAs(true, true, false, CareNeed::urgent))});
  const auto table = publishIndicators(indicatorRows(children), SuppressionRule{}).table;
  CHECK(indicatorCell(table, "All grades", "Screened", 2) == "94");
  CHECK(indicatorCell(table, "All grades", "Urgent care needed", 2) == "fewer than 10");
  const auto early = indicatorCell(table, "All grades", "Early care needed", 2);
  const auto none = indicatorCell(table, "All grades", "No obvious problem", 2);
  CHECK((early == "suppressed" || none == "suppressed")); // else 94 - 60 - 30
  CHECK(indicatorCell(table, "All grades", "Urgent care needed", 4) == "suppressed");
}

TEST_CASE(
    "What the printed indicators of 200 invented programs leave open, by trying every table") {
  // Own simulation. The attack knows the printed words and that a child with either kind of decay
  // has experience, and nothing of the suppression.
  base::SeededRandom random(20'261'127);
  int narrowed = 0;
  int printed = 0;
  for (int program = 0; program < 200; ++program) {
    std::vector<SeenChild> children;
    const int n = 25 + static_cast<int>(random.below(30));
    const auto untreated = 5 + random.below(50);
    const auto treated = 5 + random.below(50);
    for (int i = 0; i < n; ++i) {
      const bool u = random.below(100) < untreated;
      const auto need = !u                     ? estimates::CareNeed::none
                        : random.below(4) == 0 ? estimates::CareNeed::urgent
                                               : estimates::CareNeed::early;
      const bool t = random.below(100) < treated;
      const bool sealants = random.below(3) == 0;
      children.push_back({roster::SchoolId(base::Uuid{}), "1", seenAs(u, t, sealants, need)});
    }
    const auto rows = indicatorRows(children);
    const auto table = publishIndicators(rows, SuppressionRule{}).table;
    const auto said = [&](const char* name) { return indicatorCell(table, "All grades", name, 2); };
    if (said("Screened") != number(n)) continue;
    const auto fits = [&](const std::string& cell, int value) {
      if (cell == "suppressed") return value == 0 || value >= 1;
      if (cell == "fewer than 10") return 1 <= value && value <= 9;
      return cell == number(value);
    };
    const std::array names{"Untreated decay", "Treated decay", "Caries experience"};
    for (const auto* name : names)
      printed += base::parseInt(said(name)) ? 1 : 0;
    // Untreated, treated, either, then untreated only, treated only, both.
    std::array<std::set<int>, 6> open;
    for (int u = 0; u <= n; ++u)
      for (int t = 0; t <= n; ++t)
        for (int e = std::max(u, t); e <= std::min(n, u + t); ++e)
          if (fits(said(names[0]), u) && fits(said(names[1]), t) && fits(said(names[2]), e)) {
            const std::array values{u, t, e, e - t, e - u, u + t - e};
            for (std::size_t i = 0; i < values.size(); ++i)
              open[i].insert(values[i]);
          }
    const int u = rows.back().at(Indicator::untreated).with;
    const int t = rows.back().at(Indicator::treated).with;
    const int e = rows.back().at(Indicator::experience).with;
    const std::array truth{u, t, e, e - t, e - u, u + t - e};
    for (std::size_t i = 0; i < truth.size(); ++i) {
      REQUIRE(open[i].contains(truth[i]));
      if (0 < truth[i] && truth[i] < 10 && open[i].size() < 5) ++narrowed;
    }
  }
  CHECK(narrowed == 0);
  CHECK(printed > 100); // it is not silent
}

TEST_CASE("A grade group too small to show is merged, so that all grades stay readable") {
  // Four kindergartners: apart, they and half of the rest would have to be hidden.
  const auto children =
      joined({many(4, "K", seenAs(true, false)), many(60, "2", seenAs(false, false)),
              many(40, "2", seenAs(true, false)), many(20, "2", seenAs(false, true)),
              many(40, "3", seenAs(false, false)), many(30, "3", seenAs(true, false)),
              many(15, "3", seenAs(false, true))});
  const auto rows = indicatorRows(children);
  REQUIRE(rows.size() == 4);
  const auto table = publishIndicators(rows, SuppressionRule{}).table;
  CHECK(indicatorCell(table, "All grades", "Untreated decay", 2) == "74");
  CHECK(indicatorCell(table, "Grade 3", "Untreated decay", 2) == "30");
  CHECK(indicatorCell(table, "All but grade 3", "Untreated decay", 2) == "44");
  for (const auto& row : table.rows)
    CHECK(row[0] != "Kindergarten");
}

TEST_CASE("What a term's annex hid of a school is not told by the year's own total") {
  // The annex of the only term so far kept back how many of all had untreated decay, as 70 less
  // the 66 that it showed of one school would be another school's 4.
  const auto children =
      joined({many(30, "2", seenAs(false, false)), many(70, "2", seenAs(true, false))});
  using Row = ReleasedRow<Figure>;
  const Row all{{}, {{Figure::untreated, {70, Showing::withheld}}}};
  const Row big{{"a"}, {{Figure::untreated, {66, Showing::number}}}};
  const Row small{{"b"}, {{Figure::untreated, {4, Showing::fewer}}}};
  const std::vector<Release> releases{{10, {big, small, all}, {}}};
  const auto bound = publishIndicators(indicatorRows(children), SuppressionRule{}, releases).table;
  CHECK(indicatorCell(bound, "All grades", "Untreated decay", 2) == "suppressed");
  const auto free = publishIndicators(indicatorRows(children), SuppressionRule{}).table;
  CHECK(indicatorCell(free, "All grades", "Untreated decay", 2) == "70");
}

TEST_CASE("A later issue does not tell a few children by what it differs from an earlier one") {
  const auto first =
      joined({many(60, "2", seenAs(false, false)), many(30, "2", seenAs(true, false))});
  const auto made = publishIndicators(indicatorRows(first), SuppressionRule{});
  const auto& then = made.table;
  REQUIRE(indicatorCell(then, "All grades", "Untreated decay", 2) == "30");
  const auto more = joined({first, many(3, "2", seenAs(true, false))});
  Release release{.under = 10, .term = {{{}, made.findings}}, .checks = {}};
  release.indicators = made.rows;
  const std::vector earlier{releaseFrom(toLines(release)).value()};
  const auto now = publishIndicators(indicatorRows(more), SuppressionRule{}, earlier).table;
  CHECK(indicatorCell(now, "All grades", "Untreated decay", 2) == "suppressed"); // 33 - 30
  const auto alone = publishIndicators(indicatorRows(more), SuppressionRule{}).table;
  CHECK(indicatorCell(alone, "All grades", "Untreated decay", 2) == "33");
  const auto again = publishIndicators(indicatorRows(first), SuppressionRule{}, earlier).table;
  CHECK(again == then);
}

namespace {

/// Three schools by those screened and in need of early and of urgent care, for all else alike.
TermTotals screenedAt(std::vector<std::array<int, 3>> found) {
  const auto day = date("2026-11-17");
  TermTotals totals{"Autumn", day, day, day, {}, {}, true, {}, {}, {}, {}, {}, {}};
  for (const auto& [screened, early, urgent] : found) {
    Participation at;
    at.school = std::string("School ") + static_cast<char>('A' + totals.schools.size());
    at.enrolled = 120;
    at.formsBack = 70;
    at.consented = 50;
    at.screened = screened;
    at.early = early;
    at.urgent = urgent;
    at.untreated = early + urgent;
    totals.schools.push_back(std::move(at));
  }
  totals.total = sumOf(totals.schools);
  return totals;
}

std::string untreatedAt(const Published& published, const std::string& school) {
  for (const auto& table : published.tables)
    if (partName(table) == "Findings")
      for (const auto& row : table.rows)
        if (row.front().text() == school) return row.at(2).text();
  return "no row";
}

} // namespace

TEST_CASE("What a state's report told of all schools is kept in mind when a later annex says that "
          "a school has its first",
          "[case-395]") {
  using estimates::CareNeed;
  // 14 with experience and fewer than 10 of them treated: 5 or more untreated, and fewer than 10.
  const auto then = screenedAt({{20, 3, 1}, {15, 0, 0}, {14, 1, 0}});
  const auto seen =
      joined({many(4, "2", seenAs(true, false, true, CareNeed::early)),
              many(1, "2", seenAs(true, false, true, CareNeed::urgent)),
              many(9, "2", seenAs(false, true, true)), many(35, "2", seenAs(false, false))});
  const SuppressionRule rule;
  const auto state = stateReport({then, seen, then.asOf}, TwoTermBook::options(), rule, {}, {});
  const auto& indicators = state.tables.at(1);
  REQUIRE(indicatorCell(indicators, "All grades", "Caries experience", 2) == "14");
  REQUIRE(indicatorCell(indicators, "All grades", "Treated decay", 2) == "fewer than 10");
  std::vector releases{state.release, publish(then, rule, std::vector{state.release}).release};
  // One more at the second school: of fewer than 10 then at most 8, of 5 to 9 four are left.
  const auto now = screenedAt({{38, 5, 2}, {26, 1, 0}, {25, 1, 0}});
  CHECK(untreatedAt(publish(now, rule, releases), "School B") == "suppressed");
  releases.front().indicators.clear();
  CHECK(untreatedAt(publish(now, rule, releases), "School B") == "fewer than 10");
}

TEST_CASE("A state's report says whose children it is of, and has no finding by school") {
  TwoTermBook book;
  for (int i = 0; i < 40; ++i)
    book.screen(book.child(book.here), i % 2 ? book.inAutumn : book.inSpring);
  const auto records = book.year();
  const auto made = stateReport(records, TwoTermBook::options(), SuppressionRule{}, {}, {});
  REQUIRE(made.tables.size() >= 5);
  CHECK(made.tables.front().title == "Students of this program, not a survey estimate");
  CHECK(made.tables.at(1).title == indicatorTitle);
  for (const auto& table : made.tables)
    CHECK(partName(table) != "Findings");
  CHECK_FALSE(made.release.term.empty());
  CHECK(made.exposed == 0);
}

TEST_CASE("The file of a state's report has each printed figure in a row of its own") {
  TwoTermBook book;
  for (int i = 0; i < 40; ++i)
    book.screen(book.child(book.here), i % 2 ? book.inAutumn : book.inSpring);
  const auto records = book.year();
  const auto made = stateReport(records, TwoTermBook::options(), SuppressionRule{}, {}, {});
  const auto file = stateFigures(made.tables, records.asOf, TwoTermBook::options());
  CHECK(file.columns.size() == 13);
  for (const auto& row : file.rows) {
    REQUIRE(row.size() == 13);
    CHECK(row[0] == "students of this program, not a survey estimate");
    CHECK(row[5] == "2026-07-01");
  }
  const std::vector<std::string> screened{"Basic screening indicators", "All grades", "Screened",
                                          "Students with it", "40"};
  CHECK(std::ranges::any_of(file.rows, [&](const auto& row) {
    const auto words = textsOf(row);
    return std::equal(screened.begin(), screened.end(), words.begin() + 8);
  }));
}

TEST_CASE("A report says that its year is not over exactly while it is not") {
  TwoTermBook book;
  book.screen(book.child(book.here), book.inAutumn);
  const auto saysSo = [](const TermRecords& records) {
    const auto tables =
        stateReport(records, TwoTermBook::options(), SuppressionRule{}, {}, {}).tables;
    return std::ranges::any_of(tables.front().notes, [](const auto& note) {
      return note.starts_with("The year is not over");
    });
  };
  CHECK_FALSE(saysSo(book.year()));
  CHECK(saysSo(asOneTerm({book.ofTerm(book.records.id)}, TwoTermBook::span(), date("2026-11-17"))));
}
