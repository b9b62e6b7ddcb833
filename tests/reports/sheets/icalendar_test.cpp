#include "reports/sheets/icalendar.h"

#include "support/outside.h"
#include "support/scratch.h"

#include <array>
#include <cstdio>
#include <fstream>
#include <memory>

using namespace gk;
using reports::CalendarDay;
using reports::escapedText;
using reports::foldedLine;
using reports::icalendar;

namespace {

base::Date dayOf(const char* iso) {
  return base::Date::parse(iso).value();
}

/// 2026-11-17 14:00:00 UTC, in milliseconds.
const base::Instant made{base::Milliseconds{1'794'924'000'000}};

std::vector<CalendarDay> twoDays() {
  return {{.uid = "00000000-0000-7000-8000-000000000001",
           .day = dayOf("2026-11-24"),
           .summary = "Sealants: Cobble, Lantern; \\ Elementary",
           .location = "Escuela Ñandú Ñandú Ñandú Ñandú Ñandú Ñandú Ñandú Ñandú Ñandú Ñandú",
           .description = "Team 1, 2 chairs.\nPark behind the gym",
           .canceled = false,
           .sequence = 3},
          {.uid = "00000000-0000-7000-8000-000000000002",
           .day = dayOf("2027-12-31"),
           .summary = "Sealants",
           .location = {},
           .description = {},
           .canceled = true}};
}

/// What a command says on its standard output.
std::string outputOf(const std::string& command) {
  const std::unique_ptr<FILE, int (*)(FILE*)> pipe(popen(command.c_str(), "r"), &pclose);
  REQUIRE(pipe != nullptr);
  std::string out;
  std::array<char, 4096> piece{};
  for (std::size_t got = 0; (got = fread(piece.data(), 1, piece.size(), pipe.get())) > 0;)
    out.append(piece.data(), got);
  return out;
}

} // namespace

TEST_CASE("A long line is folded at 75 octets between whole characters", "[case-299]") {
  CHECK(foldedLine("SHORT") == "SHORT\r\n");
  CHECK(foldedLine(std::string(75, 'x')) == std::string(75, 'x') + "\r\n");
  CHECK(foldedLine(std::string(76, 'x')) == std::string(75, 'x') + "\r\n x\r\n");
  CHECK(foldedLine(std::string(150, 'x')) ==
        std::string(75, 'x') + "\r\n " + std::string(74, 'x') + "\r\n x\r\n");
  // The eñe of two octets would stand across the 75th.
  CHECK(foldedLine(std::string(74, 'x') + "ñx") == std::string(74, 'x') + "\r\n ñx\r\n");
}

TEST_CASE("Text in a calendar is escaped", "[case-299]") {
  CHECK(escapedText("a,b;c\\d\ne\r\n") == "a\\,b\\;c\\\\d\\ne\\n");
}

TEST_CASE("A planned day is a whole day with a UTC stamp, and a canceled one says so",
          "[case-299]") {
  const auto text = icalendar(twoDays(), made);
  for (const auto* line :
       {"BEGIN:VCALENDAR\r\nVERSION:2.0\r\n", "\r\nDTSTAMP:20261117T140000Z\r\n",
        "\r\nDTSTART;VALUE=DATE:20261124\r\n", "\r\nDTEND;VALUE=DATE:20261125\r\n",
        "\r\nDTEND;VALUE=DATE:20280101\r\n", "\r\nSEQUENCE:3\r\n", "\r\nSTATUS:CANCELLED\r\n",
        "SUMMARY:Sealants: Cobble\\, Lantern\\; \\\\ Elementary\r\n"}) {
    INFO(line);
    CHECK(text.find(line) != std::string::npos);
  }
  CHECK(text.ends_with("END:VCALENDAR\r\n"));
  std::size_t from = 0;
  for (auto at = text.find("\r\n"); at != std::string::npos; at = text.find("\r\n", from)) {
    CHECK(at - from <= 75);
    from = at + 2;
  }
  CHECK(from == text.size());
}

TEST_CASE("A calendar library from outside reads every planned day as it was written",
          "[case-299]") {
  const bool isThere = std::system("/usr/bin/python3 -c 'import icalendar' >/dev/null 2>&1") == 0;
  if (!test::runsOutside("python3-icalendar", isThere)) return;
  const test::Scratch folder;
  const auto file = folder / "days.ics";
  std::ofstream(file, std::ios::binary) << icalendar(twoDays(), made);
  const auto script = folder / "read.py";
  std::ofstream(script) << R"(import sys, icalendar
calendar = icalendar.Calendar.from_ical(open(sys.argv[1], 'rb').read())
print(calendar['VERSION'], calendar['PRODID'])
for event in calendar.walk('VEVENT'):
    assert not event.errors, event.errors
    print('|'.join(str(part) for part in (
        event['UID'], event.decoded('DTSTART'), event.decoded('DTEND'),
        event.decoded('DTSTAMP').isoformat(), event['SUMMARY'], event.get('LOCATION', ''),
        event.get('DESCRIPTION', '').replace('\n', '/'), event['STATUS'], event['SEQUENCE'])))
)";
  CHECK(outputOf("/usr/bin/python3 " + script.string() + " " + file.string()) ==
        "2.0 -//Groovekeeper//Planned days//EN\n"
        "00000000-0000-7000-8000-000000000001|2026-11-24|2026-11-25|2026-11-17T14:00:00+00:00|"
        "Sealants: Cobble, Lantern; \\ Elementary|"
        "Escuela Ñandú Ñandú Ñandú Ñandú Ñandú Ñandú Ñandú Ñandú Ñandú Ñandú|"
        "Team 1, 2 chairs./Park behind the gym|CONFIRMED|3\n"
        "00000000-0000-7000-8000-000000000002|2027-12-31|2028-01-01|2026-11-17T14:00:00+00:00|"
        "Sealants|||CANCELLED|0\n");
}
