#include "reports/publish/figure_relations.h"
#include "reports/publish/placed_rows.h"
#include "reports/publish/row_sums.h"

#include <algorithm>
#include <array>

// Of the state's indicators, and of referrals.

namespace gk::reports {

template <>
const std::vector<Relation<IndicatorFigure>>& relations() {
  using enum IndicatorFigure;
  using enum RelationKind;
  static const std::vector<Relation<IndicatorFigure>> all{
      {few, {screened}, {untreatedKnown}, 1, "Untreated decay is known of those screened."},
      {few, {screened}, {treatedKnown}, 1, "Treated decay is known of those screened."},
      {few, {screened}, {experienceKnown}, 1, "Experience is known of those screened."},
      {few, {screened}, {sealantsKnown}, 1, "Sealants are known of those screened."},
      {rest, {untreatedKnown}, {untreated}, 1, "Untreated decay is of those known."},
      {rest, {treatedKnown}, {treated}, 1, "Treated decay is of those known."},
      {rest, {experienceKnown}, {experience}, 1, "Experience is of those known."},
      {rest, {sealantsKnown}, {sealants}, 1, "Sealants are of those known."},
      {few, {experience}, {untreated}, 1, "Experience less untreated decay is treated only."},
      {few, {experience}, {treated}, 1, "Experience less treated decay is untreated only."},
      {few, {untreated, treated}, {experience}, 1, "Untreated + treated less experience is both."},
      {sum, {screened}, {noProblem, early, urgent}, 1, "Screened = no problem + early + urgent."},
      {rest, {screened}, {noProblem}, 1, "No obvious problem is of those screened."},
      {rest, {screened}, {early}, 1, "Early care is of those screened."},
      {rest, {screened}, {urgent}, 1, "Urgent care is of those screened."},
      {sum, {untreated}, {early, urgent}, 1, "Untreated = early + urgent, where that is so."},
  };
  return all;
}

template <>
const std::vector<Relation<ReferralFigure>>& relations() {
  using enum ReferralFigure;
  using enum RelationKind;
  static const std::vector<Relation<ReferralFigure>> all{
      {sum,
       {made},
       {complete, started, declined, moved, lost, open},
       1,
       "Made = complete + started + declined + moved + lost to follow-up + open."},
      {rest, {made}, {guardianReached}, 1, "Guardians were reached for some of those made."},
      {slack, {open, started}, {openLong}, 1, "Open for long are of those open or started."},
  };
  return all;
}

const std::vector<CallRelation>& callRelations() {
  static const std::vector<CallRelation> all{
      {Figure::early, 0, "Early referrals are of students found in need of early care."},
      {Figure::urgent, 1, "Urgent referrals are of students found in need of urgent care."},
  };
  return all;
}

std::map<ReferralFigure, std::optional<int>> rowOf(const ReferralCounts& at) {
  using enum ReferralFigure;
  return {{made, at.made},         {guardianReached, at.reached},
          {complete, at.complete}, {started, at.started},
          {declined, at.declined}, {moved, at.moved},
          {lost, at.lost},         {open, at.open},
          {openLong, at.openLong}};
}

template <>
const std::vector<std::pair<ReferralFigure, ReferralFigure>>& rates() {
  using enum ReferralFigure;
  static const std::vector<std::pair<ReferralFigure, ReferralFigure>> all{{complete, made}};
  return all;
}

double dearness(ReferralFigure figure) {
  return figure == ReferralFigure::made || figure == ReferralFigure::complete ? 2 : 1;
}

CountKind kindOf(ReferralFigure /*figure*/, BySchool /*bySchool*/) {
  return CountKind::count;
}

void relate(CountSystem& system, const std::map<IndicatorFigure, std::size_t>& row) {
  RowSums sums(system, row);
  for (const auto& relation : relations<IndicatorFigure>())
    sums.add(relation, true);
}

const std::vector<std::pair<Figure, IndicatorFigure>>& toldToStates() {
  static const std::vector<std::pair<Figure, IndicatorFigure>> all{
      {Figure::screened, IndicatorFigure::screened},
      {Figure::untreated, IndicatorFigure::untreated},
      {Figure::decayKnown, IndicatorFigure::untreatedKnown},
      {Figure::early, IndicatorFigure::early},
      {Figure::urgent, IndicatorFigure::urgent}};
  return all;
}

std::vector<Placed<IndicatorFigure>> placeIndicators(CountSystem& system, const Release& page,
                                                     const Placed<Figure>& then) {
  using enum IndicatorFigure;
  // What is known of all in every row is the screened under another name.
  std::array knownOfAll{untreatedKnown, treatedKnown, experienceKnown, sealantsKnown};
  const auto end = std::ranges::remove_if(knownOfAll, [&](IndicatorFigure known) {
                     return !std::ranges::all_of(page.indicators, [&](const auto& row) {
                       return row.cells.at(known).value == row.cells.at(screened).value;
                     });
                   }).begin();
  std::vector<Placed<IndicatorFigure>> placed;
  for (const auto& row : page.indicators) {
    auto& now = placed.emplace_back(row.schools, then.row);
    for (const auto& [figure, cell] : row.cells)
      now.cells[figure] =
          std::find(knownOfAll.begin(), end, figure) != end
              ? now.cells.at(screened)
              : system.add({.value = cell.value,
                            .row = then.row,
                            .printed = false,
                            .outAlready = cell.showing == Showing::number,
                            .saidUnder = cell.showing == Showing::fewer ? page.under : 0});
    relate(system, now.cells);
  }
  if (placed.empty()) return placed;
  addSum(system, placed.back(), {placed.begin(), placed.end() - 1});
  for (const auto& [ours, theirs] : toldToStates())
    if (const auto at = then.cells.find(ours); at != then.cells.end())
      if (system.cells.at(at->second).value ==
          system.cells.at(placed.back().cells.at(theirs)).value)
        system.sums.push_back({placed.back().cells.at(theirs), {at->second}});
  return placed;
}

void relate(CountSystem& system, const std::map<ReferralFigure, std::size_t>& row,
            BySchool /*bySchool*/) {
  RowSums sums(system, row);
  for (const auto& relation : relations<ReferralFigure>())
    sums.add(relation, true);
}

} // namespace gk::reports
