#include "reports/print/render.h"

#include "base/text/csv.h"
#include "base/text/text.h"

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

std::string textOf(const Front& front) {
  std::string out = front.over + '\n' + front.name + '\n' + front.under + "\n\n";
  for (const auto& sentence : front.sentences)
    out += sentence + '\n';
  for (const auto& figure : front.figures) {
    out += "\n  " + toRead(figure.number) + figure.unit + "  " + figure.words;
    if (!figure.before.empty()) out += " (" + figure.before + ")";
  }
  out += "\n\n";
  for (const auto& picture : front.pictures)
    out += picture.title + ": " + picture.plot.says + '\n';
  return out + '\n';
}

/// A heading and its value a line.
std::string listText(const Table& table) {
  std::size_t most = 0;
  for (const auto& column : table.columns)
    most = std::max(most, shownWidth(column.heading));
  std::string out;
  for (std::size_t i = 0; i < table.columns.size(); ++i)
    out += table.columns[i].heading +
           std::string(most - shownWidth(table.columns[i].heading) + 2, ' ') +
           cellShown(table, 0, i) + '\n';
  return out;
}

std::string textOf(const Table& table) {
  const auto to = widths(table);
  std::string out = table.front ? textOf(*table.front) : "";
  out += table.title + '\n' + std::string(shownWidth(table.title), '=') + '\n';
  if (table.rows.empty()) {
    out += "None.\n";
  } else if (isList(table)) {
    out += listText(table);
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
           (table.columns[i].isNumber() ? " class=\"n\">"
            : table.columns[i].group    ? " class=\"g\">"
                                        : ">") +
           escaped(cells[i]) + "</" + std::string(tag) + '>';
  }
  return out + "</tr>\n";
}

std::string htmlOf(const Front& front, std::string_view version) {
  std::string out = "<header>\n<p class=\"over\">" + escaped(front.over) + "</p>\n<h1>" +
                    escaped(front.name) + "</h1>\n";
  if (!version.empty()) out += "<p>" + escaped(version) + "</p>\n";
  out += "<p class=\"under\">" + escaped(front.under) + "</p>\n</header>\n<p class=\"lead\">";
  for (const auto& sentence : front.sentences)
    out += (&sentence == &front.sentences.front() ? "" : " ") + escaped(sentence);
  out += "</p>\n<div class=\"figures\">\n";
  for (const auto& figure : front.figures) {
    out += "<div><b>" + escaped(toRead(figure.number) + figure.unit) + "</b><span>" +
           escaped(figure.words) + "</span>";
    if (!figure.before.empty())
      out += "<span class=\"before\">" + escaped(figure.before) + "</span>";
    out += "</div>\n";
  }
  out += "</div>\n<div class=\"pictures\">\n";
  for (const auto& picture : front.pictures)
    out += "<figure>\n<h2>" + escaped(picture.title) + "</h2>\n<figcaption>" +
           escaped(picture.plot.says) + "</figcaption>\n" + toSvg(picture.plot, {halfWidth}) +
           "</figure>\n";
  return out + "</div>\n";
}

std::string listHtml(const Table& table) {
  std::string out = "<dl>\n";
  for (std::size_t i = 0; i < table.columns.size(); ++i)
    out += "<div><dt>" + escaped(table.columns[i].heading) + "</dt><dd>" +
           escaped(cellShown(table, 0, i)) + "</dd></div>\n";
  return out + "</dl>\n";
}

std::string htmlOf(const Table& table, std::string_view version) {
  std::string out = table.front ? "<section class=\"page\">\n" + htmlOf(*table.front, version)
                                : std::string("<section>\n");
  out += "<h2>" + escaped(table.title) + "</h2>\n";
  if (table.plot)
    out += "<figure>\n<figcaption>" + escaped(table.plot->says) + "</figcaption>\n" +
           toSvg(*table.plot) + "</figure>\n";
  if (table.rows.empty()) {
    out += "<p>None.</p>\n";
  } else if (isList(table)) {
    out += listHtml(table);
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

/// No variables and no grounds: the window lays such a page on paper by the little that Qt reads.
constexpr std::string_view style =
    "body{font:11pt/1.5 Inter,system-ui,sans-serif;color:#10201B;"
    "background:#fff;max-width:1000px;margin:2.5em auto;padding:0 2em}\n"
    "h1{font-size:20pt;line-height:1.2;margin:.1em 0 .2em}\n"
    "h2{font-size:12.5pt;margin:2em 0 .5em}\n"
    "table{border-collapse:collapse;width:100%}\n"
    "th,td{border-bottom:1px solid #C5D0CA;padding:.28em .6em .28em 0;text-align:left;"
    "vertical-align:top}\n"
    "th{border-bottom:2px solid #10201B;font-size:9pt;font-weight:600;color:#34453F;"
    "vertical-align:bottom}\n"
    ".n{text-align:right;font-variant-numeric:tabular-nums}.g{font-weight:600;white-space:nowrap}\n"
    "tbody tr:hover{background:#F1F5F2}\n"
    ".note{font-size:9pt;color:#34453F;margin:.5em 0}\n"
    ".mark{float:right;font-size:9pt;font-weight:600;border:2px solid #10201B;"
    "border-radius:5px;padding:.2em .6em;margin:0 0 1em 1em}\n"
    "figure{margin:.4em 0 1em;break-inside:avoid}figcaption{margin:.2em 0 .6em}\n"
    "svg{max-width:100%;height:auto;font-family:inherit}\n"
    ".over{color:#0A6B5E;font-weight:600;margin:0}.under{color:#34453F;margin:0}\n"
    ".lead{font-size:13.5pt;max-width:46em}\n"
    ".figures{display:flex;flex-wrap:wrap;gap:1.2em;margin:1.4em 0}\n"
    ".figures div{flex:1 1 9em;border-left:4px solid #0A6B5E;padding-left:.8em}\n"
    ".figures b{display:block;font-size:25pt;line-height:1.15}\n"
    ".figures span{display:block;font-size:9.5pt}.figures .before{color:#34453F}\n"
    ".pictures{display:flex;flex-wrap:wrap;gap:2em}.pictures figure{flex:1 1 20em}\n"
    ".pictures h2{margin-top:.6em}.pictures figcaption{font-size:9.5pt;color:#34453F}\n"
    "dl{display:grid;grid-template-columns:repeat(auto-fill,minmax(16em,1fr));gap:0 2.4em;"
    "margin:0}\n"
    "dl div{display:flex;justify-content:space-between;gap:1em;"
    "border-bottom:1px solid #C5D0CA;padding:.25em 0}\n"
    "dt{color:#34453F}dd{margin:0;font-weight:600;text-align:right}\n"
    "@media print{@page{margin:14mm}body{margin:0;padding:0;max-width:none;font-size:9pt}"
    "thead{display:table-header-group}tr{break-inside:avoid}h2{break-after:avoid;"
    "margin-top:1.2em}.page{break-before:page}.page:first-of-type{break-before:auto}"
    ".lead{font-size:11pt}.figures b{font-size:20pt}"
    ".mark{position:fixed;top:0;right:0;background:#fff}}\n";

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

std::string toText(std::span<const Table> tables, std::string_view version, std::string_view mark) {
  std::string out = mark.empty() ? "" : std::string(mark) + "\n\n";
  if (!version.empty()) out += std::string(version) + "\n\n";
  const auto pages = notesOnce(tables);
  for (const auto& table : pages.tables)
    out += textOf(table) + '\n';
  if (!pages.shared.empty()) out += "Notes\n=====\n";
  for (const auto& note : pages.shared)
    out += "  " + note + '\n';
  return out;
}

std::string toHtml(std::string_view title, std::span<const Table> tables, std::string_view version,
                   std::string_view mark) {
  std::string out = "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n<meta "
                    "name=\"viewport\" content=\"width=device-width\">\n<title>" +
                    escaped(title) + "</title>\n<style>\n" + std::string(style) +
                    "</style>\n</head>\n<body>\n";
  if (!mark.empty()) out += "<p class=\"mark\">" + escaped(mark) + "</p>\n";
  // A front has the name of what it is of for its heading.
  const bool hasFront = !tables.empty() && tables.front().front;
  if (!hasFront) out += "<h1>" + escaped(title) + "</h1>\n";
  if (!hasFront && !version.empty()) out += "<p>" + escaped(version) + "</p>\n";
  const auto pages = notesOnce(tables);
  for (const auto& table : pages.tables)
    out += htmlOf(table, version);
  if (!pages.shared.empty()) out += "<section>\n<h2>Notes</h2>\n";
  for (const auto& note : pages.shared)
    out += "<p class=\"note\">" + escaped(note) + "</p>\n";
  if (!pages.shared.empty()) out += "</section>\n";
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
