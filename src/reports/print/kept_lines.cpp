#include "reports/print/kept_lines.h"

namespace gk::reports {

namespace {

std::string kept(std::string_view word) {
  std::string out;
  for (const char c : word) {
    if (c == '\\')
      out += "\\\\";
    else if (c == '\t')
      out += "\\t";
    else if (c == '\n')
      out += "\\n";
    else
      out += c;
  }
  return out;
}

} // namespace

std::string keptLine(const std::vector<std::string>& words) {
  std::string line;
  for (const auto& word : words)
    line += (&word == &words.front() ? "" : "\t") + kept(word);
  return line + '\n';
}

std::vector<std::vector<std::string>> fromKeptLines(std::string_view text) {
  std::vector<std::vector<std::string>> rows;
  std::vector<std::string> row(1);
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '\n') {
      rows.push_back(std::move(row));
      row.assign(1, {});
    } else if (text[i] == '\t') {
      row.emplace_back();
    } else if (text[i] == '\\' && i + 1 < text.size()) {
      const char next = text[++i];
      row.back() += next == 't' ? '\t' : next == 'n' ? '\n' : next;
    } else {
      row.back() += text[i];
    }
  }
  return rows;
}

} // namespace gk::reports
