#pragma once

#include "base/enum_names.h"
#include "reports/publish/suppression.h"
#include "reports/records/referral_counts.h"
#include "reports/term/term_totals.h"

#include <array>
#include <map>
#include <span>

namespace gk::reports {

/// What is published of a school: children, but for the teeth.
enum class Figure {
  enrolled,
  formsBack,
  consented,
  screened,
  notScreened,
  needing,
  sealed,
  firstMolars,
  secondMolars,
  otherTeeth,
  teeth,
  varnish,
  untreated,
  early,
  urgent,
  decayKnown,     ///< where it could not be told of every child
  sealedInNeed,   ///< where some that were sealed had not been screened: those who had
  varnishScreened ///< the same of varnish
};
/// What is published of the checks: teeth, but for the children.
enum class CheckFigure {
  childrenDue,
  childrenFound,
  due,
  examined,
  assessable,
  whole,
  part,
  lost,
  cannotAssess
};

/// What is published of the calls for a dentist, of either urgency.
enum class ReferralFigure {
  made,
  guardianReached,
  complete,
  started,
  declined,
  moved,
  lost,
  open,
  openLong
};

/// What is published of the screening of one grade group: children. Where it is known of all of
/// them, the number for whom it is known is that of the screened.
enum class IndicatorFigure {
  screened,
  untreatedKnown,
  untreated,
  treatedKnown,
  treated,
  experienceKnown,
  experience,
  sealantsKnown,
  sealants,
  noProblem,
  early,
  urgent
};

/// Schools, by their keys (keyOf), or grades that are shown as one row.
using Groups = std::vector<std::vector<std::string>>;

/// Grades by number, K as 0, that are shown as one row.
struct GradeBand {
  int first;
  int last;
  bool operator==(const GradeBand&) const = default;
};
using GradeBands = std::vector<GradeBand>;

/// One row of what went out: the counts themselves, and how each was shown.
template <class E>
struct ReleasedRow {
  struct Cell {
    int value;
    Showing showing;
    bool operator==(const Cell&) const = default;
  };
  std::vector<std::string> schools; ///< keys of which it is the sum; none for the total
  std::map<E, Cell> cells;
  bool operator==(const ReleasedRow&) const = default;
};

/// What a school is known by in what went out: its identity, since a name may change and two
/// schools may have one. A grade is known by itself.
std::string keyOf(const Participation& school);

/// What a release has to do with the term that is published now.
enum class OfTerm {
  same,
  sealedBefore, ///< what it says was sealed may be due now
  dueAfter,     ///< what it says was due may have been sealed now
  other
};

/// All that one published set of tables told, and what it kept back. For the logbook alone.
struct Release {
  int under = 0; ///< its threshold
  std::vector<ReleasedRow<Figure>> term;
  std::vector<ReleasedRow<CheckFigure>> checks;
  /// None where no table by grade went out; of a state's report, those screened alone.
  std::vector<ReleasedRow<Figure>> grades{};
  std::vector<ReleasedRow<CheckFigure>> shortTerm{};  ///< one row, of all; none without a check
  std::vector<ReleasedRow<StudentFigure>> students{}; ///< one row, of all; none where left out
  BySchool bySchool = BySchool::all;
  std::vector<ReleasedRow<ReferralFigure>> referrals{}; ///< early, urgent and all
  /// Of a state's report, by the grades of each row; of all at the end.
  std::vector<ReleasedRow<IndicatorFigure>> indicators{};
  // Not kept, as it depends on who asks:
  OfTerm of = OfTerm::same;
  std::string otherTerm{}; ///< tells other terms apart
  bool operator==(const Release&) const = default;
};

/// The counts of a table to publish, with all that a reader knows of how they add up.
template <class E>
struct Counts {
  CountSystem system;
  std::vector<std::string> names;                ///< of the rows printed; the last is the total
  std::vector<std::vector<std::string>> schools; ///< keys of each row printed; none for the total
  /// Where each figure of each row printed stands in the system.
  std::vector<std::map<E, std::size_t>> grid;
};
using TermCounts = Counts<Figure>;
using CheckCounts = Counts<CheckFigure>;
using StudentSystem = Counts<StudentFigure>;
using ReferralSystem = Counts<ReferralFigure>;

/// Which rows are printed: every one, or the total alone.
enum class RowsPrinted { all, totalAlone };
/// Whether what was found is among the counts; a state's report tells it another way.
enum class Findings { among, left };

/// The term's counts by school or group of schools, and in total. What an earlier release of the
/// term showed is out and cannot be called back; what has changed since is a count too, and what a
/// later term's showed of the same children and teeth is out as well.
TermCounts termCounts(const TermTotals& totals, std::span<const Release> earlier = {},
                      const Groups& groups = {}, BySchool bySchool = BySchool::all,
                      RowsPrinted rows = RowsPrinted::all, Findings findings = Findings::among);
/// The same for the checks of earlier sealants, by placing school, with what the term that they
/// were placed in showed.
CheckCounts checkCounts(const TermTotals& totals, std::span<const Release> earlier = {},
                        const Groups& groups = {}, BySchool bySchool = BySchool::all,
                        RowsPrinted rows = RowsPrinted::all);
/// Participation alone, by grade: `school` of each says which.
TermCounts gradeCounts(const std::vector<Participation>& grades, const Participation& total,
                       std::span<const Release> earlier = {}, const Groups& groups = {},
                       BySchool bySchool = BySchool::all);
/// Short-term checks of all schools together.
CheckCounts shortTermCounts(const TermTotals& totals, std::span<const Release> earlier = {});
/// Who the children screened are, of all schools together. That they were so many is out already:
/// the term's own table says it.
StudentSystem studentSystem(const TermTotals& totals, std::span<const Release> earlier = {});
/// Calls for a dentist by urgency: early, urgent, all. `found` are the children found in need, by
/// Figure, of all schools together, as the findings show them.
ReferralSystem referralSystem(const std::array<ReferralCounts, 3>& calls,
                              const std::map<Figure, int>& found,
                              std::span<const Release> earlier = {});

} // namespace gk::reports

template <>
inline constexpr auto gk::base::enumNames<gk::reports::Figure> = std::to_array<std::string_view>(
    {"enrolled", "forms back", "consented", "screened", "not screened", "needing", "sealed",
     "first molars", "second molars", "other teeth", "teeth", "varnish", "untreated", "early",
     "urgent", "decay known", "sealed in need", "varnish screened"});
template <>
inline constexpr auto gk::base::enumNames<gk::reports::CheckFigure> =
    std::to_array<std::string_view>({"children due", "children found", "due", "examined",
                                     "assessable", "whole", "part", "lost", "cannot assess"});

template <>
inline constexpr auto gk::base::enumNames<gk::reports::ReferralFigure> =
    std::to_array<std::string_view>({"made", "guardian reached", "complete", "started", "declined",
                                     "moved", "lost", "open", "open long"});

template <>
inline constexpr auto gk::base::enumNames<gk::reports::IndicatorFigure> =
    std::to_array<std::string_view>({"screened", "untreated known", "untreated", "treated known",
                                     "treated", "experience known", "experience", "sealants known",
                                     "sealants", "no problem", "early", "urgent"});
