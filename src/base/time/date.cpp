#include "base/time/date.h"

#include "base/text/text.h"

#include <algorithm>
#include <array>
#include <cstdio>
#include <vector>

namespace gk::base {

namespace {

constexpr std::array<std::string_view, 12> monthNames{
    "January", "February", "March",     "April",   "May",      "June",
    "July",    "August",   "September", "October", "November", "December"};

constexpr std::array<std::string_view, 7> weekdayNames{"Sunday",   "Monday", "Tuesday", "Wednesday",
                                                       "Thursday", "Friday", "Saturday"};

/// What was typed is not repeated: it may be of a child, or a name in the wrong box.
Error malformed() {
  return {ErrorCode::dateMalformed, "that is not a date; write year-month-day, like 2026-11-17"};
}

} // namespace

Result<Date> Date::of(int year, unsigned month, unsigned day) {
  const std::chrono::year_month_day ymd{std::chrono::year{year}, std::chrono::month{month},
                                        std::chrono::day{day}};
  // chrono keeps month and day in one byte each, so 259 would pass as 3.
  const bool fits = year >= 1900 && year <= 2199 && month <= 12 && day <= 31;
  if (!fits || !ymd.ok()) return malformed();
  return Date(ymd);
}

Result<Date> Date::parse(std::string_view iso) {
  if (iso.size() != 10 || iso[4] != '-' || iso[7] != '-') return malformed();
  const auto year = parseInt(iso.substr(0, 4));
  const auto month = parseInt(iso.substr(5, 2));
  const auto day = parseInt(iso.substr(8, 2));
  if (!year || !month || !day || *month < 0 || *day < 0) return malformed();
  auto date =
      of(static_cast<int>(*year), static_cast<unsigned>(*month), static_cast<unsigned>(*day));
  if (!date) return malformed();
  return date;
}

Date Date::fromDays(std::chrono::sys_days since) {
  namespace chrono = std::chrono;
  return Date(std::clamp(since, chrono::sys_days{chrono::year{1900} / 1 / 1},
                         chrono::sys_days{chrono::year{2199} / 12 / 31}));
}

std::string Date::iso() const {
  std::array<char, 40> buffer{};
  std::snprintf(buffer.data(), buffer.size(), "%04d-%02u-%02u", year(), month(), day());
  return buffer.data();
}

std::string Date::words() const {
  return std::string(monthNames.at(month() - 1)) + " " + std::to_string(day()) + ", " +
         std::to_string(year());
}

std::string Date::shortWords() const {
  return std::string(monthNames.at(month() - 1).substr(0, 3)) + " " + std::to_string(day()) + ", " +
         std::to_string(year());
}

std::string Date::weekday() const {
  return std::string(weekdayNames.at(std::chrono::weekday{days()}.c_encoding()));
}

Date Date::plusDays(int count) const {
  return fromDays(days() + std::chrono::days{count});
}

Date Date::plusMonths(int count) const {
  const auto moved = ymd_ + std::chrono::months{count};
  if (moved.ok()) return fromDays(moved);
  return fromDays(moved.year() / moved.month() / std::chrono::last);
}

Date Date::endOfMonth() const {
  return Date(ymd_.year() / ymd_.month() / std::chrono::last);
}

int daysBetween(Date from, Date to) {
  return static_cast<int>((to.days() - from.days()).count());
}

int ageInYears(Date birth, Date on) {
  const int years = on.year() - birth.year();
  const bool before =
      on.month() < birth.month() || (on.month() == birth.month() && on.day() < birth.day());
  return before ? years - 1 : years;
}

double yearsBetween(Date from, Date to) {
  return daysBetween(from, to) / 365.25;
}

Result<Date> parseExpiry(std::string_view text) {
  // As it is printed on a package: the month before the year.
  std::string digits;
  for (const char sign : text)
    if (sign >= '0' && sign <= '9') digits += sign;
  const bool isParted =
      text.size() == digits.size() + 1 && text.size() > 2 && (text[2] == '/' || text[2] == '-');
  const bool isMonthFirst =
      isParted ? digits.size() == 4 || digits.size() == 6 : text.size() == 4 && digits.size() == 4;
  if (isMonthFirst) {
    const auto year = digits.size() == 4 ? "20" + digits.substr(2) : digits.substr(2);
    return parseExpiry(year + "-" + digits.substr(0, 2));
  }
  if (text.size() != 7) return Date::parse(text);
  auto first = Date::parse(std::string(text) + "-01");
  if (!first) return malformed();
  return first->endOfMonth();
}

Result<Date> parseNamedMonth(std::string_view text) {
  std::string plain(text);
  std::ranges::replace(plain, ',', ' ');
  std::vector<std::string> parts;
  for (const auto part : split(plain, ' '))
    if (!part.empty()) parts.push_back(folded(part));
  if (parts.size() != 3) return malformed();
  const auto monthOf = [](const std::string& word) {
    for (unsigned i = 0; i < monthNames.size(); ++i)
      if (word.size() >= 3 && folded(monthNames[i]).starts_with(word)) return i + 1;
    return 0U;
  };
  const bool monthFirst = monthOf(parts[0]) > 0;
  const auto month = monthOf(parts[monthFirst ? 0 : 1]);
  const auto day = parseInt(parts[monthFirst ? 1 : 0]);
  const auto year = parseInt(parts[2]);
  if (month == 0 || !day || !year || *day < 1 || *day > 31) return malformed();
  return Date::of(static_cast<int>(*year), month, static_cast<unsigned>(*day));
}

Result<Date> parsePlainDate(std::string_view text) {
  auto iso = Date::parse(text);
  if (iso) return iso;
  return parseNamedMonth(text);
}

Result<std::chrono::minutes> parseClock(std::string_view text) {
  const Error wrong{ErrorCode::dateMalformed,
                    "type the time as the clock shows it: 2:05 PM or 14:05"};
  const auto words = split(text, ' ');
  const auto parts = split(words.front(), ':');
  if (parts.size() != 2 || words.size() > 2) return wrong;
  const auto hour = parseInt(parts[0]);
  const auto minute = parseInt(parts[1]);
  const bool isHalf = words.size() == 2;
  if (!hour || !minute || *minute < 0 || *minute > 59) return wrong;
  if (isHalf ? *hour < 1 || *hour > 12 : *hour < 0 || *hour > 23) return wrong;
  const bool isAfternoon = isHalf && words[1] == "PM";
  if (isHalf && !isAfternoon && words[1] != "AM") return wrong;
  const auto since = isHalf ? *hour % 12 + (isAfternoon ? 12 : 0) : *hour;
  return std::chrono::minutes(since * 60 + *minute);
}

std::string clockWords(int minutesOfDay) {
  const int hour = minutesOfDay / 60;
  std::array<char, 16> buffer{};
  std::snprintf(buffer.data(), buffer.size(), "%d:%02d %s", hour % 12 == 0 ? 12 : hour % 12,
                minutesOfDay % 60, hour < 12 ? "AM" : "PM");
  return buffer.data();
}

std::string datesToRead(std::string_view text) {
  constexpr std::size_t dateLength = 10;
  constexpr std::size_t timeLength = 6; // " 10:42"
  std::string out;
  while (!text.empty()) {
    const auto date = Date::parse(text.substr(0, dateLength));
    if (!date) {
      out += text.front();
      text.remove_prefix(1);
      continue;
    }
    out += date->shortWords();
    text.remove_prefix(dateLength);
    const auto hour = parseInt(text.substr(std::min<std::size_t>(1, text.size()), 2));
    const auto minute = parseInt(text.substr(std::min<std::size_t>(4, text.size()), 2));
    if (text.size() >= timeLength && text[0] == ' ' && text[3] == ':' && hour && minute) {
      out += ", " + clockWords(static_cast<int>(*hour * 60 + *minute));
      text.remove_prefix(timeLength);
    }
  }
  return out;
}

Result<DateReadings> parseNumericDate(std::string_view text) {
  std::string plain(text);
  std::ranges::replace(plain, '-', '/');
  const auto parts = split(plain, '/');
  if (parts.size() != 3 || text.size() > 10 || parts[2].size() > 4) return malformed();
  const auto first = parseInt(parts[0]);
  const auto second = parseInt(parts[1]);
  const auto year = parseInt(parts[2]);
  if (!first || !second || !year || *first < 1 || *second < 1) return malformed();
  // A year of two digits is within the lives of those who are in a school, or work in one.
  const auto isShort = parts[2].size() == 2 && *year >= 0;
  const auto y = static_cast<int>(!isShort ? *year : *year < 69 ? *year + 2000 : *year + 1900);
  const auto a = static_cast<unsigned>(*first);
  const auto b = static_cast<unsigned>(*second);
  const auto monthFirst = Date::of(y, a, b);
  const auto dayFirst = Date::of(y, b, a);
  if (!monthFirst && !dayFirst) return malformed();
  if (!monthFirst) return DateReadings{*dayFirst, std::nullopt};
  if (!dayFirst || *dayFirst == *monthFirst) return DateReadings{*monthFirst, std::nullopt};
  return DateReadings{*monthFirst, *dayFirst};
}

} // namespace gk::base
