#include "bench/page.h"

#include "base/text/text.h"

#include <sstream>

namespace gk::bench {

namespace {

/// Where it stands; none where it is not there or more than once.
std::optional<std::size_t> onlyPlace(std::string_view page, std::string_view mark) {
  const auto at = page.find(mark);
  if (at == std::string_view::npos || page.find(mark, at + 1) != std::string_view::npos)
    return std::nullopt;
  return at;
}

} // namespace

std::optional<std::string> withTable(std::string_view page, std::string_view table) {
  const auto begins = onlyPlace(page, tableBegins);
  const auto ends = onlyPlace(page, tableEnds);
  if (!begins || !ends || *ends < *begins) return std::nullopt;
  std::string out(page.substr(0, *begins + tableBegins.size()));
  out += "\n\n";
  out += table;
  out += '\n';
  out += page.substr(*ends);
  return out;
}

std::string asMeasured(const Figures& figures, std::string_view date,
                       std::pair<double, double> loads, const std::vector<int>& sizes) {
  std::ostringstream out;
  out << "Measured " << date << ", load " << base::fixed(loads.first, 1) << " at the beginning and "
      << base::fixed(loads.second, 1) << " at the end, logbooks of ";
  for (std::size_t i = 0; i < sizes.size(); ++i)
    out << (i == 0 ? "" : i + 1 == sizes.size() ? " and " : ", ") << sizes[i];
  out << " children.\n\n";
  figures.print(out);
  return out.str();
}

} // namespace gk::bench
