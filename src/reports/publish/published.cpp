#include "reports/publish/published.h"

#include "reports/publish/publication.h"
#include "reports/publish/published_besides.h"
#include "reports/publish/release_lines.h"

#include <map>
#include <set>

namespace gk::reports {

namespace {

/// Each size tried suppresses the term again.
constexpr std::size_t mostToMerge = 12;

using Term = Publication<Figure>;
using Checks = Publication<CheckFigure>;
std::string period(const TermTotals& totals) {
  return totals.term + ", " + totals.start.shortWords() + " to " +
         std::min(totals.asOf, totals.end).shortWords();
}

Table serviceTable(const Term& term) {
  const auto has = [&](Figure figure) { return term.counts.grid.back().contains(figure); };
  const bool sealedUnscreened = has(Figure::sealedInNeed);
  const bool varnishUnscreened = has(Figure::varnishScreened);
  std::vector<Made<ShownRow<Figure>>> made{
      shownCounts("Needing sealants", "needing", Figure::needing),
      shownRates("% of screened", "needing_share", Figure::needing, Figure::screened),
      shownCounts("Sealed", "sealed", Figure::sealed)};
  if (sealedUnscreened)
    made.push_back(shownCounts("Sealed, screened", "sealed_in_need", Figure::sealedInNeed));
  made.insert(
      made.end(),
      {shownRates("% of needing", "sealed_share",
                  sealedUnscreened ? Figure::sealedInNeed : Figure::sealed, Figure::needing),
       shownCounts("First molars", "first_molars", Figure::firstMolars),
       shownCounts("Second molars", "second_molars", Figure::secondMolars),
       shownCounts("Other teeth", "other_teeth", Figure::otherTeeth),
       shownCounts("Teeth", "teeth", Figure::teeth),
       {numbers("Teeth per sealed student", "teeth_per_child"),
        [](const auto& row) { return row.ratio(Figure::teeth, Figure::sealed); }},
       shownCounts("Varnish", "varnish", Figure::varnish)});
  if (varnishUnscreened)
    made.push_back(shownCounts("Varnish, screened", "varnish_screened", Figure::varnishScreened));
  std::string note = "Needing, sealed and varnish are students; a sealed tooth counts once.";
  if (sealedUnscreened || varnishUnscreened)
    note += " Some were sealed or had varnish without a screening on these dates, such as resealed "
            "at a recheck: need is known of those screened, and shares are of them.";
  return term.table("Services", "School", std::move(made), note);
}

Table findingTable(const Term& term) {
  const bool couldBeTold = !term.counts.grid.back().contains(Figure::decayKnown);
  const auto known = couldBeTold ? Figure::screened : Figure::decayKnown;
  std::vector<Made<ShownRow<Figure>>> made{
      shownCounts("Screened", "screened", Figure::screened),
      shownCounts("Untreated decay", "untreated", Figure::untreated),
      shownCounts("Decay recorded", "decay_recorded", Figure::decayKnown),
      shownRates("%", "untreated_share", Figure::untreated, known),
      shownCounts("Early care", "early", Figure::early),
      shownCounts("Urgent", "urgent", Figure::urgent),
      shownRates("% urgent", "urgent_share", Figure::urgent, Figure::screened)};
  if (couldBeTold) made.erase(made.begin() + 2);
  const auto rows =
      term.rule.bySchool() == BySchool::services ? RowsPrinted::totalAlone : RowsPrinted::all;
  auto table = term.table(
      "Findings", "School", std::move(made),
      std::string("By the screening, not a dental examination.") +
          (couldBeTold ? ""
                       : " Untreated decay, %: of the students of whom it could be told. "
                         "Urgent, %: of all screened."),
      rows);
  if (rows == RowsPrinted::totalAlone)
    table.notes.emplace_back("Of all schools together, as this program puts out what was found.");
  return table;
}

const std::vector<Made<ShownRow<CheckFigure>>>& checkColumns() {
  using enum CheckFigure;
  static const std::vector<Made<ShownRow<CheckFigure>>> made{
      shownCounts("Students due", "children_due", childrenDue),
      shownCounts("Students found", "children_found", childrenFound),
      shownRates("Found, %", "found_share", childrenFound, childrenDue),
      shownCounts("Teeth due", "due", due),
      shownCounts("Examined", "examined", examined),
      shownCounts("Assessable", "assessable", assessable),
      shownCounts("Fully retained", "whole", whole),
      shownCounts("Partially retained", "part", part),
      shownCounts("Missing", "lost", lost),
      shownCounts("Not assessable", "cannot_assess", cannotAssess),
      shownRates("Fully retained, %", "whole_share", whole, assessable)};
  return made;
}

Table checkTable(const TermTotals& totals, const std::optional<Checks>& checks) {
  const auto title = "Retention at " + std::to_string(totals.window.fromMonths) + " to " +
                     std::to_string(totals.window.untilMonths) + " months, by placing school";
  Table table;
  if (checks) {
    table = checks->table(title, "School where placed", checkColumns(),
                          "Found students only. Fully retained, % is of assessable.");
  } else {
    table = tableOf(title, checkColumns());
    table.columns.insert(table.columns.begin(), texts("School where placed"));
    table.rows.emplace_back(table.columns.size(), Withheld{}).front() = "Total";
    table.notes = {"Left out: with what other tables showed, it would reveal small counts."};
  }
  table.key = "retention";
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
                   std::span<const Release> earlier, const Groups& groups, Findings findings) {
  return firstThatHolds(
      totals, rule, earlier, groups, &Release::term, [&](const Groups& merged, RowsPrinted rows) {
        return termCounts(totals, earlier, merged, rule.bySchool(), rows, findings);
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

bool hidesIn(const Cells& row) {
  return std::ranges::any_of(row, &Cell::isWithheld);
}

void addFootnote(Table& table, const SuppressionRule& rule, bool isMerged, RowsPrinted rows,
                 int exposed) {
  const auto under = std::to_string(rule.threshold());
  table.notes.push_back(
      "Small numbers, method " + std::string(smallNumbersMethod) + ": counts of 1 to " +
      std::to_string(rule.threshold() - 1) + " read \"fewer than " + under +
      "\". \"Suppressed\" is a number of any size, or a rate built on one, that "
      "would reveal such a count by subtraction, or is all of its group or all but "
      "fewer than " +
      under + ". Rates on fewer than 30 are marked unstable." + openlyWords(rule));
  if (isMerged)
    table.notes.emplace_back("The smallest schools are one row: with what other tables showed, "
                             "each by itself would give small counts away.");
  if (rows == RowsPrinted::totalAlone)
    table.notes.emplace_back("By school is left out: with what other tables showed, it would "
                             "give small counts away.");
  if (exposed > 0)
    table.notes.push_back(
        "NOT TO BE PUBLISHED: " + counted(exposed, "small count", "small counts") +
        " could still be worked out, from these tables or with earlier ones.");
}

Cell shownCount(int value, Showing showing, const SuppressionRule& rule) {
  switch (showing) {
  case Showing::number:
    return value;
  case Showing::fewer:
    return Withheld{rule.threshold()};
  case Showing::withheld:
    return Withheld{};
  }
  base::fail("no such showing");
}

Table participationTable(std::string title, const std::string& rows, const std::string& note,
                         const Publication<Figure>& term) {
  using enum Figure;
  auto table = term.table(std::move(title), rows,
                          {shownCounts("Enrolled", "enrolled", enrolled),
                           shownCounts("Forms back", "forms_back", formsBack),
                           shownCounts("Consented", "consented", consented),
                           shownRates("% of enrolled", "consented_share", consented, enrolled),
                           shownCounts("Screened", "screened", screened),
                           shownRates("% of consented", "screened_share", screened, consented),
                           shownCounts("Not screened", "not_screened", notScreened)},
                          note);
  if (keepsUnscreened(term))
    table.notes.push_back(
        "Consented and screened are never both shown where fewer than " +
        base::counted(term.rule.threshold(), "student", "students") +
        " with consent were not screened, or none: the difference would tell how many.");
  return table;
}

Published publish(const TermTotals& totals, const SuppressionRule& rule,
                  std::span<const Release> earlier, const Groups& groups, Findings findings) {
  const auto term = termPublished(totals, rule, earlier, groups, findings);
  const auto together = withThoseSealed(groups, earlier);
  const auto checks = checksPublished(totals, rule, earlier, together);
  Published out{
      .tables = {participationTable("Participation: " + period(totals), "School",
                                    "Students, each once, by the school they are in now.", term),
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
  if (term.shown.cells.at(screened) == Showing::number) addStudents(out, totals, rule, earlier);
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
