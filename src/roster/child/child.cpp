#include "roster/child/child.h"

#include "base/text/text.h"

#include <algorithm>
#include <cmath>

namespace gk::roster {

using base::Error;
using base::ErrorCode;
using base::Result;

namespace {

bool allDigits(std::string_view text) {
  return !text.empty() && std::ranges::all_of(text, [](char c) { return c >= '0' && c <= '9'; });
}

/// ISO/IEC 7064:2003, MOD 11,10 (hybrid system): the digit that brings the running product to 1.
char checkDigit(std::string_view digits) {
  int product = 10;
  for (char c : digits) {
    int sum = (product + (c - '0')) % 10;
    if (sum == 0) sum = 10;
    product = sum * 2 % 11;
  }
  return static_cast<char>('0' + (11 - product) % 10);
}

} // namespace

double approximateAge(BirthMonth birth, base::Date on) {
  const auto middle = base::Date::of(birth.year, birth.month, 15);
  base::require(middle.has_value(), "a birth month that does not exist");
  return base::yearsBetween(*middle, on);
}

std::string withCheckDigit(std::string_view digits) {
  base::require(allDigits(digits), "a child number is made of digits");
  return std::string(digits) + "-" + checkDigit(digits);
}

Result<std::string> parseChildNumber(std::string_view text) {
  std::string digits(base::trim(text));
  if (digits.size() > 2 && digits[digits.size() - 2] == '-') digits.erase(digits.size() - 2, 1);
  // What was typed is not repeated: it may be a name in the wrong box.
  const Error bad{ErrorCode::textMalformed,
                  "that is not a student number; type it again as on the slip, like 1043-0"};
  constexpr std::size_t longest = 18; // as the schema has it
  if (digits.size() < 2 || digits.size() > longest || !allDigits(digits)) return bad;
  const char check = digits.back();
  digits.pop_back();
  if (checkDigit(digits) != check) return bad;
  return withCheckDigit(digits);
}

BirthVerdict judgeBirthDate(base::Date birth, std::string_view grade, base::Date on) {
  const int age = base::ageInYears(birth, on);
  if (birth > on || age < 3 || age > 19) return BirthVerdict::impossible;
  const auto number = gradeNumber(grade);
  if (!number) return BirthVerdict::askUnusualForGrade;
  const bool usual = age >= *number + 5 - 2 && age <= *number + 6 + 2;
  return usual ? BirthVerdict::fine : BirthVerdict::askUnusualForGrade;
}

std::vector<base::Date> plausibleReadings(const base::DateReadings& readings,
                                          std::string_view grade, base::Date on) {
  std::vector<base::Date> dates{readings.monthFirst};
  if (readings.dayFirst) dates.push_back(*readings.dayFirst);
  std::erase_if(dates, [&](base::Date date) {
    return judgeBirthDate(date, grade, on) == BirthVerdict::impossible;
  });
  const auto usualAge = gradeNumber(grade).value_or(0) + 5.75; // mid-year; common practice
  std::ranges::stable_sort(dates, {}, [&](base::Date date) {
    return std::abs(base::yearsBetween(date, on) - usualAge);
  });
  return dates;
}

bool sameName(std::string_view one, std::string_view other) {
  const auto name = base::folded(one);
  return !name.empty() && name == base::folded(other);
}

} // namespace gk::roster
