#pragma once

#include "reports/publish/published_counts.h"

#include <map>
#include <utility>
#include <vector>

namespace gk::reports {

/// What is known of the figures of one published row, whichever set they are of. The relations are
/// a list, declared here once: suppression hides by it, an issue is checked by it, and
/// docs/methods.md says it in the same words.

enum class RelationKind {
  sum,  ///< the parts are the whole; where it is so, else the reader knows nothing of it
  rest, ///< what the whole has left beside its parts is a number of children or teeth
  few,  ///< the same, but that nothing is left tells nothing of anybody
  slack ///< it cannot be below zero, and is no one's secret
};

/// `times` what `whole` adds up to, and `parts`.
template <class E>
struct Relation {
  RelationKind kind;
  std::vector<E> whole;
  std::vector<E> parts;
  int times;
  const char* words;
};
template <class E>
const std::vector<Relation<E>>& relations();

/// Children and teeth that were sealed in one term are due in a later one.
struct CohortRelation {
  Figure sealedThen;
  CheckFigure dueNow;
  const char* words;
};
const std::vector<CohortRelation>& cohortRelations();

/// A call for a dentist is of a child that was found in need.
struct CallRelation {
  Figure found;
  std::size_t urgency; ///< place of its row among the calls
  const char* words;
};
const std::vector<CallRelation>& callRelations();

/// The rates that the tables print, part and whole.
template <class E>
const std::vector<std::pair<E, E>>& rates();

/// The values; none for a figure that no one knows.
std::map<Figure, std::optional<int>> rowOf(const Participation& at);
std::map<CheckFigure, std::optional<int>> rowOf(const RetentionLine& at);
std::map<CheckFigure, std::optional<int>> rowOf(const EarlyChecks& at);
std::map<StudentFigure, std::optional<int>> rowOf(const StudentCounts& counts);
std::map<ReferralFigure, std::optional<int>> rowOf(const ReferralCounts& at);

/// How much is lost with a count, beside the rates built on it: participation is hidden last, then
/// services, and findings first. What only fills a column goes before all of them.
double dearness(Figure figure);
double dearness(CheckFigure figure);
double dearness(StudentFigure figure);
double dearness(ReferralFigure figure);

/// What is never hidden: how many students a school or a grade has, which everybody can look up,
/// and who took part where the program shows that openly.
bool isOpen(Figure figure, BySchool bySchool);
constexpr bool isOpen(CheckFigure /*figure*/, BySchool /*bySchool*/) {
  return false;
}
constexpr bool isOpen(StudentFigure /*figure*/, BySchool /*bySchool*/) {
  return false;
}
constexpr bool isOpen(ReferralFigure /*figure*/, BySchool /*bySchool*/) {
  return false;
}

/// What was found of the children, unlike who took part and what was done.
bool isFinding(Figure figure);

CountKind kindOf(Figure figure, BySchool bySchool);
CountKind kindOf(CheckFigure figure, BySchool bySchool);
CountKind kindOf(StudentFigure figure, BySchool bySchool);
CountKind kindOf(ReferralFigure figure, BySchool bySchool);

/// Where a row does not tell sealed and screened from sealed, they are one count, and so of
/// varnish.
std::map<Figure, std::size_t> withSameAs(std::map<Figure, std::size_t> row);

/// Tells the system what one row's figures, at these places in it, have to do with each other.
void relate(CountSystem& system, const std::map<Figure, std::size_t>& row, BySchool bySchool);
void relate(CountSystem& system, const std::map<CheckFigure, std::size_t>& row, BySchool bySchool);
void relate(CountSystem& system, const std::map<StudentFigure, std::size_t>& row,
            BySchool bySchool);
void relate(CountSystem& system, const std::map<ReferralFigure, std::size_t>& row,
            BySchool bySchool);
/// The same of a row of the state's indicators, which are of all schools.
void relate(CountSystem& system, const std::map<IndicatorFigure, std::size_t>& row);
/// Figures of a term's total that a state's report has too.
const std::vector<std::pair<Figure, IndicatorFigure>>& toldToStates();

} // namespace gk::reports
