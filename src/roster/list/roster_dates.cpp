#include "base/text/text.h"
#include "roster/list/roster_cells.h"

#include <algorithm>
#include <array>

namespace gk::roster {

using base::Date;

namespace {

constexpr int earliestYear = 1990; ///< of a date in a school's list
constexpr int latestYear = 2100;
/// Spreadsheets count days from 1899-12-30 (ECMA-376 part 1, 18.17.4.1: the 1900 date base, with
/// its 29 February 1900); these are 1990 to 2050.
constexpr std::int64_t firstSerial = 32874;
constexpr std::int64_t lastSerial = 54789;

bool onlyDigits(std::string_view text) {
  return !text.empty() && std::ranges::all_of(text, [](char c) { return c >= '0' && c <= '9'; });
}

std::optional<Date> dayOf(std::int64_t year, std::int64_t month, std::int64_t day) {
  if (year < earliestYear || year > latestYear || month < 1 || month > 12 || day < 1 || day > 31)
    return std::nullopt;
  const auto date =
      Date::of(static_cast<int>(year), static_cast<unsigned>(month), static_cast<unsigned>(day));
  return date ? std::optional(*date) : std::nullopt;
}

std::int64_t digits(std::string_view text) {
  return base::parseInt(text).value_or(-1);
}

/// "19" of 2019, and in 2026 "27" of 1927, which no child is.
std::int64_t wholeYear(std::string_view text, Date today) {
  const auto year = digits(text);
  if (text.size() != 2) return year;
  const auto century = today.year() / 100 * 100;
  return year <= today.year() % 100 ? century + year : century - 100 + year;
}

/// English and Spanish, the first three letters; `set` is September in some lists.
std::int64_t monthNamed(std::string_view word) {
  constexpr std::array<std::string_view, 18> names{"jan", "feb", "mar", "apr", "may", "jun",
                                                   "jul", "aug", "sep", "oct", "nov", "dec",
                                                   "ene", "abr", "ago", "dic", "set", "mayo"};
  constexpr std::array<int, 18> months{1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 1, 4, 8, 12, 9, 5};
  constexpr std::array<std::string_view, 24> whole{
      "january", "february", "march",      "april",   "may",       "june",
      "july",    "august",   "september",  "october", "november",  "december",
      "enero",   "febrero",  "marzo",      "abril",   "mayo",      "junio",
      "julio",   "agosto",   "septiembre", "octubre", "noviembre", "diciembre"};
  const bool isKnown = word.size() == 3 || word == "sept" ||
                       std::ranges::any_of(whole, [&](auto name) { return name == word; });
  if (!isKnown) return 0;
  for (std::size_t i = 0; i < names.size(); ++i)
    if (word.starts_with(names.at(i).substr(0, 3))) return months.at(i);
  return 0;
}

/// Without a time of day behind it: "2019-03-04T00:00:00Z", "3/4/2019 12:00:00 AM".
std::string_view withoutTime(std::string_view text) {
  const auto colon = text.find(':');
  if (colon == std::string_view::npos) return text;
  const auto gap = text.find_last_of(" Tt", colon);
  return gap == std::string_view::npos ? text : base::trim(text.substr(0, gap));
}

/// "22MAY2019" as "22 MAY 2019".
std::string partedMonth(std::string_view text) {
  const auto isLetter = [](char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); };
  const auto from = std::ranges::find_if(text, isLetter);
  const auto until = std::find_if_not(from, text.end(), isLetter);
  const std::string_view day(text.begin(), from);
  const std::string_view month(from, until);
  const std::string_view year(until, text.end());
  const bool isOne = onlyDigits(day) && day.size() <= 2 && month.size() >= 3 && onlyDigits(year) &&
                     (year.size() == 2 || year.size() == 4);
  if (!isOne) return std::string(text);
  return std::string(day) + " " + std::string(month) + " " + std::string(year);
}

bool isWeekday(std::string_view word) {
  constexpr std::array<std::string_view, 14> whole{
      "monday", "tuesday", "wednesday", "thursday", "friday",  "saturday", "sunday",
      "lunes",  "martes",  "miercoles", "jueves",   "viernes", "sabado",   "domingo"};
  constexpr std::size_t leastBegun = 2; ///< "Mo", "Thurs"
  return word.size() >= leastBegun &&
         std::ranges::any_of(whole, [&](auto day) { return day.starts_with(word); });
}

std::vector<std::string> partsOf(std::string_view text) {
  // Dashes of every length part a date as a hyphen does.
  std::string hyphens(text);
  for (const std::string_view dash : {"\xE2\x80\x90", "\xE2\x80\x91", "\xE2\x80\x92",
                                      "\xE2\x80\x93", "\xE2\x80\x94", "\xE2\x88\x92"})
    for (auto at = hyphens.find(dash); at != std::string::npos; at = hyphens.find(dash, at))
      hyphens.replace(at, dash.size(), "-");
  std::string plain;
  for (const char c : partedMonth(hyphens))
    plain += std::string_view("/-.,\\").find(c) == std::string_view::npos ? c : ' ';
  std::vector<std::string> parts;
  for (const auto part : base::split(plain, ' ')) {
    const auto word = base::folded(part);
    if (!word.empty() && word != "de" && word != "del") parts.push_back(word);
  }
  if (parts.size() == 4 && isWeekday(parts.front())) parts.erase(parts.begin());
  return parts;
}

/// Of a day with its month by name, the number alone: "4th" is "4".
std::string withoutOrdinal(std::string word) {
  for (const std::string_view end : {"st", "nd", "rd", "th"})
    if (word.ends_with(end) && onlyDigits(word.substr(0, word.size() - 2)))
      word.resize(word.size() - 2);
  return word;
}

CellDates bothOrders(std::int64_t one, std::int64_t two, std::int64_t year) {
  return {{}, dayOf(year, one, two), dayOf(year, two, one)};
}

CellDates ofDigits(std::string_view text, Date today) {
  if (text.size() == 8) {
    if (const auto date =
            dayOf(digits(text.substr(0, 4)), digits(text.substr(4, 2)), digits(text.substr(6, 2))))
      return {date, {}, {}};
    return bothOrders(digits(text.substr(0, 2)), digits(text.substr(2, 2)), digits(text.substr(4)));
  }
  // A zero was lost in front.
  if (text.size() == 7)
    return bothOrders(digits(text.substr(0, 1)), digits(text.substr(1, 2)), digits(text.substr(3)));
  if (text.size() == 6)
    return bothOrders(digits(text.substr(0, 2)), digits(text.substr(2, 2)),
                      wholeYear(text.substr(4), today));
  const auto serial = digits(text);
  if (text.size() == 5 && serial >= firstSerial && serial <= lastSerial)
    return {Date::of(1900, 1, 1)->plusDays(static_cast<int>(serial) - 2), {}, {}};
  return {};
}

} // namespace

bool CellDates::areTwo() const {
  return !plain && monthFirst && dayFirst && *monthFirst != *dayFirst;
}

std::optional<Date> CellDates::as(DateOrder order) const {
  if (plain) return plain;
  if (order == DateOrder::monthFirst) return monthFirst;
  if (order == DateOrder::dayFirst) return dayFirst;
  if (areTwo()) return std::nullopt;
  return monthFirst ? monthFirst : dayFirst;
}

CellDates readDates(std::string_view text, Date today) {
  text = withoutTime(base::trim(text));
  if (text.size() > 40) return {};
  // "43528.0" and "43528.5": a day number, whatever the hour.
  const auto point = text.find('.');
  if (point == 5 && onlyDigits(text.substr(0, point)) && onlyDigits(text.substr(point + 1)))
    return ofDigits(text.substr(0, point), today);
  if (onlyDigits(text)) return ofDigits(text, today);
  const auto parts = partsOf(text);
  if (parts.size() != 3) return {};
  const auto areDigits = [&](std::size_t i) { return onlyDigits(parts[i]); };
  if (areDigits(0) && areDigits(1) && areDigits(2)) {
    if (parts[0].size() == 4)
      return {dayOf(digits(parts[0]), digits(parts[1]), digits(parts[2])), {}, {}};
    if (parts[0].size() > 2 || parts[1].size() > 2 || parts[2].size() > 4) return {};
    return bothOrders(digits(parts[0]), digits(parts[1]), wholeYear(parts[2], today));
  }
  // The month by its name, first or second; the year last, or first.
  for (std::size_t at = 0; at < 2; ++at) {
    const auto month = monthNamed(parts[at]);
    if (month == 0) continue;
    const auto other = withoutOrdinal(parts[1 - at]);
    if (at == 1 && other.size() == 4)
      return {dayOf(digits(other), month, digits(withoutOrdinal(parts[2]))), {}, {}};
    return {dayOf(wholeYear(parts[2], today), month, digits(other)), {}, {}};
  }
  return {};
}

} // namespace gk::roster
