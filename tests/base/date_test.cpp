#include "base/time/date.h"

#include <catch2/catch.hpp>

using namespace gk::base;

namespace {

Date on(std::string_view iso) {
  return Date::parse(iso).value();
}

} // namespace

TEST_CASE("A date is read and written as year month day") {
  CHECK(on("2026-11-17").iso() == "2026-11-17");
  CHECK(on("2026-11-17").words() == "November 17, 2026");
  CHECK(on("2026-11-17").weekday() == "Tuesday");
  CHECK(on("2024-02-29").weekday() == "Thursday");
}

TEST_CASE("A day that does not exist or another shape is refused") {
  const auto* text = GENERATE("2026-02-29", "1900-02-29", "2026-13-01", "2026-00-10", "2026-04-31",
                              "2026-1-1", "17/11/2026", "2026-11-17 ", "", "1899-12-31",
                              "2200-01-01", "2026--1-01", "2026-11-+7");
  const auto date = Date::parse(text);
  REQUIRE_FALSE(date);
  CHECK(date.error().code == ErrorCode::dateMalformed);
}

TEST_CASE("Century years are leap years only every fourth time") {
  CHECK_FALSE(Date::of(1900, 2, 29));
  CHECK(Date::of(2000, 2, 29));
  CHECK_FALSE(Date::of(2100, 2, 29));
}

TEST_CASE("Numbers too large for a month or a day do not wrap round to one that fits") {
  CHECK_FALSE(Date::of(2026, 256 + 3, 1));
  CHECK_FALSE(Date::of(2026, 3, 256 + 1));
  CHECK_FALSE(parseNumericDate("259/1/2019"));
  CHECK_FALSE(parseNumericDate("1/1/4294969315"));
}

TEST_CASE("A month later is the same day or the last day of a shorter month") {
  CHECK(on("2026-01-31").plusMonths(1) == on("2026-02-28"));
  CHECK(on("2028-01-31").plusMonths(1) == on("2028-02-29"));
  CHECK(on("2026-11-17").plusMonths(6) == on("2027-05-17"));
  CHECK(on("2026-08-31").plusMonths(18) == on("2028-02-29"));
}

TEST_CASE("Days are counted across months and leap years") {
  CHECK(on("2027-12-31").plusDays(1) == on("2028-01-01"));
  CHECK(daysBetween(on("2028-02-28"), on("2028-03-01")) == 2);
  CHECK(daysBetween(on("2027-02-28"), on("2027-03-01")) == 1);
  CHECK(daysBetween(on("2026-11-17"), on("2026-11-10")) == -7);
}

TEST_CASE("One born on 29 February turns a year older on 1 March of a common year", "[case-20]") {
  const Date birth = on("2020-02-29");
  CHECK(ageInYears(birth, on("2026-02-28")) == 5);
  CHECK(ageInYears(birth, on("2026-03-01")) == 6);
  CHECK(ageInYears(birth, on("2028-02-28")) == 7);
  CHECK(ageInYears(birth, on("2028-02-29")) == 8);
}

TEST_CASE("Age turns on the birthday itself and not by dividing days", "[case-20]") {
  // 2191 days are 5.9986 years of 365.25 days, yet it is the sixth birthday.
  CHECK(ageInYears(on("2017-03-01"), on("2023-03-01")) == 6);
  CHECK(yearsBetween(on("2017-03-01"), on("2023-03-01")) < 6.0);
  CHECK(ageInYears(on("2019-09-14"), on("2026-09-13")) == 6);
  CHECK(ageInYears(on("2019-09-14"), on("2026-09-14")) == 7);
  CHECK(ageInYears(on("2019-09-14"), on("2019-09-13")) == -1);
}

TEST_CASE("A month as expiry means its last day", "[case-24]") {
  CHECK(parseExpiry("2027-03").value() == on("2027-03-31"));
  CHECK(parseExpiry("2027-02").value() == on("2027-02-28"));
  CHECK(parseExpiry("2028-02").value() == on("2028-02-29"));
  CHECK(parseExpiry("2027-03-15").value() == on("2027-03-15"));
}

TEST_CASE("An expiry that is no month is refused without repeating what was typed", "[case-24]") {
  const auto expiry = parseExpiry("2027-13");
  REQUIRE_FALSE(expiry);
  CHECK(expiry.error().code == ErrorCode::dateMalformed);
  CHECK(expiry.error().detail.find("2027-13") == std::string::npos);
  // As packages print it, the month before the year.
  for (const auto* text : {"03/2027", "03/27", "03-2027", "0327"})
    CHECK(parseExpiry(text).value() == on("2027-03-31"));
  for (const auto* text : {"13/2027", "1327", "3/2027", "03/7", "003/27"})
    CHECK_FALSE(parseExpiry(text));
}

TEST_CASE("A numeric date that can be read two ways gives both", "[case-19]") {
  const auto read = parseNumericDate("03/04/2019").value();
  CHECK(read.monthFirst.words() == "March 4, 2019");
  REQUIRE(read.dayFirst);
  CHECK(read.dayFirst->words() == "April 3, 2019");
}

TEST_CASE("A numeric date with one possible reading leaves nothing to ask", "[case-19]") {
  const auto monthFirst = parseNumericDate("3/14/2019").value();
  CHECK(monthFirst.monthFirst == on("2019-03-14"));
  CHECK_FALSE(monthFirst.dayFirst);

  const auto dayFirst = parseNumericDate("14/3/2019").value();
  CHECK(dayFirst.monthFirst == on("2019-03-14"));
  CHECK_FALSE(dayFirst.dayFirst);

  const auto same = parseNumericDate("5/5/2019").value();
  CHECK(same.monthFirst == on("2019-05-05"));
  CHECK_FALSE(same.dayFirst);
}

TEST_CASE("A numeric date takes hyphens and a year of two digits", "[case-417]") {
  CHECK(parseNumericDate("8-24-26").value().monthFirst == on("2026-08-24"));
  CHECK(parseNumericDate("3/14/19").value().monthFirst == on("2019-03-14"));
  CHECK(parseNumericDate("3/14/97").value().monthFirst == on("1997-03-14"));
  CHECK(parseNumericDate("12-18-2026").value().monthFirst == on("2026-12-18"));
}

TEST_CASE("A numeric date that exists in no reading is refused", "[case-19]") {
  const auto* text = GENERATE("13/14/2019", "2/30/2019", "0/1/2019", "1/2", "1/2/9", "1/2/019",
                              "a/2/2019", "1/2/2019/3", "1-2-3-19");
  const auto read = parseNumericDate(text);
  REQUIRE_FALSE(read);
  CHECK(read.error().code == ErrorCode::dateMalformed);
}

TEST_CASE("A date outside the years of the book is a bug when it is made from days") {
  CHECK(Date::fromDays(std::chrono::sys_days{std::chrono::days{0}}).iso() == "1970-01-01");
  CHECK(on("1900-01-01").plusDays(109'572) == on("2199-12-31"));
}

TEST_CASE("A person reads a date in words, and a file has it as year-month-day") {
  const auto date = gk::base::Date::parse("2026-11-07").value();
  CHECK(date.words() == "November 7, 2026");
  CHECK(date.shortWords() == "Nov 7, 2026");
  CHECK(date.iso() == "2026-11-07");
  CHECK(gk::base::datesToRead("2026-11-07") == "Nov 7, 2026");
  CHECK(gk::base::datesToRead("2026-11-07 14:05 phone: reached") ==
        "Nov 7, 2026, 2:05 PM phone: reached");
  CHECK(gk::base::datesToRead("spore test of 2026-11-07 passed") ==
        "spore test of Nov 7, 2026 passed");
  CHECK(gk::base::datesToRead("lot 2026-13-40, none").starts_with("lot 2026-13-40"));
}

TEST_CASE("A date and a time are taken as they are shown") {
  for (const auto* text :
       {"2026-11-07", "Nov 7, 2026", "November 7, 2026", "7 Nov 2026", "nov 7 2026"}) {
    INFO(text);
    const auto read = gk::base::parsePlainDate(text);
    REQUIRE(read);
    CHECK(read->iso() == "2026-11-07");
  }
  for (const auto* text : {"Nov 31, 2026", "No 7, 2026", "7, 2026", "Nov 7", "11/7/2026", ""})
    CHECK_FALSE(gk::base::parsePlainDate(text));
  CHECK(gk::base::clockWords(0) == "12:00 AM");
  CHECK(gk::base::clockWords(12 * 60 + 5) == "12:05 PM");
  for (const auto* text : {"14:05", "2:05 PM"})
    CHECK(gk::base::parseClock(text).value().count() == 14 * 60 + 5);
  CHECK(gk::base::parseClock("12:00 AM").value().count() == 0);
  for (const auto* text : {"24:00", "13:05 PM", "0:05 AM", "2:60 PM", "2 PM", "2:05 XM", ""})
    CHECK_FALSE(gk::base::parseClock(text));
}
