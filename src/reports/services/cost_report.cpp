#include "reports/services/cost_report.h"

#include "reports/print/cells.h"
#include "reports/records/term_view.h"
#include "roster/display_names.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <set>

namespace gk::reports {

namespace {

using roster::Cents;
using Days = std::set<roster::DayId>;

/// Whom the care of those days reached, and what was sealed; each once.
void addReached(const TermView& view, const Days& days, CostOfDays& to) {
  std::set<roster::ChildId> seen;
  const auto addSeen = [&](const auto& perChild) {
    for (const auto& [child, rows] : perChild.all())
      if (std::ranges::any_of(rows, [&](const auto* row) { return days.contains(row->value.day); }))
        seen.insert(child);
  };
  addSeen(view.screenings);
  addSeen(view.placements);
  addSeen(view.varnishes);
  addSeen(view.checks);
  to.seen = static_cast<int>(seen.size());
  for (const auto& [child, rows] : view.placements.all()) {
    std::set<dentition::Tooth> teeth;
    for (const auto* row : rows)
      if (days.contains(row->value.day) && chairside::countsAsSealant(row->value))
        teeth.insert(row->value.tooth);
    for (const auto tooth : teeth)
      ++(tooth.isFirstPermanentMolar()    ? to.firstMolars
         : tooth.isSecondPermanentMolar() ? to.secondMolars
                                          : to.otherTeeth);
  }
}

double dollars(double cents) {
  return std::round(cents) / 100;
}

Cell money(Cents cents) {
  return numberOf(dollars(static_cast<double>(cents)), 2);
}

Cell perOne(Cents cents, int count) {
  if (count <= 0) return noFigure;
  return numberOf(dollars(static_cast<double>(cents) / count), 2);
}

/// Those that anything was spent on.
std::vector<std::size_t> kindsOf(const CostOfDays& all) {
  std::vector<std::size_t> kinds;
  for (std::size_t kind = 0; kind < all.costs.size(); ++kind)
    if (all.costs.at(kind) > 0) kinds.push_back(kind);
  return kinds;
}

std::string capital(std::string words) {
  words.front() = static_cast<char>(words.front() - 'a' + 'A');
  return words;
}

Table costTable(const std::vector<CostOfDays>& schools) {
  const auto& all = schools.back();
  const auto kinds = kindsOf(all);
  Table table{"Cost per student and per tooth, estimated",
              {texts("School"), counts("Days with costs")}};
  table.key = "cost_per_child_and_per_tooth";
  for (const auto kind : kinds)
    table.columns.push_back(numbers(capital(named(static_cast<roster::CostKind>(kind))) + ", $"));
  table.columns.insert(table.columns.end(),
                       {numbers("Total, $"), counts("Students seen", "children_seen"),
                        numbers("Per student seen, $", "per_child_seen"), counts("Teeth sealed"),
                        numbers("Per tooth sealed, $")});
  for (const auto& one : schools) {
    if (one.days == 0) continue;
    Cells cells{one.school, outOf(one.daysCosted, one.days)};
    for (const auto kind : kinds)
      cells.push_back(money(one.costs.at(kind)));
    cells.insert(cells.end(), {money(one.total()), one.seen, perOne(one.total(), one.seen),
                               one.teeth(), perOne(one.total(), one.teeth())});
    table.rows.push_back(std::move(cells));
  }
  if (all.daysCosted == 0) {
    table.rows.clear();
    table.notes = {"No costs are entered. Enter them at close-out (F3) with the hours, or with "
                   "enter-costs."};
    return table;
  }
  table.notes = {
      "Estimates: they include only costs entered with the clinic days. Students and "
      "teeth are from the same days.",
      "Students seen: screened, sealed, varnished or rechecked, each once. The cost of a day is "
      "divided by all students, and separately by all teeth. Do not add the two."};
  if (all.daysCosted < all.days)
    table.notes.push_back("No costs are entered for " +
                          counted(all.days - all.daysCosted, "day", "days") +
                          ": that care and its cost are not counted.");
  return table;
}

Cell cavityRange(const std::optional<estimates::Interval>& range) {
  return range ? Cell(Range{range->low, range->high, 1}) : Cell(noFigure);
}

double perCavity(Cents cents, double averted) {
  return averted > 0 ? dollars(static_cast<double>(cents) / averted)
                     : std::numeric_limits<double>::infinity();
}

/// The most averted makes each the cheapest.
Cell perCavityRange(Cents cents, const std::optional<estimates::Interval>& range) {
  if (!range) return noFigure;
  return Range{perCavity(cents, range->high), perCavity(cents, range->low), 2};
}

Table cavityTable(const CostOfDays& all, const AvertedReport& averted) {
  Table table{"Cost per cavity averted, estimated",
              {texts("Estimate"), numbers("Cavities averted"), ranges("95% CI"),
               numbers("Cost per cavity, $"), ranges("95% CI, $", "cost_range")}};
  if (!averted.averted) {
    table.notes = {capital(averted.whyNot) + "."};
    return table;
  }
  const auto add = [&](const char* words, const estimates::AvertedEstimate& one) {
    table.rows.push_back({words, numberOf(one.averted, 1), cavityRange(one.interval),
                          numberOf(perCavity(all.total(), one.averted), 2),
                          perCavityRange(all.total(), one.interval)});
  };
  add("As measured", *averted.averted);
  if (averted.cautious) add("Sealants protect less while retained", *averted.cautious);
  if (averted.firstsAlone) add("First molars only", *averted.firstsAlone);
  if (const auto& ends = averted.ifNotLookedAt)
    table.rows.push_back({"None, or all, of those not checked protected", cavityRange(ends),
                          noFigure, perCavityRange(all.total(), ends), noFigure});
  table.notes = {
      "An estimate for the program over " + counted(averted.years, "year", "years") + ", of the " +
          counted(averted.sealants, "molar", "molars") +
          " sealed on the days with costs; never for one student.",
      "The CI comes from the CI of cavities averted. The costs are used as "
      "entered; costs left out are not in the CI.",
      "Protect less: " + base::fixed(estimates::cautiousEfficacy, 2) +
          " of full protection while retained, as in the term report. Treatment costs avoided are "
          "not subtracted; the report \"prevention\" does that."};
  if (averted.firstsAlone)
    table.notes.emplace_back("First molars only: all costs, those of sealing other teeth too, over "
                             "the cavities averted in first molars.");
  return table;
}

} // namespace

Cents CostOfDays::total() const {
  return std::accumulate(costs.begin(), costs.end(), Cents{0});
}

std::vector<CostOfDays> costsOf(const TermView& view) {
  const auto said = newestOfEach(view.records.costs, [](const auto& one) { return one.day; });
  CostOfDays all{.school = "All schools"};
  Days allDays;
  std::vector<CostOfDays> schools;
  for (const auto& school : view.records.schools) {
    CostOfDays one{.school = view.schoolName(school.id), .id = school.id};
    Days days;
    for (const auto& day : view.records.days) {
      if (day.value.school != school.id || !view.isOfTerm(day.id)) continue;
      ++one.days;
      const auto cost = said.find(day.id);
      if (cost == said.end()) continue;
      ++one.daysCosted;
      for (const auto& line : cost->second->value.lines)
        one.costs.at(static_cast<std::size_t>(line.kind)) += line.amount;
      days.insert(day.id);
    }
    addReached(view, days, one);
    all.days += one.days;
    all.daysCosted += one.daysCosted;
    for (std::size_t kind = 0; kind < all.costs.size(); ++kind)
      all.costs.at(kind) += one.costs.at(kind);
    allDays.merge(days);
    schools.push_back(std::move(one));
  }
  std::ranges::sort(schools, {}, &CostOfDays::school);
  addReached(view, allDays, all);
  schools.push_back(std::move(all));
  return schools;
}

std::vector<Table> costReport(const TermView& view, const TermTotals& totals) {
  const auto schools = costsOf(view);
  const auto& all = schools.back();
  std::vector<Table> tables{costTable(schools)};
  if (all.daysCosted == 0) return tables;
  tables.push_back(
      cavityTable(all, avertedOf({all.firstMolars, all.secondMolars}, totals.attackRate,
                                 totals.retention.total.protected95, totals.averted.years,
                                 protectedBounds(totals.retention.total))));
  return tables;
}

} // namespace gk::reports
