#include "reports/print/render.h"

#include "base/csv.h"
#include "base/text.h"

#include <algorithm>
#include <map>

namespace gk::reports {

namespace {

/// Characters, not bytes: every byte of UTF-8 that does not continue another.
std::size_t shownWidth(std::string_view text) {
  return static_cast<std::size_t>(std::ranges::count_if(
      text, [](char byte) { return (static_cast<unsigned char>(byte) & 0xC0U) != 0x80U; }));
}

std::vector<std::size_t> widths(const Table& table) {
  std::vector<std::size_t> out;
  for (const auto& column : table.columns)
    out.push_back(shownWidth(column.heading));
  for (std::size_t row = 0; row < table.rows.size(); ++row)
    for (std::size_t i = 0; i < out.size(); ++i)
      out[i] = std::max(out[i], shownWidth(cellShown(table, row, i)));
  return out;
}

std::string textLine(const std::vector<std::string>& cells, const Table& table,
                     const std::vector<std::size_t>& to) {
  std::string line;
  for (std::size_t i = 0; i < cells.size() && i < to.size(); ++i) {
    const std::string gap(to[i] - shownWidth(cells[i]), ' ');
    if (i > 0) line += "  ";
    line += table.columns[i].isNumber() ? gap + cells[i] : cells[i] + gap;
  }
  line.erase(line.find_last_not_of(' ') + 1);
  return line + '\n';
}

std::vector<std::string> headings(const Table& table) {
  std::vector<std::string> out;
  for (const auto& column : table.columns)
    out.push_back(column.heading);
  return out;
}

std::vector<std::string> rowToRead(const Table& table, std::size_t row) {
  std::vector<std::string> cells;
  for (std::size_t i = 0; i < table.columns.size(); ++i)
    cells.emplace_back(cellToRead(table, row, i));
  return cells;
}

std::string textOf(const Table& table) {
  const auto to = widths(table);
  std::string out = table.title + '\n' + std::string(shownWidth(table.title), '=') + '\n';
  if (table.rows.empty()) {
    out += "None.\n";
  } else {
    out += textLine(headings(table), table, to);
    std::vector<std::string> rule;
    for (auto columns : to)
      rule.emplace_back(columns, '-');
    out += textLine(rule, table, to);
    for (std::size_t row = 0; row < table.rows.size(); ++row)
      out += textLine(rowToRead(table, row), table, to);
  }
  if (table.plot) out += "  " + table.plot->says + '\n';
  for (const auto& note : table.notes)
    out += "  " + note + '\n';
  return out;
}

std::string htmlRow(const std::vector<std::string>& cells, const Table& table,
                    std::string_view tag) {
  std::string out = "<tr>";
  for (std::size_t i = 0; i < cells.size() && i < table.columns.size(); ++i) {
    out += '<' + std::string(tag) + (tag == "th" ? " scope=\"col\"" : "") +
           (table.columns[i].isNumber() ? " class=\"n\">" : ">") + escaped(cells[i]) + "</" +
           std::string(tag) + '>';
  }
  return out + "</tr>\n";
}

std::string htmlOf(const Table& table) {
  std::string out = "<section>\n<h2>" + escaped(table.title) + "</h2>\n";
  if (table.plot)
    out += "<figure>\n" + toSvg(*table.plot) + "<figcaption>" + escaped(table.plot->says) +
           "</figcaption>\n</figure>\n";
  if (table.rows.empty()) {
    out += "<p>None.</p>\n";
  } else {
    out += "<table>\n<thead>\n" + htmlRow(headings(table), table, "th") + "</thead>\n<tbody>\n";
    for (std::size_t row = 0; row < table.rows.size(); ++row)
      out += htmlRow(rowToRead(table, row), table, "td");
    out += "</tbody>\n</table>\n";
  }
  for (const auto& note : table.notes)
    out += "<p class=\"note\">" + escaped(note) + "</p>\n";
  return out + "</section>\n";
}

constexpr std::string_view style =
    "body{font:11pt/1.4 sans-serif;color:#000;background:#fff;margin:2em}\n"
    "h1{font-size:16pt}h2{font-size:12pt;margin:1.4em 0 .4em}\n"
    "table{border-collapse:collapse}\n"
    "th,td{border:1px solid #000;padding:.15em .5em;text-align:left;vertical-align:top}\n"
    "figure{margin:.4em "
    "0;break-inside:avoid}figcaption{font-size:9pt}svg{max-width:100%;height:auto}\n"
    "th{border-bottom-width:2px}.n{text-align:right}.note{font-size:9pt;margin:.2em 0}\n"
    "@media print{body{margin:0;font-size:9pt}thead{display:table-header-group}"
    "tr{break-inside:avoid}h2{break-after:avoid}}\n";

} // namespace

std::string escaped(std::string_view text) {
  std::string out;
  for (char c : text) {
    if (c == '&')
      out += "&amp;";
    else if (c == '<')
      out += "&lt;";
    else if (c == '>')
      out += "&gt;";
    else if (c == '"')
      out += "&quot;";
    else if (c == '\'')
      out += "&#39;";
    else
      out += c;
  }
  return out;
}

std::string toText(std::span<const Table> tables, std::string_view version) {
  std::string out = version.empty() ? "" : std::string(version) + "\n\n";
  for (const auto& table : tables)
    out += textOf(table) + '\n';
  return out;
}

std::string toHtml(std::string_view title, std::span<const Table> tables,
                   std::string_view version) {
  std::string out =
      "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n<title>" +
      escaped(title) + "</title>\n<style>\n" + std::string(style) +
      "</style>\n</head>\n<body>\n<h1>" + escaped(title) + "</h1>\n";
  if (!version.empty()) out += "<p>" + escaped(version) + "</p>\n";
  for (const auto& table : tables)
    out += htmlOf(table);
  return out + "</body>\n</html>\n";
}

std::string toCsv(const Table& table, std::string_view version) {
  std::string out = base::csvLine(headings(table));
  for (const auto& row : table.rows)
    out += base::csvLine(textsOf(row));
  if (version.empty()) return out;
  std::vector<std::string> last(table.columns.size());
  last.front() = version;
  return out + base::csvLine(last);
}

std::vector<std::pair<std::string, std::string>> toCsvFiles(std::span<const Table> tables) {
  std::vector<std::pair<std::string, std::string>> out;
  std::map<std::string, int> seen;
  for (const auto& table : tables) {
    auto name = keyOf(partName(table), '-');
    if (const int before = seen[name]++; before > 0) name += "-" + std::to_string(before + 1);
    out.emplace_back(name + ".csv", toCsv(table));
  }
  return out;
}

} // namespace gk::reports
