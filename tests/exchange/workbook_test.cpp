#include "exchange/lists/list_text.h"
#include "exchange/lists/workbook.h"
#include "support/packed.h"

#include <catch2/catch.hpp>

using namespace gk;
using base::ErrorCode;
using exchange::readList;
using exchange::readWorkbook;
using test::packed;
using test::Parts;

namespace {

/// A workbook of one sheet.
Parts bookOf(const std::string& sheet, const std::string& properties = {}) {
  return {
      {"xl/workbook.xml", "<workbook>" + properties +
                              "<sheets><sheet name=\"x\" state=\"hidden\" r:id=\"r9\"/>"
                              "<sheet name=\"y\" r:id=\"r1\"/></sheets></workbook>"},
      {"xl/_rels/workbook.xml.rels",
       "<Relationships><Relationship Id=\"r1\" Type=\"t/worksheet\" "
       "Target=\"worksheets/a.xml\"/><Relationship Id=\"r2\" Type=\"t/styles\" "
       "Target=\"/xl/styles.xml\"/><Relationship Id=\"r3\" Type=\"t/sharedStrings\" "
       "Target=\"sharedStrings.xml\"/></Relationships>"},
      {"xl/styles.xml",
       "<styleSheet><numFmts><numFmt numFmtId=\"164\" formatCode=\"m/d/yyyy\"/>"
       "<numFmt numFmtId=\"165\" formatCode=\"0&quot; days&quot;\"/></numFmts>"
       "<cellStyleXfs><xf numFmtId=\"14\"/></cellStyleXfs><cellXfs><xf numFmtId=\"0\"/>"
       "<xf numFmtId=\"14\"/><xf numFmtId=\"164\"/><xf numFmtId=\"165\"/></cellXfs></styleSheet>"},
      {"xl/sharedStrings.xml", "<sst><si><t>Oake, </t></si><si><r><t>Pi</t></r><r><t>a</t></r>"
                               "<rPh><t>pee</t></rPh></si></sst>"},
      {"xl/worksheets/a.xml",
       "<x:worksheet><x:sheetData>" + sheet + "</x:sheetData></x:worksheet>"}};
}

std::string codeAndWords(const base::Result<exchange::ListRows>& list) {
  REQUIRE_FALSE(list);
  CHECK(list.error().code == ErrorCode::csvMalformed);
  return list.error().detail;
}

bool has(const std::string& text, std::string_view words) {
  INFO(text);
  return text.find(words) != std::string::npos;
}

} // namespace

TEST_CASE("A workbook's cells are read by their place and kind", "[case-270]") {
  const auto list = readWorkbook(packed(bookOf(
      "<x:row r=\"3\"><x:c r=\"B3\" t=\"s\"><x:v>1</x:v></x:c><x:c r=\"C3\" "
      "s=\"1\"><x:v>43587</x:v></x:c>"
      "<x:c r=\"D3\" s=\"2\"><x:v>43587.5</x:v></x:c><x:c r=\"E3\" "
      "s=\"3\"><x:v>43587</x:v></x:c></x:row>"
      "<x:row r=\"7\"><x:c t=\"inlineStr\"><x:is><x:t>in line</x:t></x:is></x:c>"
      "<x:c t=\"str\"><x:f>A1&amp;B1</x:f><x:v>made</x:v></x:c><x:c t=\"e\"><x:v>#REF!</x:v></x:c>"
      "<x:c t=\"b\"><x:v>1</x:v></x:c><x:c t=\"s\"><x:v>99</x:v></x:c></x:row>")));
  REQUIRE(list);
  REQUIRE(list->rows.size() == 2);
  CHECK(list->rows[0].line == 3);
  CHECK(list->rows[0].cells ==
        std::vector<std::string>{"", "Pia", "2019-05-02", "2019-05-02", "43587"});
  CHECK(list->rows[1].line == 7);
  CHECK(list->rows[1].cells == std::vector<std::string>{"in line", "made", "", "yes"});
}

namespace {

/// Sheets Baker, Cole and Dunn, and one that is hidden.
Parts bookOfThree(const std::vector<std::string>& firstCells) {
  std::string sheets;
  std::string relations;
  Parts parts;
  const std::vector<std::string> names{"Baker", "Cole", "Dunn"};
  for (std::size_t i = 0; i < names.size(); ++i) {
    const auto id = std::to_string(i);
    sheets += "<sheet name=\"" + names[i] + "\" r:id=\"r" + id + "\"/>";
    relations += "<Relationship Id=\"r" + id + "\" Target=\"worksheets/" + id + ".xml\"/>";
    parts.emplace_back("xl/worksheets/" + id + ".xml", "<worksheet><row><c t=\"str\"><v>" +
                                                           firstCells.at(i) +
                                                           "</v></c></row></worksheet>");
  }
  parts.emplace_back("xl/workbook.xml", "<workbook><sheets>" + sheets + "</sheets></workbook>");
  parts.emplace_back("xl/_rels/workbook.xml.rels",
                     "<Relationships>" + relations + "</Relationships>");
  return parts;
}

/// The same as .ods.
Parts odsOf(const std::vector<std::string>& firstCells) {
  std::string tables;
  const std::vector<std::string> names{"Baker", "Cole", "Dunn"};
  for (std::size_t i = 0; i < names.size(); ++i)
    tables += "<table:table table:name=\"" + names[i] +
              "\"><table:table-row><table:table-cell><text:p>" + firstCells.at(i) +
              "</text:p></table:table-cell></table:table-row></table:table>";
  return {{"content.xml", "<d xmlns:table=\"t\" xmlns:text=\"x\">" + tables + "</d>"}};
}

} // namespace

TEST_CASE("Of several sheets the first with headings is read, and the others are named",
          "[case-507]") {
  const exchange::IsList isList = [](std::span<const base::CsvRow> rows) {
    return !rows.empty() && rows.front().cells.front() == "Name";
  };
  for (auto* const made : {&bookOfThree, &odsOf}) {
    const auto first = readList(packed(made({"Name", "Name", "Codes"})), isList);
    REQUIRE(first);
    CHECK(first->notes == std::vector<std::string>{"3 sheets; read Baker; not read: Cole, Dunn."});
    const auto second = readList(packed(made({"Codes", "Name", "Name"})), isList);
    REQUIRE(second);
    CHECK(second->rows.at(0).cells.at(0) == "Name");
    CHECK(second->notes == std::vector<std::string>{"3 sheets; read Cole; not read: Baker, Dunn."});
    // None has headings: the first, of which a person says what its columns are.
    const auto none = readList(packed(made({"Codes", "Notes", "Keys"})), isList);
    REQUIRE(none);
    CHECK(none->rows.at(0).cells.at(0) == "Codes");
    CHECK(none->notes == std::vector<std::string>{"3 sheets; read Baker; not read: Cole, Dunn."});
  }
}

TEST_CASE("A workbook that counts days from 1904 gives the same days", "[case-270]") {
  const auto list = readWorkbook(packed(bookOf("<x:row><x:c s=\"1\"><x:v>42125</x:v></x:c></x:row>",
                                               "<workbookPr date1904=\"1\"/>")));
  REQUIRE(list);
  CHECK(list->rows.at(0).cells.at(0) == "2019-05-02");
}

TEST_CASE("A workbook that unpacks to too much, or nests too deep, is refused", "[case-270]") {
  const auto row = [](const std::string& words) {
    return "<x:row><x:c t=\"str\"><x:v>" + words + "</x:v></x:c></x:row>";
  };
  CHECK(has(codeAndWords(readList(packed(bookOf(row(std::string(std::size_t{6} << 20U, 'x')))))),
            "it unpacks to too much"));
  // Of what does not pack well: the sum of all parts.
  std::string mixed;
  for (unsigned i = 0; mixed.size() < 200000; ++i)
    mixed += std::to_string(i * 2654435761U);
  exchange::WorkbookLimits small;
  small.bytes = 100000;
  CHECK(has(codeAndWords(readWorkbook(packed(bookOf(row(mixed))), {}, small)),
            "unpacks to too much"));
  std::string deep;
  for (int i = 0; i < 70; ++i)
    deep += "<x:d>";
  CHECK(has(codeAndWords(readList(packed(bookOf(deep)))), "nested too deep"));
  Parts many = bookOf(row("x"));
  for (int i = 0; i < 1001; ++i)
    many.emplace_back("media/" + std::to_string(i), "x");
  CHECK(has(codeAndWords(readList(packed(many))), "too many files"));
}

TEST_CASE("A workbook that declares entities is refused before any is read", "[case-270]") {
  auto parts = bookOf("<x:row/>");
  parts.back().second = "<!DOCTYPE a [<!ENTITY b \"xxxxxxxx\"><!ENTITY c \"&b;&b;&b;\">]>"
                        "<worksheet><row><c t=\"str\"><v>&c;</v></c></row></worksheet>";
  CHECK(has(codeAndWords(readList(packed(parts))), "it declares a document type"));
}

TEST_CASE("More rows, columns or cells than a list has are refused", "[case-270]") {
  std::string rows;
  for (int i = 0; i < 20001; ++i)
    rows += "<x:row><x:c><x:v>" + std::to_string(i) + "</x:v></x:c></x:row>";
  CHECK(has(codeAndWords(readList(packed(bookOf(rows)))), "more rows than any list"));
  CHECK(has(
      codeAndWords(readList(packed(bookOf("<x:row><x:c r=\"ZZZ1\"><x:v>1</x:v></x:c></x:row>")))),
      "more columns than any list"));
  const std::string repeated =
      "<d xmlns:table=\"t\" xmlns:text=\"x\"><table:table><table:table-row "
      "table:number-rows-repeated=\"1048576\"><table:table-cell "
      "table:number-columns-repeated=\"900\"><text:p>x</text:p></table:table-cell>"
      "</table:table-row></table:table></d>";
  CHECK(has(codeAndWords(readList(packed({{"content.xml", repeated}}))), "than any list"));
}

TEST_CASE("What is packed and no workbook, or damaged, is refused with what to do", "[case-270]") {
  CHECK(has(codeAndWords(readList(packed({{"list.csv", "first,last\n"}}))),
            "unpack it and choose the list in it"));
  const auto whole = packed(bookOf("<x:row><x:c><x:v>1</x:v></x:c></x:row>"));
  CHECK(has(codeAndWords(readList(whole.substr(0, whole.size() / 2))), "save it as CSV"));
  auto parts = bookOf("<x:row><x:c><x:v>1</x:v></x:c>");
  CHECK(has(codeAndWords(readList(packed(parts))), "no XML"));
  parts.pop_back();
  CHECK(has(codeAndWords(readList(packed(parts))), "a part of it is missing"));
}

TEST_CASE("Each byte of a workbook changed or cut gives rows or a refusal", "[case-270]") {
  const auto whole = packed(bookOf("<x:row><x:c t=\"s\"><x:v>1</x:v></x:c></x:row>"));
  std::size_t refused = 0;
  for (std::size_t i = 0; i < whole.size(); ++i) {
    auto changed = whole;
    changed[i] = static_cast<char>(changed[i] ^ 0x55);
    if (!readList(changed)) ++refused;
    if (!readList(whole.substr(0, i))) ++refused;
  }
  CHECK(refused > whole.size());
}
