#include "base/text/csv.h"

#include <catch2/catch.hpp>

using namespace gk::base;

namespace {

using Cells = std::vector<std::string>;

std::string refusal(std::string_view text) {
  const auto table = parseCsv(text);
  if (table) return "read";
  CHECK(table.error().code == ErrorCode::csvMalformed);
  return table.error().detail;
}

} // namespace

TEST_CASE("A table is read with its header and the line of each row") {
  const auto table = parseCsv("number, grade\n1043-0,2\n1044-8,3\n").value();
  CHECK(table.header == Cells{"number", "grade"});
  REQUIRE(table.rows.size() == 2);
  CHECK(table.rows[1].cells == Cells{"1044-8", "3"});
  CHECK(table.rows[1].line == 3);
  CHECK(table.column("grade").value() == 1);
}

TEST_CASE("A column that is not there is refused naming those that are") {
  const auto table = parseCsv("number,grade\n").value();
  const auto column = table.column("room");
  REQUIRE_FALSE(column);
  CHECK(column.error().code == ErrorCode::csvMalformed);
  CHECK(column.error().detail == "line 1, column 1: the header has no column \"room\" among its 2");
}

TEST_CASE("Byte order mark and either line ending and blank lines make no difference") {
  const auto plain = parseCsv("a,b\n1,2\n3,4").value();
  for (const auto* text : {"\xEF\xBB\xBF"
                           "a,b\r\n1,2\r\n3,4\r\n",
                           "a,b\n\n1,2\n\n\n3,4\n", "a,b\r1,2\r3,4\r"}) {
    CAPTURE(text);
    const auto other = parseCsv(text).value();
    CHECK(other.header == plain.header);
    REQUIRE(other.rows.size() == 2);
    CHECK(other.rows[0].cells == plain.rows[0].cells);
    CHECK(other.rows[1].cells == plain.rows[1].cells);
  }
}

TEST_CASE("Quoted cells hold commas and quotes and line breaks") {
  const auto table = parseCsv("a,b\n\"x,\"\"y\"\"\nz\",\"\"\nlast,row\n").value();
  REQUIRE(table.rows.size() == 2);
  CHECK(table.rows[0].cells == Cells{"x,\"y\"\nz", ""});
  CHECK(table.rows[0].line == 2);
  CHECK(table.rows[1].line == 4);
}

TEST_CASE("A malformed table is refused with line and column") {
  CHECK(refusal("") == "line 1, column 1: the file is empty; a header row is needed");
  CHECK(refusal("a,b\n1,2\n1,2,3\n") == "line 3, column 3: 3 cells where the header has 2");
  CHECK(refusal("a,b\n1\n") == "line 2, column 1: 1 cell where the header has 2");
  CHECK(refusal("a,b\n1,x\"y\n") ==
        "line 2, column 2: a quote inside a cell that does not start with one");
  CHECK(refusal("a,b\n1,\"x\"y\n") == "line 2, column 2: text after a closing quote");
  CHECK(refusal("a,b\n1,\"x\n\n") == "line 2, column 2: a quoted cell is never closed");
  CHECK(refusal("a\nJos\xE9\n").find("UTF-8") != std::string::npos);
}

TEST_CASE("A written line reads back as it was") {
  const Cells cells{"plain", "a,b", "say \"ah\"", "two\nlines", "", " kept ", "Łódź"};
  const auto table = parseCsv(csvLine(cells) + csvLine(cells)).value();
  REQUIRE(table.rows.size() == 1);
  CHECK(table.rows[0].cells == cells);
}

TEST_CASE("A written line ends as the standard says") {
  CHECK(csvLine({"a", "b"}) == "a,b\r\n");
}

TEST_CASE("A cell that a spreadsheet could run is led by an apostrophe and a number is not") {
  CHECK(csvLine({"=1+1", "+1", "-x", "@a", "\tq"}) == "'=1+1,'+1,'-x,'@a,\"'\tq\"\r\n");
  CHECK(csvLine({"-5", "-0.25", "7"}) == "-5,-0.25,7\r\n");
  CHECK(csvLine({"=\"a\""}) == "\"'=\"\"a\"\"\"\r\n");
}

TEST_CASE("A formula behind a semicolon, a line end or blanks is led by an apostrophe and quoted",
          "[case-264]") {
  CHECK(csvLine({"a;=1+1"}) == "\"a;'=1+1\"\r\n");
  CHECK(csvLine({";=cmd", "x; @y", "  =1"}) == "\";'=cmd\",\"x;' @y\",'  =1\r\n");
  CHECK(csvLine({"a\n=1"}) == "\"a\n'=1\"\r\n");
  CHECK(csvLine({"a;b", "7;-2"}) == "\"a;b\",\"7;-2\"\r\n");
}

TEST_CASE("A control character and a million columns are refused at once and not repeated",
          "[case-262]") {
  for (const std::string& control :
       {std::string(1, '\0'), std::string("\x1b"), std::string("\x7f"), std::string("\xC2\x9B"),
        std::string("\xE2\x80\xAE"), std::string("\xE2\x80\x8F"), std::string("\xE2\x80\xA8"),
        std::string("\xD8\x9C")}) {
    const auto refused = parseCsv("first,last\nMina,Toll" + control + "iver\n");
    REQUIRE_FALSE(refused);
    CHECK(refused.error().detail.starts_with("line 2, column 1: a control character"));
  }
  const auto wide = parseCsv(std::string(1'000'000, ',') + "\n");
  REQUIRE_FALSE(wide);
  CHECK(wide.error().code == ErrorCode::csvMalformed);
}

TEST_CASE("Two columns of one name are refused by their places, blank ones are not", "[case-192]") {
  const auto twice = parseCsv("child,room,child\n1,2,3\n");
  REQUIRE_FALSE(twice);
  CHECK(twice.error().code == ErrorCode::csvMalformed);
  CHECK(twice.error().detail.find("column 3: the header has the name of column 1") !=
        std::string::npos);
  CHECK(parseCsv("child,,\n1,2,3\n"));
}
