#include "reports/sheets/icalendar.h"

#include <algorithm>
#include <chrono>

namespace gk::reports {

namespace {

constexpr std::size_t mostOctets = 75; ///< RFC 5545 section 3.1, without the line's end

std::string twoDigits(std::int64_t number) {
  return (number < 10 ? "0" : "") + std::to_string(number);
}

std::string dateValue(base::Date date) {
  auto iso = date.iso();
  std::erase(iso, '-');
  return iso;
}

/// "20261117T140000Z".
std::string utcValue(base::Instant at) {
  const auto seconds = std::chrono::floor<std::chrono::seconds>(at.utc);
  const auto days = std::chrono::floor<std::chrono::days>(seconds);
  const auto ofDay = (seconds - days).count();
  return dateValue(base::Date::fromDays(std::chrono::sys_days(days))) + "T" +
         twoDigits(ofDay / 3600) + twoDigits(ofDay / 60 % 60) + twoDigits(ofDay % 60) + "Z";
}

/// As RFC 5545 spells its values.
std::string inCapitals(std::string text) {
  std::ranges::transform(text, text.begin(), [](char c) {
    return c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
  });
  return text;
}

bool isContinuation(char c) {
  return (static_cast<unsigned char>(c) & 0xC0U) == 0x80U;
}

} // namespace

std::string foldedLine(std::string_view line) {
  std::string out;
  std::size_t room = mostOctets;
  while (line.size() > room) {
    auto cut = room;
    while (cut > 0 && isContinuation(line[cut]))
      --cut;
    if (cut == 0) cut = room; // no UTF-8
    out += std::string(line.substr(0, cut)) + "\r\n ";
    line.remove_prefix(cut);
    room = mostOctets - 1; // the blank that begins it
  }
  return out + std::string(line) + "\r\n";
}

std::string escapedText(std::string_view text) {
  std::string out;
  for (const char c : text) {
    if (c == '\\' || c == ';' || c == ',')
      out += std::string("\\") + c;
    else if (c == '\n')
      out += "\\n";
    else if (c != '\r')
      out += c;
  }
  return out;
}

std::string icalendar(std::span<const CalendarDay> days, base::Instant made) {
  std::string out;
  const auto line = [&](const std::string& text) { out += foldedLine(text); };
  line("BEGIN:VCALENDAR");
  line("VERSION:2.0");
  line("PRODID:-//Groovekeeper//Planned days//EN");
  line("CALSCALE:GREGORIAN");
  for (const auto& day : days) {
    line("BEGIN:VEVENT");
    line("UID:" + day.uid);
    line("DTSTAMP:" + utcValue(made));
    line("DTSTART;VALUE=DATE:" + dateValue(day.day));
    line("DTEND;VALUE=DATE:" + dateValue(day.day.plusDays(1)));
    line("SEQUENCE:" + std::to_string(day.sequence));
    line("SUMMARY:" + escapedText(day.summary));
    if (!day.location.empty()) line("LOCATION:" + escapedText(day.location));
    if (!day.description.empty()) line("DESCRIPTION:" + escapedText(day.description));
    line("STATUS:" + inCapitals(day.canceled ? "cancelled" : "confirmed"));
    line("END:VEVENT");
  }
  line("END:VCALENDAR");
  return out;
}

} // namespace gk::reports
