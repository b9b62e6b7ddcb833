#include "reports/term/terms_report.h"

#include "reports/print/cells.h"

#include <algorithm>
#include <array>
#include <ranges>

namespace gk::reports {

namespace {

/// A share of a term that is counted and not estimated.
struct TermShare {
  const char* heading;
  const char* drawn; ///< in the picture's key
  PlotMark mark;
  std::optional<double> (*of)(const Participation&);
};

constexpr std::array termShares{
    TermShare{
        "Consented, % of enrolled", "consented, of enrolled", PlotMark::line,
        [](const Participation& at) { return rateOf(at.consented, at.enrolled.value_or(0)); }},
    TermShare{"Needing, % of screened", "needing sealants, of screened", PlotMark::dashed,
              [](const Participation& at) { return rateOf(at.needing, at.screened); }},
    TermShare{"Sealed, % of needing", "sealed, of needing", PlotMark::dotted,
              [](const Participation& at) { return rateOf(at.sealedInNeed(), at.needing); }}};

constexpr const char* smallNumbers = "Contains small numbers: for the program's own use.";

/// Term, and what stands of it in each row.
Cells rowOf(std::string term, const Participation& at, const RetentionLine& retention) {
  Cells cells{
      std::move(term), orUnknown(at.enrolled), at.consented, at.screened, at.needing, at.sealed,
      at.teeth()};
  for (const auto& one : termShares)
    cells.push_back(shareOf(one.of(at)));
  const auto& whole = retention.whole95;
  cells.emplace_back(retention.assessable);
  cells.push_back(whole ? shareOf(whole->estimate) : noFigure);
  cells.push_back(rangeCell(whole, retention.unit));
  return cells;
}

/// "term" or "year".
std::string oneOf(SideBySide what) {
  return what == SideBySide::years ? "year" : "term";
}

std::vector<Column> columns(SideBySide what) {
  std::vector<Column> out{texts(what == SideBySide::years ? "Year" : "Term"),
                          counts("Enrolled"),
                          counts("Consented"),
                          counts("Screened"),
                          counts("Needing"),
                          counts("Sealed"),
                          counts("Teeth sealed")};
  for (const auto& one : termShares)
    out.push_back(shares(one.heading));
  out.push_back(counts("Sealants assessed"));
  out.push_back(shares("Fully retained, %"));
  out.push_back(ranges("95% CI"));
  return out;
}

/// A term or year of the program, or of one school.
struct Side {
  std::string name;
  std::string said; ///< where it is not over, with the day up to which it was counted
  Participation at;
  RetentionLine retention;
};

std::optional<Plot> plotOf(const std::vector<Side>& sides, const std::string& where,
                           SideBySide what) {
  if (sides.size() < 2) return std::nullopt;
  const auto name = oneOf(what);
  Plot plot{where + "Participation, need and one-year retention from " + name + " to " + name + ".",
            {"", -0.5, static_cast<double>(sides.size()) - 0.5},
            {"%", 0, 100},
            {}};
  for (const auto& side : sides)
    plot.x.names.push_back(side.name);
  for (const auto& one : termShares) {
    PlotSeries series{one.drawn, one.mark, {}};
    for (std::size_t i = 0; i < sides.size(); ++i)
      if (const auto value = one.of(sides[i].at))
        series.points.push_back({static_cast<double>(i), 100 * *value});
    if (!series.points.empty()) plot.series.push_back(std::move(series));
  }
  PlotSeries ranges{"95% CI", PlotMark::bars, {}};
  PlotSeries retained{"fully retained at one year", PlotMark::dots, {}};
  for (std::size_t i = 0; i < sides.size(); ++i) {
    const auto& whole = sides[i].retention.whole95;
    if (!whole) continue;
    const auto x = static_cast<double>(i);
    retained.points.push_back({x, 100 * whole->estimate});
    retained.said.push_back(base::percent(whole->estimate));
    const auto range = printedRange(*whole);
    if (!range) continue;
    ranges.points.push_back({x, 100 * range->low});
    ranges.ends.push_back({x, 100 * range->high});
  }
  if (!ranges.points.empty()) plot.series.push_back(std::move(ranges));
  if (!retained.points.empty()) plot.series.push_back(std::move(retained));
  if (plot.series.empty()) return std::nullopt;
  return plot;
}

RetentionLine placedAt(const TermTotals& term, const std::optional<roster::SchoolId>& school) {
  const auto& lines = term.retention.schools;
  const auto line = std::ranges::find(lines, school, &RetentionLine::school);
  return line == lines.end() ? RetentionLine{} : *line;
}

/// A term in which nothing happened at the school has no row.
bool isAnything(const Participation& at, const RetentionLine& retention) {
  return at.formsBack + at.consented + at.screened + at.days + retention.examined > 0;
}

Table schoolTable(std::span<const TermTotals> terms, SideBySide what) {
  Table table{"Schools, " + oneOf(what) + " by " + oneOf(what), columns(what)};
  table.columns.insert(table.columns.begin(), grouped("School"));
  // By name as the newest term calls them; a school stays one school under a new name.
  for (const auto& school : terms.back().schools)
    for (const auto& term : terms) {
      const auto at = std::ranges::find(term.schools, school.id, &Participation::id);
      if (at == term.schools.end()) continue;
      const auto retention = placedAt(term, school.id);
      if (!isAnything(*at, retention)) continue;
      auto row = rowOf(term.term, *at, retention);
      row.insert(row.begin(), school.school);
      table.rows.push_back(std::move(row));
    }
  table.notes = {smallNumbers};
  return table;
}

/// As the newest term that knows it calls it.
std::string nameOf(std::span<const TermTotals> terms, roster::SchoolId school) {
  for (const auto& term : terms | std::views::reverse)
    for (const auto& at : term.schools)
      if (at.id == school) return at.school;
  return {};
}

std::vector<Side> sidesOf(std::span<const TermTotals> terms,
                          const std::optional<roster::SchoolId>& school) {
  std::vector<Side> out;
  for (const auto& term : terms) {
    Side side{term.term, term.term, term.total, term.retention.total};
    if (term.asOf < term.end) side.said += ", to " + term.asOf.shortWords();
    if (school) {
      const auto at = std::ranges::find(term.schools, *school, &Participation::id);
      side.at = at == term.schools.end() ? Participation{} : *at;
      side.retention = placedAt(term, school);
    }
    out.push_back(std::move(side));
  }
  return out;
}

/// "9 to 15 months old": as the terms were counted, which is in one way.
std::string cohortWords(std::span<const TermTotals> terms, SideBySide what) {
  const auto& one = terms.front();
  return std::string("Fully retained is of ") +
         (one.firstPlacementsOnly ? "first sealants" : "sealants, reseals included,") + " " +
         number(one.window.fromMonths) + " to " + number(one.window.untilMonths) +
         " months old in the " + oneOf(what) + ", whichever " + oneOf(what) +
         " they were placed in, among students found.";
}

} // namespace

std::vector<Table> termsReport(std::span<const TermTotals> terms, SideBySide what,
                               std::optional<roster::SchoolId> school) {
  const bool areYears = what == SideBySide::years;
  Table table{areYears ? "Years side by side" : "Terms side by side", columns(what)};
  const auto where = school ? nameOf(terms, *school) : std::string();
  if (!where.empty()) table.title += ": " + where;
  if (terms.empty()) return {std::move(table)};
  const auto sides = sidesOf(terms, school);
  for (const auto& side : sides)
    if (!school || isAnything(side.at, side.retention))
      table.rows.push_back(rowOf(side.said, side.at, side.retention));
  table.notes = {
      areYears
          ? "Each year is counted as in its own report, each student once in it, whatever terms "
            "saw the student; a student seen in two years counts in both, so years are not added."
          : "Each term is counted as in its own report; a student seen in two terms counts in "
            "both, so terms are not added.",
      cohortWords(terms, what),
      "No trend is tested: from " + oneOf(what) + " to " + oneOf(what) +
          (school ? " the grades, people and the students found differ."
                  : " the schools, grades, people and the students found differ.")};
  if (std::ranges::any_of(sides, [](const auto& side) { return side.at.sealedUnscreened > 0; }))
    table.notes.emplace_back("Sealed includes students not screened then, such as resealed at a "
                             "recheck; sealed, % of needing leaves them out.");
  if (school) {
    if (table.rows.size() < sides.size())
      table.notes.push_back("A " + oneOf(what) +
                            " in which nothing was recorded here has no row, and a gap in the "
                            "picture.");
    table.notes.emplace_back(smallNumbers);
  }
  if (!table.rows.empty()) table.plot = plotOf(sides, where.empty() ? where : where + ". ", what);
  std::vector<Table> out{std::move(table)};
  if (school) return out;
  if (auto schools = schoolTable(terms, what); !schools.rows.empty())
    out.push_back(std::move(schools));
  return out;
}

} // namespace gk::reports
