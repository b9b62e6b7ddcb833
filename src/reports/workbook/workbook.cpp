#include "reports/workbook/workbook.h"

#include "base/text/text.h"
#include "reports/print/render.h"
#include "reports/workbook/sheet_cells.h"
#include "reports/workbook/zip_writer.h"

#include <algorithm>
#include <set>

namespace gk::reports {

namespace {

constexpr std::string_view declaration = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n";
constexpr std::string_view mainSpace = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
constexpr std::string_view relations =
    "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
constexpr std::string_view packageRelations =
    "http://schemas.openxmlformats.org/package/2006/relationships";

std::string sheetPath(std::size_t at) {
  return "worksheets/sheet" + std::to_string(at + 1) + ".xml";
}

std::string contentTypes(std::size_t sheets) {
  const std::string type = "application/vnd.openxmlformats-officedocument.spreadsheetml.";
  std::string out = std::string(declaration) +
                    "<Types xmlns=\"http://schemas.openxmlformats.org/package/2006/content-types\">"
                    "<Default Extension=\"rels\" "
                    "ContentType=\"application/vnd.openxmlformats-package.relationships+xml\"/>"
                    "<Default Extension=\"xml\" ContentType=\"application/xml\"/>"
                    "<Override PartName=\"/xl/workbook.xml\" ContentType=\"" +
                    type +
                    "sheet.main+xml\"/><Override PartName=\"/xl/styles.xml\" ContentType=\"" +
                    type + "styles+xml\"/>";
  for (std::size_t i = 0; i < sheets; ++i)
    out += "<Override PartName=\"/xl/" + sheetPath(i) + "\" ContentType=\"" + type +
           "worksheet+xml\"/>";
  return out + "</Types>";
}

std::string relationship(std::size_t id, std::string_view kind, const std::string& target) {
  return "<Relationship Id=\"rId" + std::to_string(id) + "\" Type=\"" + std::string(relations) +
         "/" + std::string(kind) + "\" Target=\"" + target + "\"/>";
}

std::string relationships(const std::string& each) {
  return std::string(declaration) + "<Relationships xmlns=\"" + std::string(packageRelations) +
         "\">" + each + "</Relationships>";
}

std::string bookXml(const std::vector<std::string>& names) {
  std::string out = std::string(declaration) + "<workbook xmlns=\"" + std::string(mainSpace) +
                    "\" xmlns:r=\"" + std::string(relations) + "\"><sheets>";
  for (std::size_t i = 0; i < names.size(); ++i)
    out += "<sheet name=\"" + escaped(names[i]) + "\" sheetId=\"" + std::to_string(i + 1) +
           "\" r:id=\"rId" + std::to_string(i + 1) + "\"/>";
  return out + "</sheets></workbook>";
}

std::string bookRelations(std::size_t sheets) {
  std::string each;
  for (std::size_t i = 0; i < sheets; ++i)
    each += relationship(i + 1, "worksheet", sheetPath(i));
  return relationships(each + relationship(sheets + 1, "styles", "styles.xml"));
}

/// A sheet of rows with the first `frozen` of them held in sight.
std::string sheetXml(const SheetRows& rows, bool isFrozen, std::string_view mark) {
  std::string out = std::string(declaration) + "<worksheet xmlns=\"" + std::string(mainSpace) +
                    "\"><sheetPr><pageSetUpPr fitToPage=\"1\"/></sheetPr><sheetViews><sheetView "
                    "workbookViewId=\"0\">";
  if (isFrozen)
    out += "<pane ySplit=\"1\" topLeftCell=\"A2\" activePane=\"bottomLeft\" state=\"frozen\"/>";
  out += "</sheetView></sheetViews>" + rows.columnsXml() + "<sheetData>" + rows.rowsXml() +
         "</sheetData><pageSetup orientation=\"landscape\" fitToWidth=\"1\" fitToHeight=\"0\"/>";
  // In the text of a page's head an ampersand begins a code.
  out += "<headerFooter><oddHeader>&amp;L&amp;A";
  if (!mark.empty()) out += "&amp;R&amp;\"-,Bold\"" + escaped(mark);
  return out + "</oddHeader><oddFooter>&amp;RPage &amp;P of &amp;N</oddFooter></headerFooter>"
               "</worksheet>";
}

SheetRows aboutRows(std::string_view title, std::span<const Table> tables,
                    const std::vector<std::string>& names, std::string_view version,
                    std::string_view mark, SheetStyles& styles) {
  SheetRows rows(styles);
  rows.add({{std::string(title), SheetStyles::title}});
  if (!mark.empty()) rows.add({{std::string(mark), SheetStyles::heading}});
  if (!version.empty()) rows.add({{std::string(version), SheetStyles::words}});
  for (const auto& table : tables) {
    if (!table.front) continue;
    rows.add({});
    for (const auto& line : {table.front->over, table.front->name, table.front->under})
      rows.add({{line, SheetStyles::words}});
    for (const auto& sentence : table.front->sentences)
      rows.add({{sentence, SheetStyles::words}});
    for (const auto& figure : table.front->figures)
      rows.addFigure(figure);
  }
  rows.add({});
  rows.add({{"Sheet", SheetStyles::heading}, {"What it has", SheetStyles::heading}});
  for (std::size_t i = 0; i < tables.size(); ++i)
    rows.add({{names[i], SheetStyles::words}, {tables[i].title, SheetStyles::words}});
  return rows;
}

SheetRows tableRows(const Table& table, SheetStyles& styles) {
  SheetRows rows(styles);
  rows.addTable(table);
  if (table.plot || !table.notes.empty()) rows.add({});
  if (table.plot) rows.add({{table.plot->says, SheetStyles::words}});
  for (const auto& note : table.notes)
    rows.add({{note, SheetStyles::words}});
  return rows;
}

} // namespace

std::vector<std::string> sheetNames(std::span<const Table> tables) {
  constexpr std::size_t longest = 31;
  std::vector<std::string> names;
  std::set<std::string> taken{"about"};
  for (const auto& table : tables) {
    std::string name;
    for (const char letter : partName(table))
      name += std::string_view("[]:*?/\\'").find(letter) == std::string_view::npos ? letter : ' ';
    name = std::string(base::trim(name));
    if (name.empty()) name = "Table";
    const auto cut = [](std::string text, std::size_t most) {
      if (text.size() <= most) return text;
      // Never within a letter, and at a word's end where one is near.
      while (most > 0 && (static_cast<unsigned char>(text[most]) & 0xC0U) == 0x80U)
        --most;
      const bool isWord = text[most] == ' ';
      text.resize(most);
      if (isWord) return text;
      if (const auto blank = text.rfind(' '); blank != std::string::npos && blank > most / 2)
        text.resize(blank);
      return text;
    };
    auto once = cut(name, longest);
    for (int number = 2; !taken.insert(base::folded(once)).second; ++number) {
      const auto ending = " " + std::to_string(number);
      once = cut(name, longest - ending.size()) + ending;
    }
    names.push_back(std::move(once));
  }
  return names;
}

base::Result<std::string> toWorkbook(std::string_view title, std::span<const Table> tables,
                                     std::string_view version, std::string_view mark) {
  SheetStyles styles;
  auto names = sheetNames(tables);
  std::vector<std::string> sheets{
      sheetXml(aboutRows(title, tables, names, version, mark, styles), false, mark)};
  for (const auto& table : tables)
    sheets.push_back(sheetXml(tableRows(table, styles), true, mark));
  names.insert(names.begin(), "About");
  std::vector<std::pair<std::string, std::string>> files{
      {"[Content_Types].xml", contentTypes(sheets.size())},
      {"_rels/.rels", relationships(relationship(1, "officeDocument", "xl/workbook.xml"))},
      {"xl/workbook.xml", bookXml(names)},
      {"xl/_rels/workbook.xml.rels", bookRelations(sheets.size())},
      {"xl/styles.xml", styles.xml()}};
  for (std::size_t i = 0; i < sheets.size(); ++i)
    files.emplace_back("xl/" + sheetPath(i), std::move(sheets[i]));
  return zipped(files);
}

} // namespace gk::reports
