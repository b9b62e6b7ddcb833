#include "reports/workbook/workbook.h"

#include "base/files/files.h"
#include "reports/print/render.h"
#include "support/outside.h"
#include "support/scratch.h"

#include <algorithm>
#include <cstdlib>

using namespace gk;
using namespace gk::reports;

namespace {

Table sample() {
  Table table{"Key figures: Fall 2026",
              {{"School"},
               {"Screened", Kind::count},
               {"Kept", Kind::range},
               {"Found, %", Kind::share},
               {"On", Kind::date}}};
  table.rows = {{"=1+1", 1234, Estimate{Share{0.8724}, Range{0.843, 0.897}}, Share{0.5},
                 *base::Date::parse("2026-11-17")},
                {"B & <Co>", Withheld{10}, noFigure, Share{0.25, 1, true}, noFigure}};
  table.notes = {"Found students only."};
  return table;
}

/// What the reader from outside says of the workbook, line by line.
std::vector<std::string> readOutside(const std::string& bytes) {
  const test::Scratch folder;
  const auto file = folder.path() / "report.xlsx";
  const auto told = folder.path() / "told";
  REQUIRE(base::replaceFile(file, bytes));
  const auto command = std::string("/usr/bin/python3 " GK_SOURCE_DIR "/.ci/read-workbook.py '") +
                       file.string() + "' >'" + told.string() + "' 2>&1";
  const bool ran = std::system(command.c_str()) == 0;
  const auto text = *base::readFile(told);
  INFO(text);
  CHECK(ran);
  std::vector<std::string> lines;
  for (std::size_t from = 0, to = 0; (to = text.find('\n', from)) != std::string::npos;
       from = to + 1)
    lines.push_back(text.substr(from, to - from));
  return lines;
}

bool has(const std::vector<std::string>& lines, const std::string& line) {
  return std::ranges::find(lines, line) != lines.end();
}

} // namespace

TEST_CASE("A general reader finds every section of a workbook, numbers as numbers", "[case-331]") {
  if (!test::runsOutside("python3-openpyxl",
                         std::system("/usr/bin/python3 -c 'import openpyxl' 2>/dev/null") == 0))
    return;
  const std::vector tables{sample(), Table{"Second", {{"A"}}, {{"x"}}, {}}};
  const auto lines =
      readOutside(*toWorkbook("Funder's summary", tables, "Version 1", internalMark));
  CHECK(has(lines, "sheet\tAbout\t-\tInternal: contains small numbers"));
  CHECK(has(lines, "sheet\tKey figures\tA2\tInternal: contains small numbers"));
  CHECK(has(lines, "sheet\tSecond\tA2\tInternal: contains small numbers"));
  CHECK(has(lines, "A1\ttext\tGeneral\tFunder's summary"));
  CHECK(has(lines, "A3\ttext\tGeneral\tVersion 1"));
  // A formula is words; what has a value, low and high end has three columns.
  CHECK(has(lines, "A2\ttext\tGeneral\t=1+1"));
  CHECK(has(lines, "B2\tnumber\t#,##0\t1234"));
  CHECK(has(lines, "C2\tnumber\t0.0%\t0.872"));
  CHECK(has(lines, "D1\ttext\tGeneral\tKept, low"));
  CHECK(has(lines, "D2\tnumber\t0.0%\t0.843"));
  CHECK(has(lines, "E2\tnumber\t0.0%\t0.897"));
  CHECK(has(lines, "F2\tnumber\t0.0%\t0.5"));
  CHECK(has(lines, "H2\tdate\tmmm d, yyyy\t2026-11-17"));
  CHECK(has(lines, "A3\ttext\tGeneral\tB & <Co>"));
  CHECK(has(lines, "B3\ttext\tGeneral\tfewer than 10"));
  CHECK(has(lines, "G3\ttext\tGeneral\tunstable"));
  CHECK(has(lines, "A5\ttext\tGeneral\tFound students only."));
}

TEST_CASE("The same report is the same workbook, byte for byte") {
  const std::vector tables{sample()};
  const auto once = *toWorkbook("Report", tables);
  CHECK(once == *toWorkbook("Report", tables));
  CHECK(once.starts_with("PK"));
}

TEST_CASE("Sheets have names that every spreadsheet takes, each once") {
  const std::vector<Table> tables{{"About", {{"A"}}, {}, {}},
                                  {"Cavities averted, estimated", {{"A"}}, {}, {}},
                                  {"What/is [in]? it", {{"A"}}, {}, {}},
                                  {"Retention by the one who placed it, and more", {{"A"}}, {}, {}},
                                  {"Checks of sealants placed in earlier terms", {{"A"}}, {}, {}},
                                  {"Checks of sealants placed in earlier years", {{"A"}}, {}, {}}};
  const auto names = sheetNames(tables);
  CHECK(names == std::vector<std::string>{"About 2", "Cavities averted", "What is  in   it",
                                          "Retention by the one who placed",
                                          "Checks of sealants placed in",
                                          "Checks of sealants placed in 2"});
  for (const auto& name : names)
    CHECK(name.size() <= 31);
}
