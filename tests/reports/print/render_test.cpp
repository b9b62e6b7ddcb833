#include "reports/print/render.h"

#include "reports/print/cells.h"

#include <catch2/catch.hpp>
#include <limits>

using namespace gk::reports;

namespace {

const Table sample{"Whole <by> school",
                   {{"School"}, {"Whole %", Kind::share}},
                   {{"Ébène & Co", "9.5"}, {"B", "80.6"}},
                   {"Found children only."}};

} // namespace

TEST_CASE("text columns line up by character also with accents") {
  CHECK(toText({&sample, 1}) == "Whole <by> school\n"
                                "=================\n"
                                "School      Whole %\n"
                                "----------  -------\n"
                                "Ébène & Co      9.5\n"
                                "B              80.6\n"
                                "  Found children only.\n\n");
}

TEST_CASE("A share as it was printed is the number nearest to what stands on the page",
          "[case-519]") {
  // Before: 82.4 / 100, of which a file said 0.8240000000000001.
  for (int tenths = 0; tenths <= 1000; ++tenths) {
    const auto text = gk::base::fixed(tenths / 1000., 3);
    CHECK(Share{tenths / 1000.}.printed() == *gk::base::parseDouble(text));
  }
  CHECK(Share{0.8237}.printed() == 0.824);
}

TEST_CASE("HTML escapes whatever people typed") {
  const Table hostile{"<script>alert(1)</script>", {{"A\"B'"}}, {{"<b>&amp;</b>"}}, {"1 < 2 & 3"}};
  const auto page = toHtml("Term <\"x\">", {&hostile, 1});
  CHECK(page.find("<script") == std::string::npos);
  CHECK(page.find("<b>") == std::string::npos);
  CHECK(page.find("&lt;script&gt;alert(1)&lt;/script&gt;") != std::string::npos);
  CHECK(page.find("A&quot;B&#39;") != std::string::npos);
  CHECK(page.find("&lt;b&gt;&amp;amp;&lt;/b&gt;") != std::string::npos);
  CHECK(page.find("1 &lt; 2 &amp; 3") != std::string::npos);
  CHECK(page.find("<title>Term &lt;&quot;x&quot;&gt;</title>") != std::string::npos);
}

TEST_CASE("an HTML page needs nothing from elsewhere") {
  const auto page = toHtml("Term", {&sample, 1});
  CHECK(page.find("http") == std::string::npos);
  CHECK(page.find("src=") == std::string::npos);
  CHECK(page.find("<meta charset=\"utf-8\">") != std::string::npos);
  CHECK(page.find("@media print") != std::string::npos);
}

TEST_CASE("CSV holds header and rows and disarms formulas") {
  const Table table{"T", {{"School"}, {"Note"}}, {{"A, B", "=1+1"}}, {"not in it"}};
  CHECK(toCsv(table) == "School,Note\r\n\"A, B\",'=1+1\r\n");
}

TEST_CASE("a table without rows says none") {
  const Table empty{"Urgent", {{"Child"}}, {}, {}};
  CHECK(toText({&empty, 1}).find("None.") != std::string::npos);
  CHECK(toHtml("x", {&empty, 1}).find("<p>None.</p>") != std::string::npos);
}

TEST_CASE("CSV files are named after their tables, each name once and safe") {
  const std::vector<Table> tables{{"Close-out: Elm & Äsh, Tuesday", {{"A"}}, {}, {}},
                                  {"Still to be seen at this school", {{"A"}}, {}, {}},
                                  {"Counts", {{"A"}}, {}, {}},
                                  {"Counts", {{"B"}}, {}, {}},
                                  {"../..", {{"A"}}, {}, {}}};
  std::vector<std::string> names;
  for (const auto& [name, csv] : toCsvFiles(tables))
    names.push_back(name);
  CHECK(names == std::vector<std::string>{"close-out.csv", "still-to-be-seen-at-this-school.csv",
                                          "counts.csv", "counts-2.csv", "table.csv"});
}

TEST_CASE("An issued report carries its version in every form", "[case-72]") {
  const std::vector<Table> tables{
      {"Findings", {{"School"}, {"Urgent", Kind::count}}, {{"AH", "2"}}, {}}};
  const std::string version = "Version 2, differs from version 1 of November 17, 2026";
  CHECK(toText(tables, version).starts_with(version + "\n\nFindings\n"));
  CHECK(toHtml("Findings", tables, version).find("</h1>\n<p>" + version + "</p>") !=
        std::string::npos);
  CHECK(toCsv(tables.front(), version) == "School,Urgent\r\nAH,2\r\n\"" + version + "\",\r\n");
}

TEST_CASE("A group's name is printed once and stands in every row of a spreadsheet") {
  const Table table{"Key figures",
                    {{.heading = "Part", .group = true}, {"Figure"}},
                    {{"Services", "Sealed"}, {"Services", "Varnish"}},
                    {}};
  CHECK(toText(std::span(&table, 1)).find("\n          Varnish\n") != std::string::npos);
  CHECK(toHtml("Summary", std::span(&table, 1)).find("<td class=\"g\"></td><td>Varnish</td>") !=
        std::string::npos);
  CHECK(toCsv(table) == "Part,Figure\r\nServices,Sealed\r\nServices,Varnish\r\n");
}

TEST_CASE("Thousands are parted in digits alone", "[case-370]") {
  CHECK(toRead(Cell(1234567)) == "1,234,567");
  CHECK(toRead(Cell(Number{-12345.5, 1})) == "-12,345.5");
  CHECK(toRead(Cell(Number{std::numeric_limits<double>::infinity(), 2}).with(", small numbers")) ==
        "no bound, small numbers");
  CHECK(toRead(Cell(12345).with(", few children")) == "12,345, few children");
}

TEST_CASE("A note leaves its table only where every table of its columns says it", "[case-371]") {
  const std::vector<Column> compared{{"Light", Kind::text, "value"}, counts("Teeth")};
  const std::vector<Column> byTooth{{"Tooth", Kind::text, "value"}, counts("Teeth")};
  const std::vector<Table> tables{
      {"By light", compared, {"Observational.", "Of all schools.", "Few."}},
      {"By tooth", byTooth, {"Observational.", "Nothing is compared."}},
      {"By lot", compared, {"Observational.", "Few.", "Nothing is compared."}},
      {"Follow-up", {texts("School"), counts("Due")}, {"Of Alder Hollow alone."}}};
  const auto once = notesOnce(tables);
  CHECK(once.shared == std::vector<std::string>{"Observational."});
  CHECK(once.tables[0].notes == std::vector<std::string>{"Of all schools.", "Few."});
  CHECK(once.tables[1].notes == std::vector<std::string>{"Nothing is compared."});
  CHECK(once.tables[2].notes == std::vector<std::string>{"Few.", "Nothing is compared."});
  CHECK(once.tables[3].notes == std::vector<std::string>{"Of Alder Hollow alone."});
}

TEST_CASE("A note that nearly all tables of its columns have is told once, with those it is not of",
          "[case-411]") {
  const std::vector<Column> compared{texts("Value"), counts("Teeth")};
  std::vector<Table> tables{{"By light", compared, {"Adjusted."}},
                            {"By tooth", compared, {"Adjusted.", "Within types."}},
                            {"By lot", compared, {"Adjusted.", "Within types."}},
                            {"Total", compared, {"All."}},
                            {"Dates", {texts("School"), counts("Due")}, {}}};
  const auto once = notesOnce(tables);
  CHECK(once.shared == std::vector<std::string>{"Adjusted. Not of: Total."});
  CHECK(once.tables[0].notes.empty());
  CHECK(once.tables[1].notes == std::vector<std::string>{"Within types."}); // of two alone
  CHECK(once.tables[3].notes == std::vector<std::string>{"All."});
  // Of another kind of table nothing is claimed, and two are named; of three it stays.
  tables.push_back({"By pair", compared, {}});
  CHECK(notesOnce(tables).shared == std::vector<std::string>{"Adjusted. Not of: Total; By pair."});
  tables.push_back({"By person", compared, {}});
  CHECK(notesOnce(tables).shared.empty());
  CHECK(notesOnce(tables).tables[0].notes == std::vector<std::string>{"Adjusted."});
  // A name that also a table with the note has names nothing.
  tables.resize(4);
  tables[3].title = "By lot";
  CHECK(notesOnce(tables).shared.empty());
}
