#include "roster/program/program_year.h"

#include <catch2/catch.hpp>

using namespace gk::roster;
using gk::base::ErrorCode;

namespace {

ProgramYear yearOf(const std::string& start, const std::string& end) {
  return {" 2026-27 ", YearKind::fiscal, *gk::base::Date::parse(start),
          *gk::base::Date::parse(end)};
}

} // namespace

TEST_CASE("A year has a name, ends after it starts and is at most a year and a week") {
  const auto year = soundYear(yearOf("2026-07-01", "2027-06-30"));
  REQUIRE(year);
  CHECK(year->name == "2026-27");
  CHECK(wordsOf(*year) == "Fiscal year 2026-27");
  CHECK(soundYear(yearOf("2026-06-29", "2027-07-04"))); // 53 weeks
  CHECK(soundYear(yearOf("2026-07-01", "2026-07-01")).error().code == ErrorCode::ruleDate);
  CHECK(soundYear(yearOf("2026-07-01", "2027-07-31")).error().code == ErrorCode::ruleDate);
  auto unnamed = yearOf("2026-07-01", "2027-06-30");
  unnamed.name = " ";
  CHECK(soundYear(unnamed).error().code == ErrorCode::textMalformed);
}

TEST_CASE("A term overlaps a year when a day is in both") {
  const auto year = yearOf("2026-07-01", "2027-06-30");
  const auto on = [](const char* iso) { return *gk::base::Date::parse(iso); };
  CHECK(year.overlaps(on("2027-06-30"), on("2027-12-01")));
  CHECK(year.overlaps(on("2026-01-01"), on("2026-07-01")));
  CHECK_FALSE(year.overlaps(on("2027-07-01"), on("2027-12-01")));
}
