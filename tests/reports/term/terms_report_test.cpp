#include "reports/sample.h"
#include "reports/term/terms_report.h"

#include <algorithm>
#include <catch2/catch.hpp>

namespace gk::test {

using namespace gk::reports;

namespace {

/// A term of one school, with counts alone.
TermTotals termOf(const std::string& name, const std::string& start, roster::SchoolId school,
                  int screened, int needing) {
  TermTotals out{.term = name,
                 .start = date(start),
                 .end = date(start).plusMonths(4),
                 .asOf = date(start).plusMonths(4),
                 .targets = {},
                 .window = {},
                 .schools = {},
                 .total = {},
                 .retention = {},
                 .attackRate = {},
                 .averted = {},
                 .overrides = {}};
  Participation one{.school = "Fern Gate", .id = school, .enrolled = 2 * screened};
  one.consented = screened;
  one.screened = screened;
  one.needing = needing;
  out.schools = {one};
  out.total = sumOf(out.schools);
  return out;
}

std::string cell(const Table& table, std::size_t row, const std::string& heading) {
  const auto at = std::ranges::find(table.columns, heading, &Column::heading);
  REQUIRE(at != table.columns.end());
  return table.rows.at(row).at(static_cast<std::size_t>(at - table.columns.begin())).text();
}

} // namespace

TEST_CASE("terms stand side by side, the oldest first, each with its own shares") {
  Maker make;
  const auto school = make.id<roster::SchoolId>();
  const std::vector<TermTotals> terms{termOf("Fall 2025", "2025-09-08", school, 80, 60),
                                      termOf("Spring 2026", "2026-01-12", school, 40, 10)};
  const auto tables = termsReport(terms);
  REQUIRE(tables.size() == 2);
  REQUIRE(tables[0].rows.size() == 2);
  CHECK(cell(tables[0], 0, "Term") == "Fall 2025");
  CHECK(cell(tables[0], 0, "Needing, % of screened") == "75.0");
  CHECK(cell(tables[0], 1, "Needing, % of screened") == "25.0");
  CHECK(cell(tables[0], 1, "Consented, % of enrolled") == "50.0");
  CHECK(cell(tables[1], 1, "School") == "Fern Gate");
  REQUIRE(tables[0].plot.has_value());
  CHECK(tables[0].plot->x.names == std::vector<std::string>{"Fall 2025", "Spring 2026"});
}

TEST_CASE("a term without a figure leaves a gap, never a zero") {
  Maker make;
  const auto school = make.id<roster::SchoolId>();
  auto first = termOf("Fall 2025", "2025-09-08", school, 80, 60);
  auto second = termOf("Spring 2026", "2026-01-12", school, 0, 0);
  second.total.enrolled.reset();
  second.schools.front().enrolled.reset();
  const auto tables = termsReport(std::vector{first, second});
  CHECK(cell(tables[0], 1, "Enrolled") == "unknown");
  CHECK(cell(tables[0], 1, "Needing, % of screened") == "–");
  CHECK(cell(tables[0], 1, "Fully retained, %") == "–");
  for (const auto& series : tables[0].plot->series)
    CHECK(series.points.size() == 1);
  CHECK(tables[1].rows.size() == 1); // nothing was done there in spring
}

TEST_CASE("years side by side say years wherever terms would say terms", "[case-412]") {
  Maker make;
  const auto school = make.id<roster::SchoolId>();
  const std::vector<TermTotals> years{termOf("School year 2025-26", "2025-08-01", school, 80, 60),
                                      termOf("School year 2026-27", "2026-08-01", school, 40, 10)};
  const auto tables = termsReport(years, SideBySide::years);
  REQUIRE(tables.size() == 2);
  CHECK(tables[0].title == "Years side by side");
  CHECK(tables[1].title == "Schools, year by year");
  CHECK(cell(tables[0], 1, "Year") == "School year 2026-27");
  CHECK(cell(tables[1], 0, "Year") == "School year 2025-26");
  REQUIRE(tables[0].plot);
  CHECK(tables[0].plot->says.find("from year to year") != std::string::npos);
  CHECK(tables[0].notes.front().find("each student once in it") != std::string::npos);
  for (const auto& note : tables[0].notes)
    if (note != tables[0].notes.front()) CHECK(note.find("term") == std::string::npos);
  const auto ofTerms = termsReport(years);
  for (const auto& note : ofTerms.front().notes)
    CHECK(note.find("year") == std::string::npos);
}

TEST_CASE("with a school chosen the terms and their picture are of it alone", "[case-453]") {
  Maker make;
  const auto here = make.id<roster::SchoolId>();
  const auto there = make.id<roster::SchoolId>();
  std::vector<TermTotals> terms{termOf("Fall 2025", "2025-09-08", here, 80, 60),
                                termOf("Spring 2026", "2026-01-12", here, 0, 0),
                                termOf("Fall 2026", "2026-09-07", here, 40, 10)};
  for (auto& term : terms) {
    Participation other{.school = "Alder Hollow", .id = there, .enrolled = 100};
    other.consented = other.screened = other.needing = 50;
    term.schools.push_back(other);
    term.total = sumOf(term.schools);
  }
  auto& kept = terms[2].retention.schools.emplace_back();
  kept.school = here;
  kept.assessable = kept.examined = 8;
  kept.whole95 = estimates::retention(std::vector<estimates::Cluster>{{4, 4}, {4, 2}}).value();

  const auto tables = termsReport(terms, SideBySide::terms, here);
  REQUIRE(tables.size() == 1);
  const auto& table = tables.front();
  CHECK(table.title == "Terms side by side: Fern Gate");
  CHECK(keyOf(table) == "terms_side_by_side"); // files call it the same
  REQUIRE(table.rows.size() == 2);             // nothing was done there in spring, and it says so
  CHECK(cell(table, 0, "Needing, % of screened") == "75.0");
  CHECK(cell(table, 1, "Screened") == "40");
  CHECK(cell(table, 1, "Fully retained, %") == "75.0");
  REQUIRE(table.plot);
  CHECK(table.plot->says.starts_with("Fern Gate. "));
  CHECK(table.plot->x.names.size() == 3);
  for (const auto& series : table.plot->series)
    for (const auto& point : series.points)
      CHECK(point.x != 1); // a gap, never a zero
  CHECK(std::ranges::any_of(table.notes, [](const auto& note) {
    return note.find("nothing was recorded here has no row") != std::string::npos;
  }));
  CHECK(std::ranges::any_of(table.notes, [](const auto& note) {
    return note.find("small numbers") != std::string::npos;
  }));
  // Renamed since: called as in the newest term that knows it.
  terms[2].schools.front().school = "Fern Gate Primary";
  CHECK(termsReport(terms, SideBySide::terms, here).front().title ==
        "Terms side by side: Fern Gate Primary");
  // The whole program's is as it was.
  CHECK(termsReport(terms).front().title == "Terms side by side");
}

TEST_CASE("one term alone has no picture, and no term at all an empty table") {
  Maker make;
  const auto school = make.id<roster::SchoolId>();
  const std::vector<TermTotals> one{termOf("Fall 2025", "2025-09-08", school, 80, 60)};
  CHECK_FALSE(termsReport(one).front().plot.has_value());
  CHECK(termsReport({}).front().rows.empty());
}

} // namespace gk::test
