#include "reports/publish/published.h"

#include "reports/publish/publication.h"
#include "reports/publish/published_besides.h"

#include <map>
#include <set>

namespace gk::reports {

namespace {

/// Each size tried suppresses the term anew.
constexpr std::size_t mostToMerge = 12;

using Term = Publication<Figure>;
using Checks = Publication<CheckFigure>;
std::string period(const TermTotals& totals) {
  return totals.term + ", " + totals.start.shortWords() + " to " +
         std::min(totals.asOf, totals.end).shortWords();
}

Table serviceTable(const Term& term) {
  Table table{"Services",
              {{"School"},
               right("Needing sealants"),
               right("% of screened"),
               right("Sealed"),
               right("% of needing"),
               right("First molars"),
               right("Second molars"),
               right("Other teeth"),
               right("Teeth"),
               right("Teeth per sealed child"),
               right("Varnish")},
              {},
              {"Needing, sealed and varnish are children; a sealed tooth counts once."}};
  term.fill(table, [](const ShownRow<Figure>& row) -> Cells {
    return {row.count(Figure::needing),
            row.rate(Figure::needing, Figure::screened),
            row.count(Figure::sealed),
            row.rate(Figure::sealed, Figure::needing),
            row.count(Figure::firstMolars),
            row.count(Figure::secondMolars),
            row.count(Figure::otherTeeth),
            row.count(Figure::teeth),
            row.ratio(Figure::teeth, Figure::sealed),
            row.count(Figure::varnish)};
  });
  return table;
}

Table findingTable(const Term& term) {
  const bool couldBeTold = !term.counts.grid.back().contains(Figure::decayKnown);
  Table table{"Findings", {{"School"}, right("Screened"), right("Untreated decay")}, {}, {}};
  if (couldBeTold)
    table.notes = {"By the screening, not a dental examination."};
  else {
    table.columns.push_back(right("Decay recorded"));
    table.notes = {
        "By the screening, not a dental examination. Untreated decay, %: of the children "
        "of whom it could be told. Urgent, %: of all screened."};
  }
  for (const auto* heading : {"%", "Early care", "Urgent", "% urgent"})
    table.columns.push_back(right(heading));
  const auto rows =
      term.rule.bySchool() == BySchool::services ? RowsPrinted::totalAlone : RowsPrinted::all;
  term.fill(
      table,
      [&](const ShownRow<Figure>& row) {
        Cells cells{row.count(Figure::screened), row.count(Figure::untreated)};
        if (!couldBeTold) cells.push_back(row.count(Figure::decayKnown));
        for (auto& cell :
             {row.rate(Figure::untreated, couldBeTold ? Figure::screened : Figure::decayKnown),
              row.count(Figure::early), row.count(Figure::urgent),
              row.rate(Figure::urgent, Figure::screened)})
          cells.push_back(cell);
        return cells;
      },
      rows);
  if (rows == RowsPrinted::totalAlone)
    table.notes.emplace_back("Of all schools together, as this program puts out what was found.");
  return table;
}

Table checkTable(const TermTotals& totals, const std::optional<Checks>& checks) {
  Table table{"Retention at " + std::to_string(totals.window.fromMonths) + " to " +
                  std::to_string(totals.window.untilMonths) + " months, by placing school",
              {{"School where placed"},
               right("Children due"),
               right("Children found"),
               right("Found, %"),
               right("Teeth due"),
               right("Examined"),
               right("Assessable"),
               right("Fully retained"),
               right("Partially retained"),
               right("Missing"),
               right("Not assessable"),
               right("Fully retained, %")},
              {},
              {"Found children only. Fully retained, % is of assessable."}};
  if (!checks) {
    table.rows.emplace_back(table.columns.size(), "suppressed").front() = "Total";
    table.notes = {"Left out: with what other tables showed, it would reveal small counts."};
    return table;
  }
  checks->fill(table, [](const ShownRow<CheckFigure>& row) -> Cells {
    return {row.count(CheckFigure::childrenDue),
            row.count(CheckFigure::childrenFound),
            row.rate(CheckFigure::childrenFound, CheckFigure::childrenDue),
            row.count(CheckFigure::due),
            row.count(CheckFigure::examined),
            row.count(CheckFigure::assessable),
            row.count(CheckFigure::whole),
            row.count(CheckFigure::part),
            row.count(CheckFigure::lost),
            row.count(CheckFigure::cannotAssess),
            row.rate(CheckFigure::whole, CheckFigure::assessable)};
  });
  return table;
}

/// In each row where few or none of those with consent were not screened, consented or screened has
/// to go. A row that shows both, as an earlier table did, makes the sentence untrue of it.
bool keepsUnscreened(const Term& term) {
  bool keepsAny = false;
  for (const auto& row : term.counts.grid) {
    const auto rest = row.find(Figure::notScreened);
    const auto consented = row.find(Figure::consented);
    const auto screened = row.find(Figure::screened);
    if (rest == row.end() || consented == row.end() || screened == row.end()) continue;
    const auto& cell = term.counts.system.cells.at(rest->second);
    if (cell.kind == CountKind::slack || cell.value >= term.rule.threshold()) continue;
    if (term.shown.cells.at(consented->second) == Showing::number &&
        term.shown.cells.at(screened->second) == Showing::number)
      return false;
    keepsAny = true;
  }
  return keepsAny;
}

std::vector<std::string> bySize(const TermTotals& totals) {
  auto schools = totals.schools;
  std::ranges::stable_sort(schools, {}, &Participation::screened);
  std::vector<std::string> keys;
  for (const auto& one : schools)
    keys.push_back(keyOf(one));
  return keys;
}

/// As asked for; where what went out lets no pattern of hiding stand, with the smallest schools as
/// one row, then the total alone; as asked for, and leaky, where nothing holds.
template <class E, class CountsOf>
Publication<E> firstThatHolds(const TermTotals& totals, const SuppressionRule& rule,
                              std::span<const Release> earlier, const Groups& groups,
                              std::vector<ReleasedRow<E>> Release::*rows, CountsOf countsOf) {
  const auto made = [&](const Groups& merged, RowsPrinted printed, Search search) {
    auto one = publication(countsOf(merged, printed), rule, earlier, rows, search);
    one.rows = printed;
    one.isMerged = merged != groups;
    return one;
  };
  auto apart = made(groups, RowsPrinted::all, Search::untilLeak);
  if (!apart.isLeaky()) return apart;
  const auto keys = bySize(totals);
  if (groups.empty())
    for (const auto size : std::set{std::size_t{2}, keys.size() / 3, keys.size() / 2}) {
      if (size < 2 || size >= keys.size()) continue;
      auto merged = made({{keys.begin(), keys.begin() + static_cast<std::ptrdiff_t>(size)}},
                         RowsPrinted::all, Search::untilLeak);
      if (!merged.isLeaky()) return merged;
    }
  auto total = made(groups, RowsPrinted::totalAlone, Search::untilLeak);
  return total.isLeaky() ? made(groups, RowsPrinted::all, Search::whole) : std::move(total);
}

Term termPublished(const TermTotals& totals, const SuppressionRule& rule,
                   std::span<const Release> earlier, const Groups& groups) {
  return firstThatHolds(totals, rule, earlier, groups, &Release::term,
                        [&](const Groups& merged, RowsPrinted rows) {
                          return termCounts(totals, earlier, merged, rule.bySchool(), rows);
                        });
}

/// Schools that were one row when these sealants were placed stay one: how many are due of each
/// would tell how many of it had been sealed. A school of two groups makes them one.
Groups withThoseSealed(Groups groups, std::span<const Release> earlier) {
  std::map<std::string, const Release*> newest; // of each term
  for (const auto& one : earlier)
    if (one.of == OfTerm::sealedBefore && !one.term.empty()) newest[one.otherTerm] = &one;
  for (const auto& [term, release] : newest)
    for (const auto& row : release->term) {
      if (row.schools.size() < 2) continue;
      std::set<std::string> joined(row.schools.begin(), row.schools.end());
      std::erase_if(groups, [&](const auto& group) {
        const bool meets =
            std::ranges::any_of(group, [&](const auto& school) { return joined.contains(school); });
        if (meets) joined.insert(group.begin(), group.end());
        return meets;
      });
      groups.emplace_back(joined.begin(), joined.end());
    }
  return groups;
}

/// None where not even the total may stand.
std::optional<Checks> checksPublished(const TermTotals& totals, const SuppressionRule& rule,
                                      std::span<const Release> earlier, const Groups& groups) {
  auto made = firstThatHolds(totals, rule, earlier, groups, &Release::checks,
                             [&](const Groups& merged, RowsPrinted rows) {
                               return checkCounts(totals, earlier, merged, rule.bySchool(), rows);
                             });
  if (made.isLeaky()) return std::nullopt;
  return made;
}

} // namespace

bool hidesIn(const std::vector<std::string>& row) {
  return std::ranges::any_of(row, [](const std::string& cell) {
    return cell == "suppressed" || cell.starts_with("fewer than");
  });
}

std::string shownCount(int value, Showing showing, const SuppressionRule& rule) {
  switch (showing) {
  case Showing::number:
    return number(value);
  case Showing::fewer:
    return "fewer than " + number(rule.threshold());
  case Showing::withheld:
    return "suppressed";
  }
  base::fail("no such showing");
}

Table participationTable(std::string title, std::string rows, std::string note,
                         const Publication<Figure>& term) {
  Table table{std::move(title),
              {{std::move(rows)},
               right("Enrolled"),
               right("Forms back"),
               right("Consented"),
               right("% of enrolled"),
               right("Screened"),
               right("% of consented"),
               right("Not screened")},
              {},
              {std::move(note)}};
  term.fill(table, [](const ShownRow<Figure>& row) -> Cells {
    return {row.count(Figure::enrolled),   row.count(Figure::formsBack),
            row.count(Figure::consented),  row.rate(Figure::consented, Figure::enrolled),
            row.count(Figure::screened),   row.rate(Figure::screened, Figure::consented),
            row.count(Figure::notScreened)};
  });
  if (keepsUnscreened(term))
    table.notes.push_back(
        "Consented and screened are never both shown where fewer than " +
        std::to_string(term.rule.threshold()) +
        " children with consent were not screened, or none: the difference would tell how many.");
  return table;
}

Published publish(const TermTotals& totals, const SuppressionRule& rule,
                  std::span<const Release> earlier, const Groups& groups) {
  const auto term = termPublished(totals, rule, earlier, groups);
  const auto together = withThoseSealed(groups, earlier);
  const auto checks = checksPublished(totals, rule, earlier, together);
  Published out{
      .tables = {participationTable("Participation: " + period(totals), "School",
                                    "Children, each once, by the school they are in now.", term),
                 serviceTable(term), findingTable(term), checkTable(totals, checks)},
      .release = {rule.threshold(), term.released(), {}, {}, {}, {}, rule.bySchool()},
      .counts = term.size(),
      .hidden = term.hidden(),
      .exposed = term.exposed()};
  if (checks && together != groups)
    out.tables.back().notes.emplace_back("Schools that were one row in the term in which these "
                                         "sealants were placed are one row here.");
  if (checks) {
    out.release.checks = checks->released();
    out.counts += checks->size();
    out.hidden += checks->hidden();
  }
  addShortTerm(out, totals, rule, earlier);
  // Who they are adds up to how many they are.
  const auto screened = term.counts.grid.back().at(Figure::screened);
  if (term.shown.cells.at(screened) == Showing::number) addPupils(out, totals, rule, earlier);
  return out;
}

Groups groupsIssued(std::span<const Release> earlier) {
  Groups groups;
  if (const auto own = ofSameTerm(earlier); !own.empty())
    for (const auto& row : own.back().term)
      if (row.schools.size() > 1) groups.push_back(row.schools);
  return groups;
}

Groups groupsToOffer(const TermTotals& totals, const SuppressionRule& rule,
                     std::span<const Release> earlier) {
  const auto keys = bySize(totals);
  const auto apart = publish(totals, rule, earlier);
  for (std::size_t size = 2; size < std::min(keys.size(), mostToMerge + 1); ++size) {
    Groups groups{{keys.begin(), keys.begin() + static_cast<std::ptrdiff_t>(size)}};
    const auto merged = publish(totals, rule, earlier, groups);
    if (merged.hidden * apart.counts < apart.hidden * merged.counts) return groups;
  }
  return {};
}

} // namespace gk::reports
