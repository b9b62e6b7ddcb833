#pragma once

#include "base/result.h"

#include <chrono>
#include <compare>
#include <optional>
#include <string>
#include <string_view>

namespace gk::base {

/// A day that exists in the Gregorian calendar, years 1900-2199.
class Date {
 public:
  /// "2026-11-17"; any other shape or a day that does not exist is `dateMalformed`.
  static Result<Date> parse(std::string_view iso);
  /// Fails with `dateMalformed` when there is no such day.
  static Result<Date> of(int year, unsigned month, unsigned day);
  /// The first or the last of those years' days for one before or after them, so that no arithmetic
  /// on what a file or a clock says leaves the calendar.
  static Date fromDays(std::chrono::sys_days days);

  [[nodiscard]] std::string iso() const;
  /// "November 17, 2026".
  [[nodiscard]] std::string words() const;
  /// "Nov 17, 2026", where room is short.
  [[nodiscard]] std::string shortWords() const;
  /// "Tuesday".
  [[nodiscard]] std::string weekday() const;

  [[nodiscard]] int year() const { return int{ymd_.year()}; }
  [[nodiscard]] unsigned month() const { return unsigned{ymd_.month()}; }
  [[nodiscard]] unsigned day() const { return unsigned{ymd_.day()}; }
  [[nodiscard]] std::chrono::sys_days days() const { return ymd_; }

  [[nodiscard]] Date plusDays(int count) const;
  /// The same day of a later month, or that month's last day when it is shorter.
  [[nodiscard]] Date plusMonths(int count) const;
  [[nodiscard]] Date endOfMonth() const;

  auto operator<=>(const Date&) const = default;

 private:
  explicit Date(std::chrono::year_month_day ymd) : ymd_(ymd) {}
  std::chrono::year_month_day ymd_;
};

/// Positive when `to` is later.
int daysBetween(Date from, Date to);

/// Completed years by the calendar; one born on 29 February turns a year older on 1 March of a
/// common year. Negative when `on` is before birth.
int ageInYears(Date birth, Date on);

/// Elapsed time in years of 365.25 days, for exposure times in estimates.
double yearsBetween(Date from, Date to);

/// "2027-03", "0327", "03/27" and "03/2027" mean March 31, 2027; a whole date means itself.
Result<Date> parseExpiry(std::string_view text);

/// "Nov 17, 2026", "November 17, 2026" and "17 Nov 2026": a date with its month by name.
Result<Date> parseNamedMonth(std::string_view text);

/// What can be read one way alone: "2026-11-17", or its month by name.
Result<Date> parsePlainDate(std::string_view text);

/// "14:05" and "2:05 PM".
Result<std::chrono::minutes> parseClock(std::string_view text);

/// "10:42 AM" of the minutes since midnight.
std::string clockWords(int minutesOfDay);

/// `text` with its dates, and the times behind them, as a person reads them: "2026-11-17 10:42"
/// becomes "Nov 17, 2026, 10:42 AM". The rest stays.
std::string datesToRead(std::string_view text);

/// Both readings of a numeric date such as "03/04/2019" when they differ and both exist.
struct DateReadings {
  Date monthFirst;
  std::optional<Date> dayFirst;
};

/// Reads "M/D/YYYY" and, where it is another day, "D/M/YYYY". When only day-first exists it is
/// given as `monthFirst` alone, since nothing is left to ask.
Result<DateReadings> parseNumericDate(std::string_view text);

} // namespace gk::base
