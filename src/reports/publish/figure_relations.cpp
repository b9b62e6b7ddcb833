#include "reports/publish/figure_relations.h"

#include "reports/publish/row_sums.h"

#include <algorithm>

namespace gk::reports {

namespace {

using enum RelationKind;

/// A child has four first molars and four second ones, and is offered at most these eight.
constexpr int molarsOfAKind = 4;
constexpr int molars = 8;

std::vector<Relation<StudentFigure>> studentRelations() {
  std::vector<Relation<StudentFigure>> out;
  for (const auto& question : studentQuestions()) {
    out.push_back({RelationKind::sum,
                   {StudentFigure::screened},
                   question.figures,
                   1,
                   "The answers to each question add up to the students screened."});
    // That no one answered tells nothing of anybody.
    for (std::size_t i = 0; i + 1 < question.figures.size(); ++i)
      out.push_back({rest,
                     {StudentFigure::screened},
                     {question.figures[i]},
                     1,
                     "No answer has more students than were screened."});
  }
  return out;
}

} // namespace

template <>
const std::vector<Relation<Figure>>& relations() {
  using enum Figure;
  static const std::vector<Relation<Figure>> all{
      {rest, {enrolled}, {formsBack}, 1, "Forms back are of those enrolled."},
      {rest, {enrolled}, {consented}, 1, "Consented are of those enrolled."},
      {rest, {formsBack}, {consented}, 1, "Consented are of the forms back."},
      {rest, {formsBack}, {screened}, 1, "Screened are of the forms back."},
      {sum, {consented}, {screened, notScreened}, 1, "Consented = screened + not screened."},
      {rest, {screened}, {needing}, 1, "Needing sealants are of those screened."},
      {rest, {needing}, {sealedInNeed}, 1, "Sealed, of those screened, are of those needing."},
      {rest, {screened}, {sealedInNeed}, 1, "They are of those screened."},
      {sum, {sealed}, {sealedInNeed}, 1, "All sealed had been screened, where that is so."},
      {few, {sealed}, {sealedInNeed}, 1, "Some were sealed without a screening."},
      {rest, {screened}, {varnishScreened}, 1, "Varnish is of those screened, where that is so."},
      {sum, {varnish}, {varnishScreened}, 1, "All with varnish were screened, where that is so."},
      {few, {varnish}, {varnishScreened}, 1, "Some had varnish without a screening."},
      {rest, {screened}, {untreated}, 1, "Untreated decay is of those screened."},
      {sum, {screened}, {decayKnown}, 1, "Decay was recorded of all screened, where that is so."},
      {few, {screened}, {decayKnown}, 1, "Decay was recorded of some of those screened."},
      {rest, {decayKnown}, {untreated}, 1, "Untreated decay is of those recorded."},
      {rest, {screened}, {early, urgent}, 1, "Early and urgent are of those screened."},
      {sum, {untreated}, {early, urgent}, 1, "Untreated = early + urgent, where that is so."},
      {sum, {teeth}, {firstMolars, secondMolars, otherTeeth}, 1, "Teeth = first + second + other."},
      {slack, {teeth}, {sealed}, 1, "A sealed student has a sealed tooth."},
      {slack, {firstMolars}, {sealed}, 1, "A sealed student has a sealed first molar, as a rule."},
      {slack, {sealed}, {firstMolars}, molarsOfAKind, "A student has at most four first molars."},
      {slack, {sealed}, {secondMolars}, molarsOfAKind, "A student has at most four second molars."},
  };
  return all;
}

template <>
const std::vector<Relation<CheckFigure>>& relations() {
  using enum CheckFigure;
  static const std::vector<Relation<CheckFigure>> all{
      {rest, {childrenDue}, {childrenFound}, 1, "Students found are of those due."},
      {rest, {due}, {examined}, 1, "Teeth examined are of those due."},
      {slack, {due}, {childrenDue}, 1, "A student that is due has a tooth due."},
      {slack, {childrenDue}, {due}, molars, "A student has at most eight molars due."},
      {slack,
       {childrenDue},
       {due},
       molarsOfAKind,
       "Four of them where only first molars are sealed."},
      {slack, {childrenFound}, {examined}, molarsOfAKind, "The same of those examined."},
      {slack, {examined}, {childrenFound}, 1, "A student that was found had a tooth examined."},
      {slack, {childrenFound}, {examined}, molars, "At most eight molars of it were examined."},
      {slack,
       {due, childrenFound},
       {examined, childrenDue},
       1,
       "A student that was not found has a tooth that was not examined."},
      {sum, {examined}, {assessable, cannotAssess}, 1, "Examined = assessable + cannot assess."},
      {sum, {assessable}, {whole, part, lost}, 1, "Assessable = whole + part + lost."},
  };
  return all;
}

template <>
const std::vector<Relation<StudentFigure>>& relations() {
  static const auto all = studentRelations();
  return all;
}

const std::vector<CohortRelation>& cohortRelations() {
  static const std::vector<CohortRelation> all{
      {Figure::sealed, CheckFigure::childrenDue,
       "Students due were sealed in the term before: the same number, where that is so."},
      {Figure::teeth, CheckFigure::due,
       "Teeth due were sealed in the term before: the same number, where that is so."},
  };
  return all;
}

std::map<Figure, std::optional<int>> rowOf(const Participation& at) {
  return {{Figure::enrolled, at.enrolled},
          {Figure::formsBack, at.formsBack},
          {Figure::consented, at.consented},
          {Figure::screened, at.screened},
          {Figure::notScreened, at.consented - at.screened},
          {Figure::needing, at.needing},
          {Figure::sealed, at.sealed},
          {Figure::firstMolars, at.firstMolars},
          {Figure::secondMolars, at.secondMolars},
          {Figure::otherTeeth, at.otherTeeth},
          {Figure::teeth, at.teeth()},
          {Figure::varnish, at.varnish},
          {Figure::untreated, at.untreated},
          {Figure::early, at.early},
          {Figure::urgent, at.urgent},
          {Figure::decayKnown, at.decayKnown()},
          {Figure::sealedInNeed, at.sealedInNeed()},
          {Figure::varnishScreened, at.varnishScreened()}};
}

std::map<CheckFigure, std::optional<int>> rowOf(const RetentionLine& at) {
  return {{CheckFigure::childrenDue, at.childrenDue},
          {CheckFigure::childrenFound, at.childrenFound},
          {CheckFigure::due, at.due},
          {CheckFigure::examined, at.examined},
          {CheckFigure::assessable, at.assessable},
          {CheckFigure::whole, at.whole},
          {CheckFigure::part, at.part},
          {CheckFigure::lost, at.lost},
          {CheckFigure::cannotAssess, at.cannotAssess}};
}

std::map<CheckFigure, std::optional<int>> rowOf(const EarlyChecks& at) {
  return {{CheckFigure::childrenFound, at.children},
          {CheckFigure::examined, at.examined},
          {CheckFigure::assessable, at.assessable},
          {CheckFigure::whole, at.whole},
          {CheckFigure::part, at.part},
          {CheckFigure::lost, at.lost},
          {CheckFigure::cannotAssess, at.cannotAssess}};
}

std::map<StudentFigure, std::optional<int>> rowOf(const StudentCounts& counts) {
  std::map<StudentFigure, std::optional<int>> row;
  for (std::size_t i = 0; i < counts.size(); ++i)
    row[static_cast<StudentFigure>(i)] = counts.at(i);
  return row;
}

template <>
const std::vector<std::pair<Figure, Figure>>& rates() {
  using enum Figure;
  static const std::vector<std::pair<Figure, Figure>> all{
      {consented, enrolled}, {screened, consented},   {needing, screened},
      {sealed, needing},     {teeth, sealed},         {untreated, screened},
      {urgent, screened},    {untreated, decayKnown}, {sealedInNeed, needing}};
  return all;
}

template <>
const std::vector<std::pair<CheckFigure, CheckFigure>>& rates() {
  using enum CheckFigure;
  static const std::vector<std::pair<CheckFigure, CheckFigure>> all{{childrenFound, childrenDue},
                                                                    {whole, assessable}};
  return all;
}

template <>
const std::vector<std::pair<StudentFigure, StudentFigure>>& rates() {
  static const std::vector<std::pair<StudentFigure, StudentFigure>> none;
  return none;
}

double dearness(Figure figure) {
  switch (figure) {
  case Figure::screened:
    return 5;
  case Figure::consented:
    return 4;
  case Figure::sealed:
  case Figure::teeth:
    return 3;
  case Figure::enrolled:
  case Figure::formsBack:
  case Figure::needing:
  case Figure::varnish:
    return 2;
  case Figure::firstMolars:
  case Figure::secondMolars:
  case Figure::otherTeeth:
  case Figure::untreated:
  case Figure::sealedInNeed:
    return 1;
  case Figure::notScreened:
  case Figure::early:
  case Figure::urgent:
  case Figure::decayKnown:
  case Figure::varnishScreened:
    return .5;
  }
  base::fail("no such figure");
}

double dearness(CheckFigure figure) {
  switch (figure) {
  case CheckFigure::childrenDue:
  case CheckFigure::childrenFound:
  case CheckFigure::assessable:
  case CheckFigure::whole:
    return 2;
  case CheckFigure::due:
  case CheckFigure::examined:
    return 1;
  case CheckFigure::part:
  case CheckFigure::lost:
  case CheckFigure::cannotAssess:
    return .5;
  }
  base::fail("no such figure");
}

double dearness(StudentFigure figure) {
  return figure == StudentFigure::screened ? 4 : 1;
}

bool isOpen(Figure figure, BySchool bySchool) {
  return figure == Figure::enrolled ||
         (bySchool == BySchool::services && figure <= Figure::notScreened);
}

bool isFinding(Figure figure) {
  return figure == Figure::untreated || figure == Figure::early || figure == Figure::urgent ||
         figure == Figure::decayKnown;
}

CountKind kindOf(StudentFigure /*figure*/, BySchool /*bySchool*/) {
  return CountKind::count;
}

CountKind kindOf(Figure figure, BySchool bySchool) {
  const bool isOpen = bySchool == BySchool::services;
  switch (figure) {
  case Figure::enrolled:
    return CountKind::slack;
  case Figure::notScreened:
    return isOpen ? CountKind::slack : CountKind::rest;
  case Figure::formsBack:
  case Figure::consented:
  case Figure::screened:
    return isOpen ? CountKind::slack : CountKind::count;
  case Figure::needing:
  case Figure::sealed:
  case Figure::firstMolars:
  case Figure::secondMolars:
  case Figure::otherTeeth:
  case Figure::teeth:
  case Figure::varnish:
  case Figure::untreated:
  case Figure::early:
  case Figure::urgent:
  case Figure::decayKnown:
  case Figure::sealedInNeed:
  case Figure::varnishScreened:
    return CountKind::count;
  }
  base::fail("no such figure");
}

CountKind kindOf(CheckFigure /*figure*/, BySchool /*bySchool*/) {
  return CountKind::count;
}

std::map<Figure, std::size_t> withSameAs(std::map<Figure, std::size_t> row) {
  for (const auto& [part, all] : {std::pair(Figure::sealedInNeed, Figure::sealed),
                                  std::pair(Figure::varnishScreened, Figure::varnish)})
    if (const auto at = row.find(all); at != row.end()) row.try_emplace(part, at->second);
  return row;
}

void relate(CountSystem& system, const std::map<Figure, std::size_t>& row, BySchool bySchool) {
  const auto asRead = withSameAs(row);
  RowSums sums(system, asRead);
  for (const auto& relation : relations<Figure>())
    // How many were not screened is a count by itself, also where services are shown.
    sums.add(relation, bySchool == BySchool::all || relation.kind == few ||
                           std::ranges::any_of(relation.parts, isFinding));
}

void relate(CountSystem& system, const std::map<CheckFigure, std::size_t>& row, BySchool bySchool) {
  RowSums sums(system, row);
  for (const auto& relation : relations<CheckFigure>())
    sums.add(relation, bySchool == BySchool::all);
}

void relate(CountSystem& system, const std::map<StudentFigure, std::size_t>& row,
            BySchool /*bySchool*/) {
  RowSums sums(system, row);
  for (const auto& relation : relations<StudentFigure>())
    sums.add(relation, true);
}

} // namespace gk::reports
