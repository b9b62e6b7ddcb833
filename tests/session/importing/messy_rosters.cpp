#include "session/importing/messy_rosters.h"

#include "base/files/files.h"

#include <iterator>

// Lists as school offices send them, made here byte by byte; every child is invented.
namespace gk::test {

namespace {

const std::string plainList = "first,last,birth_date,grade\n"
                              "Pia,Oake,2019-05-02,2\n"
                              "Jo,Sedge,2019-06-03,2\n";

enum class High { first, last };

/// UTF-16 of text in the basic plane.
std::string utf16(const std::string& text, High order, bool hasMark) {
  std::string out;
  const auto put = [&](unsigned unit) {
    const char high = static_cast<char>(unit >> 8U);
    const char low = static_cast<char>(unit & 0xFFU);
    out += order == High::first ? high : low;
    out += order == High::first ? low : high;
  };
  if (hasMark) put(0xFEFF);
  for (std::size_t i = 0; i < text.size(); ++i) {
    const auto byte = static_cast<unsigned char>(text[i]);
    if (byte < 0x80) {
      put(byte);
    } else {
      put((byte & 0x1FU) << 6U | (static_cast<unsigned char>(text[i + 1]) & 0x3FU));
      ++i;
    }
  }
  return out;
}

std::string with(std::string text, const std::string& from, const std::string& to) {
  for (auto at = text.find(from); at != std::string::npos; at = text.find(from, at + to.size()))
    text.replace(at, from.size(), to);
  return text;
}

std::string repeated(const std::string& text, int times) {
  std::string out;
  for (int i = 0; i < times; ++i)
    out += text;
  return out;
}

} // namespace

std::vector<MessyRoster> messyBytes() {
  const auto accents = with(plainList, "Jo,", "Jos\xC3\xA9,");
  const auto tabs = with(accents, ",", "\t");
  return {
      {.what = "UTF-8", .bytes = accents, .entering = 2},
      {.what = "UTF-8 with byte order mark", .bytes = "\xEF\xBB\xBF" + accents, .entering = 2},
      {.what = "UTF-16 LE with mark, tabs", .bytes = utf16(tabs, High::last, true), .entering = 2},
      {.what = "UTF-16 BE with mark", .bytes = utf16(accents, High::first, true), .entering = 2},
      {.what = "UTF-16 LE without mark", .bytes = utf16(tabs, High::last, false), .entering = 2},
      {.what = "UTF-16 BE without mark",
       .bytes = utf16(accents, High::first, false),
       .entering = 2},
      {.what = "UTF-16, half a sign at the end",
       .bytes = utf16(accents, High::last, true) + "x",
       .entering = 2,
       .held = 1},
      {.what = "Windows-1252, curly apostrophe",
       .bytes = with(with(plainList, "Jo,", "Jos\xE9,"), "Oake",
                     "O\x92"
                     "Dell"),
       .entering = 2},
      {.what = "Windows-1252, a byte without a sign",
       .bytes = with(plainList, "Jo,", "J\x81,"),
       .entering = 1,
       .held = 1},
      {.what = "Latin-1, CRLF",
       .bytes = with(with(plainList, "Jo,",
                          "Mar\xED"
                          "a,"),
                     "\n", "\r\n"),
       .entering = 2},
      {.what = "UTF-8 with one Latin-1 byte",
       .bytes = with(accents, "Oake", "Oak\xE8"),
       .entering = 2},
      {.what = "UTF-8 read as other text and saved again",
       .bytes = with(plainList, "Jo,", "Jos\xC3\x83\xC2\xA9,"),
       .entering = 2},
      {.what = "CR alone ends lines", .bytes = with(plainList, "\n", "\r"), .entering = 2},
      {.what = "CRLF, no end at the last line",
       .bytes = with(plainList, "\n", "\r\n").substr(0, plainList.size() + 1),
       .entering = 2},
      {.what = "mixed ends of lines, end-of-file sign",
       .bytes = with(plainList, "grade\n", "grade\r\n") + "Ned,Fern,2019-07-04,2\r\x1A",
       .entering = 3},
      {.what = "no-break spaces and zero-width marks",
       .bytes = with(with(plainList, "Oake", "\xC2\xA0Oake\xC2\xA0"), "Jo,", "Jo\xE2\x80\x8B,"),
       .entering = 2},
      {.what = "a control character in a name",
       .bytes = with(plainList, "Oake", "Oa\x07ke"),
       .entering = 1,
       .held = 1},
      {.what = "empty file", .bytes = "", .isRefused = true},
      {.what = "blank lines alone", .bytes = "\r\n ,, \r\n\n", .isRefused = true},
      {.what = "a packed file",
       .bytes = std::string("PK\x03\x04", 4) + "anything",
       .isRefused = true},
      {.what = "a workbook of the old kind",
       .bytes = "\xD0\xCF\x11\xE0\xA1\xB1\x1A\xE1",
       .isRefused = true},
      {.what = "a printed document", .bytes = "%PDF-1.7 ...", .isRefused = true},
      {.what = "a page of the web called .xls",
       .bytes = "<html><table><tr><td>Pia</td></tr></table></html>",
       .isRefused = true},
      {.what = "no text", .bytes = std::string("a\0\0b\0\1c", 7), .isRefused = true},
      {.what = "more than 20,000 rows",
       .bytes = plainList + repeated("A,B,2019-05-02,2\n", 20001),
       .isRefused = true},
      {.what = "more than 1,000 columns",
       .bytes = plainList + repeated("x,", 1001),
       .isRefused = true},
  };
}

std::vector<MessyRoster> messyWorkbooks() {
  const auto file = [](const char* name) {
    return base::readFile(base::Path(GK_SOURCE_DIR) / "tests/session/rosters" / name).value();
  };
  // The first as python3-openpyxl 3.0 wrote it, a hidden sheet before the list.
  return {
      {.what = "a workbook (.xlsx): titles, dates, a total",
       .bytes = file("class-list.xlsx"),
       .entering = 2,
       .skipped = 3},
      {.what = "a workbook (.ods)", .bytes = file("class-list.ods"), .entering = 2},
      {.what = "a workbook cut short",
       .bytes = file("class-list.xlsx").substr(0, 3000),
       .isRefused = true},
  };
}

std::vector<MessyRoster> messyRows() {
  return {
      {.what = "semicolons, Last, First unquoted",
       .bytes = "Student Name;DOB;Gr\nOake, Pia;2019-05-02;2\nSedge, Jo;2019-06-03;2\n",
       .entering = 2},
      {.what = "tabs, Last, First unquoted",
       .bytes = "Student Name\tDOB\tGr\nOake, Pia\t2019-05-02\t2\nSedge, Jo\t2019-06-03\t2\n",
       .entering = 2},
      {.what = "upright bars",
       .bytes = "First|Last|DOB|Grade\nPia|Oake|2019-05-02|2\n",
       .entering = 1},
      {.what = "a line that names the separator",
       .bytes = "sep=;\r\nFirst;Last;DOB;Grade\r\nPia;Oake;2019-05-02;2\r\n",
       .entering = 1},
      {.what = "titles, blank rows, trailing commas",
       .bytes = "Cobble Lantern Elementary,,,,,\nClass list 2026-27,,,,,\n,,,,,\n"
                "First Name,Last Name,Birthdate,Grade,,\nPia,Oake,2019-05-02,2,,\n,,,,,\n"
                "Jo,Sedge,2019-06-03,2,,\n",
       .entering = 2,
       .skipped = 2},
      {.what = "totals and footers",
       .bytes = plainList + "Total: 2,,,\nPage 1 of 1,,,\n,,Printed 11/17/2026,\n",
       .entering = 2,
       .skipped = 3},
      {.what = "totals with a count under the grade",
       .bytes = plainList + "Room 4 Total,,,1\nGrand Total:,,,2\n11/17/2026,,,2\n"
                            "* = new student,,,2\n",
       .entering = 2,
       .skipped = 4},
      {.what = "headings again at each page",
       .bytes = plainList + "first,last,birth_date,grade\nNed,Fern,2019-07-04,2\n"
                            "FIRST,LAST,BIRTH_DATE,GRADE\n",
       .entering = 3,
       .skipped = 2},
      {.what = "groups by teacher and room",
       .bytes = "Name,DOB,Grade\nTeacher: Hill,,\n\"Oake, Pia\",2019-05-02,2\n"
                "Room 9,,\n\"Sedge, Jo\",2019-06-03,2\n",
       .entering = 2,
       .skipped = 2},
      {.what = "a name alone is a child who waits",
       .bytes = plainList + "Ned,,,\n",
       .entering = 2,
       .held = 1},
      {.what = "quoted commas, quotes and line breaks",
       .bytes = "First,Last,DOB,Grade,Guardian\n"
                "\"Pia \"\"Pip\"\"\",Oake,2019-05-02,2,\"Oake, Ada\nand Ben\"\n"
                "Jo,Sedge,2019-06-03,2,\n",
       .entering = 2},
      {.what = "stray quotes",
       .bytes = "First,Last,DOB,Grade\nPia \"Pip\",Oake,2019-05-02,2\n\"Jo\" B,Sedge,2019-06-03,2\n"
                "\"Ned,Fern,2019-07-04,2\n",
       .entering = 2,
       .held = 1},
      {.what = "a comma within an unquoted cell",
       .bytes = plainList + "Ned,Fern, Jr,2019-07-04,2\n",
       .entering = 2,
       .held = 1},
      {.what = "short rows",
       .bytes = "First,Last,DOB,Grade,Room\nPia,Oake,2019-05-02,2\nJo,Sedge,2019-06-03\n",
       .entering = 1,
       .held = 1},
      {.what = "a row printed twice",
       .bytes = plainList + "Pia,Oake,2019-05-02,2\n",
       .entering = 2,
       .skipped = 1},
      {.what = "one child in two rooms",
       .bytes = "First,Last,DOB,Grade,Room\nPia,Oake,2019-05-02,2,4\nPia,Oake,2019-05-02,2,5\n",
       .entering = 1,
       .held = 1},
      {.what = "no headings",
       .bytes = "Pia,Oake,2019-05-02,2\nJo,Sedge,2019-06-03,2\n",
       .isRefused = true},
      {.what = "headings without a birth date",
       .bytes = "First,Last,Grade\nPia,Oake,2\n",
       .isRefused = true},
      {.what = "headings alone", .bytes = "First,Last,DOB,Grade\n", .isRefused = true},
      {.what = "another file: a supply list",
       .bytes = "Item,Quantity,Price\nGloves,4,12.50\nCups,2,3.00\n",
       .isRefused = true},
  };
}

} // namespace gk::test
