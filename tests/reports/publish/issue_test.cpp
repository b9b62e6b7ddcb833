#include "reports/publish/issue.h"

#include "reports/print/kept_lines.h"
#include "reports/publish/county.h"
#include "reports/publish/published.h"
#include "reports/publish/release_lines.h"
#include "reports/sample.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace gk;
using namespace gk::reports;
using gk::test::date;

namespace {

Table findings(const std::string& urgent) {
  return {"Findings: Fall 2026",
          {{"School"}, {"Screened", Kind::count}, {"Urgent", Kind::count}},
          {{"Alder Hollow", "66", "1"}, {"Cobble Lantern", "75", urgent}},
          {"A note."}};
}

class Shelf {
 public:
  Version issue(const std::vector<Table>& tables, const std::string& on) {
    const auto figures = figuresOf(tables);
    auto version = versionOf(issued_, figures);
    add(figures, version.number, on);
    return version;
  }
  void add(const std::string& figures, int number, const std::string& on) {
    issued_.push_back(make_.row(followup::IssuedReport{make_.id<roster::TermId>(), "funder", "",
                                                       number, date(on), figures, "", ""}));
  }

 private:
  test::Maker make_;
  std::vector<base::Recorded<followup::IssuedReport>> issued_;
};

} // namespace

TEST_CASE("A report that is issued again says what differs from the version before", "[case-72]") {
  Shelf shelf;
  CHECK(shelf.issue({findings("2")}, "2026-11-17").words == "Version 1");
  CHECK(shelf.issue({findings("2")}, "2026-11-18").words ==
        "Version 1 of November 17, 2026, printed again");
  const auto second = shelf.issue({findings("3")}, "2026-11-19");
  CHECK(second.number == 2);
  CHECK(second.words == "Version 2, differs from version 1 of November 18, 2026 by 1 figure: "
                        "Findings, Cobble Lantern, Urgent: 2 -> 3");
  CHECK(shortVersion(second.words) == "version 2");
}

TEST_CASE("The day in a title and the notes are no figures", "[case-72]") {
  Shelf shelf;
  auto table = findings("2");
  shelf.issue({table}, "2026-11-17");
  table.title = "Findings: Fall 2026, as of another day";
  table.notes.clear();
  CHECK(shelf.issue({table}, "2026-11-18").number == 1);
}

TEST_CASE("Rows and parts that are new or gone are named and a long list is cut short",
          "[case-72]") {
  auto after = findings("2");
  after.rows.front() = {"Elderbrook", "55", "0"};
  const auto found = differences(figuresOf(std::vector{findings("2")}),
                                 figuresOf(std::vector{after, Table{"Services", {}, {}, {}}}));
  std::vector<std::string> where;
  for (const auto& one : found)
    where.push_back(one.where);
  CHECK(where == std::vector<std::string>{"Findings, Elderbrook is new",
                                          "Findings, Alder Hollow is gone",
                                          "the part Services is new"});
  Shelf shelf;
  Table many{"Many", {{"What"}, {"Number", Kind::count}}, {}, {}};
  for (int i = 0; i < 9; ++i)
    many.rows.push_back({"Row " + std::to_string(i), "1"});
  shelf.issue({many}, "2026-11-17");
  for (auto& row : many.rows)
    row[1] = "2";
  const auto words = shelf.issue({many}, "2026-11-18").words;
  CHECK(words.find("by 9 figures: Many, Row 0, Number: 1 -> 2; ") != std::string::npos);
  CHECK(words.ends_with("; and 5 more"));
}

TEST_CASE("Rows of one name are told apart and a group is part of the name") {
  Table table{"Key figures",
              {{.heading = "Part", .group = true}, {"Figure"}, {"Number", Kind::count}},
              {},
              {}};
  table.rows = {
      {"Services", "Teeth", "4"}, {"Retention", "Teeth", "7"}, {"Retention", "Teeth", "8"}};
  auto after = table;
  after.rows[2][2] = "9";
  const auto found = differences(figuresOf(std::vector{table}), figuresOf(std::vector{after}));
  REQUIRE(found.size() == 1);
  CHECK(found.front() == Difference{"Key figures, Retention, Teeth (2), Number", "8", "9"});
}

TEST_CASE("Versions of one number from two laptops keep it and the next takes the place of both",
          "[case-72]") {
  Shelf shelf;
  shelf.issue({findings("2")}, "2026-11-17");
  shelf.add(figuresOf(std::vector{findings("3")}), 2, "2026-11-18"); // one laptop
  shelf.add(figuresOf(std::vector{findings("4")}), 2, "2026-11-19"); // the other
  const auto third = shelf.issue({findings("4")}, "2026-11-20");
  CHECK(third.number == 3);
  CHECK(third.words == "Version 3, the same as version 2 of November 19, 2026. It also takes the "
                       "place of another version 2 of November 18, 2026, made on another laptop");
  CHECK(shelf.issue({findings("4")}, "2026-11-21").words ==
        "Version 3 of November 20, 2026, printed again");
}

TEST_CASE("Words with tabs and line ends come back from kept lines") {
  const std::vector<std::string> words{"a\tb", "c\\d", "e\nf", ""};
  CHECK(fromKeptLines(keptLine(words) + keptLine({"g"})) ==
        std::vector<std::vector<std::string>>{words, {"g"}});
}

TEST_CASE("The same counts shown in another way are no new version, and other counts are",
          "[case-72]") {
  test::SampleTerm term;
  std::vector<roster::SchoolId> schools;
  for (const auto* name : {"Alder Hollow", "Brindle Quay", "Cobble Lantern"}) {
    schools.push_back(term.school(name, 100));
    const auto day = term.day(schools.back(), "2026-10-06");
    for (int i = 0; i < 14; ++i)
      term.screen(term.child(schools.back()), day);
  }
  test::Maker make;
  std::vector<base::Recorded<followup::IssuedReport>> issued;
  const auto issue = [&](const Groups& groups, int under) {
    const auto made = publish(term.totals(), *SuppressionRule::under(under), {}, groups);
    const auto figures = figuresOf(made.tables);
    const auto release = toLines(made.release);
    auto version = versionOf(issued, figures, release);
    issued.push_back(
        make.row(followup::IssuedReport{make.id<roster::TermId>(), "published", "", version.number,
                                        date("2026-11-17"), figures, "", release}));
    return version;
  };
  const auto totals = term.totals();
  const Groups two{{keyOf(totals.schools[0]), keyOf(totals.schools[1])}};
  CHECK(issue({}, 10).number == 1);
  CHECK(issue(two, 10).words == "Version 1 of November 17, 2026, printed again");
  CHECK(issue({}, 20).words == "Version 1 of November 17, 2026, printed again");
  const auto day = term.day(schools[2], "2026-10-07");
  for (int i = 0; i < 12; ++i)
    term.screen(term.child(schools[2]), day);
  const auto second = issue(two, 10);
  INFO(second.words);
  CHECK(second.number == 2);
  CHECK(second.words.find("takes the place") == std::string::npos);
}

TEST_CASE("A release comes back from its lines and damaged lines are refused") {
  test::SampleTerm term;
  const auto school = term.school("Alder\tHollow", 100);
  term.screen(term.child(school), term.day(school, "2026-10-06"));
  auto release = publish(term.totals()).release;
  auto& all = release.indicators.emplace_back();
  for (std::size_t i = 0; i < base::enumCount<IndicatorFigure>; ++i)
    all.cells[static_cast<IndicatorFigure>(i)] = {static_cast<int>(i), Showing::fewer};
  CHECK(releaseFrom(toLines(release)) == release);
  auto torn = release;
  torn.indicators.front().cells.erase(IndicatorFigure::treated);
  CHECK_FALSE(releaseFrom(toLines(torn)).has_value());
  torn = release;
  torn.indicators.front().schools = {"K"};
  CHECK_FALSE(releaseFrom(toLines(torn)).has_value());
  CHECK_FALSE(releaseFrom(toLines(release) + "cell\tscreened\tmany\tnumber\n").has_value());
  CHECK_FALSE(releaseFrom("under\t2\n").has_value());
  CHECK_FALSE(releaseFrom("").has_value());
}

TEST_CASE("Who was sealed without a screening has a column of its own, and no share of need",
          "[case-515]") {
  // Six schools; at each so many more were resealed at a recheck and not screened.
  const auto with = [](int unscreened) {
    auto totals = test::county();
    for (auto& school : totals.schools) {
      school.sealed += unscreened;
      school.sealedUnscreened = unscreened;
      school.firstMolars += unscreened;
    }
    totals.total = sumOf(totals.schools);
    return publish(totals, SuppressionRule{}).tables.at(1);
  };
  const auto cell = [](const Table& table, std::size_t row, const std::string& heading) {
    const auto at = std::ranges::find(table.columns, heading, &Column::heading);
    REQUIRE(at != table.columns.end());
    return table.rows.at(row).at(static_cast<std::size_t>(at - table.columns.begin()));
  };
  const auto none = with(0);
  for (const auto& column : none.columns)
    CHECK(column.heading != "Sealed, screened");
  const auto some = with(12); // of all: 81 screened and sealed of 167 needing, 72 others
  CHECK(cell(some, 6, "Sealed") == "153");
  CHECK(cell(some, 6, "Sealed, screened") == "81");
  CHECK(cell(some, 6, "% of needing") == "48.5");
  CHECK(some.notes.front().find("without a screening") != std::string::npos);
  const auto few = with(3); // three are a count of three: no school shows both
  for (std::size_t row = 0; row < 6; ++row) {
    const auto isCount = [&](const char* heading) {
      return cell(few, row, heading).as<Count>() != nullptr;
    };
    CHECK_FALSE((isCount("Sealed") && isCount("Sealed, screened")));
  }
}
