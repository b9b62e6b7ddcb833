#include "roster/child/child.h"
#include "roster/child/grade_now.h"

#include "base/random.h"
#include "forms.h"

#include <catch2/catch.hpp>

using namespace gk;
using namespace gk::roster;
using gk::roster::test::day;

namespace {

const auto clinicDay = day(2026, 11, 17);

} // namespace

TEST_CASE("The check digit is that of the standard's example") {
  // ISO/IEC 7064:2003, MOD 11,10: 0794 takes 5
  CHECK(withCheckDigit("0794") == "0794-5");
  CHECK(parseChildNumber("07945").value() == "0794-5");
}

TEST_CASE("The check digit catches every single wrong digit") {
  for (int number = 0; number < 10000; number += 7) {
    const auto right = withCheckDigit(std::to_string(number));
    REQUIRE(parseChildNumber(right).value() == right);
    for (std::size_t at = 0; at < right.size(); ++at) {
      if (right[at] == '-') continue;
      for (char digit = '0'; digit <= '9'; ++digit) {
        if (digit == right[at]) continue;
        auto wrong = right;
        wrong[at] = digit;
        INFO(right << " typed as " << wrong);
        REQUIRE_FALSE(parseChildNumber(wrong));
      }
    }
  }
}

TEST_CASE("A child number is read with or without its dash") {
  const auto right = withCheckDigit("1043");
  auto bare = right;
  bare.erase(4, 1);
  CHECK(parseChildNumber(bare).value() == right);
  CHECK(parseChildNumber(" " + right + " ").value() == right);
}

TEST_CASE("What is no child number is refused without repeating it") {
  const auto text = GENERATE("", "-", "0", "5", "--", "1-0-4-3-2", "10-432", "Mina", "10a32");
  const auto number = parseChildNumber(text);
  REQUIRE_FALSE(number);
  CHECK(number.error().code == base::ErrorCode::textMalformed);
  CHECK(number.error().detail.find("Mina") == std::string::npos);
}

TEST_CASE("Grades are K and 1 to 12") {
  CHECK(gradeNumber("K").value() == 0);
  CHECK(gradeNumber("k").value() == 0);
  CHECK(gradeNumber(" 2 ").value() == 2);
  CHECK(gradeNumber("12").value() == 12);
  for (auto text : {"", "0", "13", "-1", "2nd", "PK", "2.0", "two"}) {
    const auto grade = gradeNumber(text);
    REQUIRE_FALSE(grade);
    CHECK(grade.error().code == base::ErrorCode::textMalformed);
  }
}

TEST_CASE("A birth year typed wrong is impossible at three to nineteen", "[case-18]") {
  CHECK(judgeBirthDate(day(1999, 3, 4), "2", clinicDay) == BirthVerdict::impossible); // 27
  CHECK(judgeBirthDate(day(2024, 3, 4), "2", clinicDay) == BirthVerdict::impossible); // 2
  CHECK(judgeBirthDate(day(1997, 5, 1), "2", clinicDay) == BirthVerdict::impossible);
  CHECK(judgeBirthDate(day(2027, 1, 1), "2", clinicDay) == BirthVerdict::impossible);
  CHECK(judgeBirthDate(day(2023, 11, 17), "K", clinicDay) != BirthVerdict::impossible);
  CHECK(judgeBirthDate(day(2023, 11, 18), "K", clinicDay) == BirthVerdict::impossible);
  CHECK(judgeBirthDate(day(2006, 11, 18), "12", clinicDay) != BirthVerdict::impossible);
  CHECK(judgeBirthDate(day(2006, 11, 17), "12", clinicDay) == BirthVerdict::impossible);
}

TEST_CASE("An age over two years off the grade's asks and does not block", "[case-18]") {
  CHECK(judgeBirthDate(day(2019, 3, 4), "2", clinicDay) == BirthVerdict::fine);
  CHECK(judgeBirthDate(day(2021, 3, 4), "2", clinicDay) == BirthVerdict::fine);               // 5
  CHECK(judgeBirthDate(day(2022, 3, 4), "2", clinicDay) == BirthVerdict::askUnusualForGrade); // 4
  CHECK(judgeBirthDate(day(2016, 3, 4), "2", clinicDay) == BirthVerdict::fine);               // 10
  CHECK(judgeBirthDate(day(2015, 3, 4), "2", clinicDay) == BirthVerdict::askUnusualForGrade); // 11
  CHECK(judgeBirthDate(day(2019, 3, 4), "", clinicDay) == BirthVerdict::askUnusualForGrade);
}

TEST_CASE("A date that reads two ways is asked in words with the usual reading first",
          "[case-19]") {
  const auto readings = base::parseNumericDate("03/04/2019").value();
  const auto dates = plausibleReadings(readings, "2", clinicDay);
  REQUIRE(dates.size() == 2);
  CHECK(std::pair{dates[0].words(), dates[1].words()} ==
        std::pair<std::string, std::string>{"March 4, 2019", "April 3, 2019"});
}

TEST_CASE("The reading that fits the grade better comes first", "[case-19]") {
  // Usual for grade 2 in mid-November: born about February 2019
  const auto dates =
      plausibleReadings(base::parseNumericDate("12/02/2018").value(), "2", clinicDay);
  REQUIRE(dates.size() == 2);
  CHECK(dates[0] == day(2018, 12, 2));
  const auto older =
      plausibleReadings(base::parseNumericDate("12/02/2019").value(), "2", clinicDay);
  REQUIRE(older.size() == 2);
  CHECK(older[0] == day(2019, 2, 12));
}

TEST_CASE("A reading that no student can have is not offered", "[case-19]") {
  const auto one =
      plausibleReadings(base::parseNumericDate("12/02/2023").value(), "K", day(2026, 11, 17));
  REQUIRE(one.size() == 1);
  CHECK(one[0] == day(2023, 2, 12));
  CHECK(plausibleReadings(base::parseNumericDate("03/04/1997").value(), "2", clinicDay).empty());
  CHECK(plausibleReadings(base::parseNumericDate("17/04/2019").value(), "2", clinicDay) ==
        std::vector{day(2019, 4, 17)});
}

TEST_CASE("Two children of one name are noticed whatever the spelling", "[case-4][case-17]") {
  CHECK(sameName("Osei Brackwater", "osei brackwater"));
  CHECK(sameName("Ruben Castellane-Oake", "Rubén Castellane Oake"));
  CHECK(sameName("Dr. Selwyn O'Hartgrove", "Dr Selwyn O\u2019Hartgrove"));
  CHECK_FALSE(sameName("Nell Farrowgate", "Nils Farrowgate"));
  CHECK_FALSE(sameName("", ""));
  CHECK_FALSE(sameName("-", "'"));
}

TEST_CASE("Estimates know the age from the middle of the birth month only") {
  CHECK(approximateAge({2019, 3}, day(2026, 3, 15)) == Approx(7.0).margin(0.003));
}

TEST_CASE("A grade goes up with each first of July, and ends after 12", "[case-509]") {
  const auto then = *base::Date::of(2025, 9, 15);
  CHECK(gradeNow("2", then, *base::Date::of(2026, 6, 30)) == "2");
  CHECK(gradeNow("2", then, *base::Date::of(2026, 7, 1)) == "3");
  CHECK(gradeNow("K", then, *base::Date::of(2027, 9, 1)) == "2");
  CHECK(gradeNow("K", then, then) == "K");
  CHECK(gradeNow("12", then, *base::Date::of(2026, 9, 1)).empty());
  CHECK(gradeNow("2", then, *base::Date::of(2024, 9, 1)) == "2"); // a clock that went back
}
