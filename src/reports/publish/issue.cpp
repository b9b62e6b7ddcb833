#include "reports/publish/issue.h"

#include "base/text/text.h"
#include "reports/print/kept_lines.h"
#include "reports/publish/published.h"
#include "reports/publish/release_lines.h"
#include "reports/records/words.h"

#include <algorithm>
#include <map>

namespace gk::reports {

namespace {

using FigureWords = std::vector<std::string>;
using Issues = std::span<const base::Recorded<followup::IssuedReport>>;

/// So many differences are named; the rest is counted.
constexpr std::size_t mostNamed = 4;

FigureWords namedFirst(const FigureWords& cells, std::size_t names) {
  const auto end = cells.begin() + static_cast<std::ptrdiff_t>(std::min(names, cells.size()));
  FigureWords out{base::join({cells.begin(), end}, ", ")};
  out.insert(out.end(), end, cells.end());
  return out;
}

struct Row {
  std::string name;
  std::map<std::string, std::string> cells; ///< by heading
  FigureWords headings;                     ///< in their order
};
struct Part {
  std::string name;
  std::vector<Row> rows;
};

/// Parts, rows and headings of one name are told apart by a number.
class Numbering {
 public:
  std::string operator()(const std::string& name) {
    const int before = seen_[name]++;
    return before == 0 ? name : name + " (" + std::to_string(before + 1) + ")";
  }

 private:
  std::map<std::string, int> seen_;
};

std::vector<Part> figurePartsOf(const std::string& figures) {
  std::vector<Part> parts;
  FigureWords headings;
  Numbering parting;
  Numbering rowing;
  for (const auto& words : fromKeptLines(figures)) {
    if (words.front() == "part" && words.size() == 2) {
      parts.push_back({parting(words[1]), {}});
      rowing = {};
    } else if (words.front() == "columns") {
      Numbering numbering;
      headings.clear();
      for (std::size_t i = 2; i < words.size(); ++i)
        headings.push_back(numbering(words[i]));
    } else if (words.front() == "row" && words.size() > 1 && !parts.empty()) {
      Row row{rowing(words[1]), {}, headings};
      for (std::size_t i = 0; i < headings.size() && i + 2 < words.size(); ++i)
        row.cells[headings[i]] = words[i + 2];
      parts.back().rows.push_back(std::move(row));
    }
  }
  return parts;
}

template <class Thing>
const Thing* called(const std::vector<Thing>& things, const std::string& name) {
  const auto at = std::ranges::find(things, name, &Thing::name);
  return at == things.end() ? nullptr : &*at;
}

void compare(const Part& before, const Part& after, std::vector<Difference>& out) {
  for (const auto& row : after.rows) {
    const auto where = after.name + ", " + row.name;
    const auto* old = called(before.rows, row.name);
    if (!old) {
      out.push_back({where + " is new", "", ""});
      continue;
    }
    for (const auto& heading : row.headings) {
      const auto now = row.cells.find(heading);
      const auto then = old->cells.find(heading);
      const std::string cell = now == row.cells.end() ? nothing : now->second;
      const std::string oldCell = then == old->cells.end() ? nothing : then->second;
      if (cell != oldCell) out.push_back({where + ", " + heading, oldCell, cell});
    }
  }
  for (const auto& row : before.rows)
    if (!called(after.rows, row.name))
      out.push_back({before.name + ", " + row.name + " is gone", "", ""});
}

std::string listed(const std::vector<Difference>& all) {
  FigureWords named;
  for (const auto& one : std::span(all).first(std::min(all.size(), mostNamed)))
    named.push_back(one.before.empty() && one.after.empty()
                        ? one.where
                        : one.where + ": " + one.before + " -> " + one.after);
  auto words =
      counted(static_cast<int>(all.size()), "figure", "figures") + ": " + base::join(named, "; ");
  if (all.size() > mostNamed) words += "; and " + std::to_string(all.size() - mostNamed) + " more";
  return words;
}

std::string called(const followup::IssuedReport& issue) {
  return "version " + std::to_string(issue.version) + " of " + issue.issued.words();
}

/// As an issued report keeps what it did not show.
bool isHiddenWord(const std::string& cell) {
  return cell == Cell(Withheld{}).text() || cell.starts_with("fewer than");
}

/// Rows that only one has, and cells of which one says no number.
bool isOfShowing(const Difference& one) {
  return (one.before.empty() && one.after.empty()) || isHiddenWord(one.before) ||
         isHiddenWord(one.after);
}

/// In what they count; where both have the same counts, not in what they show of them.
std::vector<Difference> differencesOf(const std::string& before, const std::string& releaseBefore,
                                      const std::string& after, const std::string& releaseAfter) {
  auto found = differences(before, after);
  if (found.empty() || releaseBefore.empty() || releaseAfter.empty()) return found;
  const auto then = releaseFrom(releaseBefore);
  const auto now = releaseFrom(releaseAfter);
  if (then && now && countedAlike(*then, *now)) std::erase_if(found, isOfShowing);
  return found;
}

/// Another issue of the same number with other counts: it was made on another laptop.
const followup::IssuedReport* rivalOf(const followup::IssuedReport& newest, Issues earlier) {
  for (const auto& one : earlier)
    if (one.value.version == newest.version &&
        !differencesOf(one.value.figures, one.value.release, newest.figures, newest.release)
             .empty())
      return &one.value;
  return nullptr;
}

} // namespace

std::string figuresOf(std::span<const Table> tables) {
  std::string out;
  for (const auto& whole : tables) {
    const auto table = withoutEarlier(whole);
    const auto names = namesOf(table);
    FigureWords headings;
    for (const auto& column : table.columns)
      headings.push_back(column.heading);
    const auto add = [&](std::string_view kind, const FigureWords& cells) {
      auto words = namedFirst(cells, names);
      words.insert(words.begin(), std::string(kind));
      out += keptLine(words);
    };
    out += keptLine({"part", std::string(partName(table))});
    add("columns", headings);
    for (const auto& row : table.rows)
      add("row", textsOf(row));
  }
  return out;
}

std::vector<Difference> differences(const std::string& before, const std::string& after) {
  const auto then = figurePartsOf(before);
  const auto now = figurePartsOf(after);
  std::vector<Difference> out;
  for (const auto& part : now) {
    if (const auto* old = called(then, part.name))
      compare(*old, part, out);
    else
      out.push_back({"the part " + part.name + " is new", "", ""});
  }
  for (const auto& part : then)
    if (!called(now, part.name)) out.push_back({"the part " + part.name + " is gone", "", ""});
  return out;
}

Version versionOf(Issues earlier, const std::string& figures, const std::string& release) {
  if (earlier.empty()) return {1, "Version 1"};
  const auto& newest = earlier.back().value;
  const auto* rival = rivalOf(newest, earlier);
  const auto different = differencesOf(newest.figures, newest.release, figures, release);
  if (different.empty() && !rival)
    return {newest.version, "Version " + std::to_string(newest.version) + " of " +
                                newest.issued.words() + ", printed again"};
  int highest = 0;
  for (const auto& one : earlier)
    highest = std::max(highest, one.value.version);
  Version next{highest + 1, "Version " + std::to_string(highest + 1)};
  next.words += different.empty() ? ", the same as " + called(newest)
                                  : ", differs from " + called(newest) + " by " + listed(different);
  if (rival)
    next.words +=
        ". It also takes the place of another " + called(*rival) + ", made on another laptop";
  return next;
}

std::string shortVersion(std::string_view words) {
  auto out = std::string(words.substr(0, words.find(',')));
  if (!out.empty()) out.front() = 'v';
  return out;
}

} // namespace gk::reports
