#pragma once

#include "estimates/shares/retention.h"
#include "reports/print/cell.h"
#include "reports/retention/retention_facts.h"

#include <map>

namespace gk::reports {

enum class ClusterUnit { children, schools };

/// Some of the cohort (see RetentionFacts) and what its checks found. Counts are teeth unless they
/// say children.
struct RetentionLine {
  std::string label;
  std::optional<FactorCode> code{};         ///< of the factor it was counted by
  std::optional<roster::SchoolId> school{}; ///< by school alone
  int childrenPlaced = 0;
  int placed = 0;
  int childrenDue = 0;
  int due = 0;       ///< of placed: the window has opened by the date of the report
  int dueBefore = 0; ///< of due: stood as due in an earlier term; added over terms it counts once
  int childrenFound = 0;
  int examined = 0; ///< looked at, whether or not they could be judged
  int assessable = 0;
  int whole = 0;
  int part = 0;
  int lost = 0;
  int cannotAssess = 0;
  int repaired = 0;    ///< of part: repaired since, and whole at the check
  int filledOver = 0;  ///< of lost: the check that says so found a sealed surface filled
  int earlierLost = 0; ///< of lost: known from an earlier look or from a reseal
  int lostUnfound = 0; ///< due, known as lost, and not judged in the window: in no estimate
  int reported = 0;    ///< due, and looked at because a loss was reported
  int reportedOut = 0; ///< of these: in no estimate, as no other look in the window judged them
  /// The teeth behind `protected95`: looked at in the window, whatever was on them.
  int teethSeen = 0;
  int teethWhole = 0;
  int teethPart = 0;
  std::map<followup::CannotAssess, int> why;
  /// Tooth health at the check, never hidden in "cannot assess" and never called a lost sealant.
  int decayedSince = 0;
  int filledSince = 0;
  int checkedHere = 0; ///< by school alone: checks made at this school this term, whoever placed
  bool hidden = false; ///< too few teeth to show; the counts are blank

  ClusterUnit unit = ClusterUnit::children; ///< of both estimates
  bool isSchoolPlanned = false; ///< of 2 or 3 schools, whose likeness within is a planning value
  std::optional<estimates::RetentionEstimate> whole95; ///< whole / assessable
  std::optional<estimates::RetentionEstimate>
      wholeOrRepaired95;                                     ///< likewise, repaired ones as whole
  std::optional<estimates::RetentionEstimate> wholeOrPart95; ///< (whole + part) / assessable
  /// Another question: teethWhole / teethSeen, reseals and repairs included.
  std::optional<estimates::RetentionEstimate> protected95;
};

/// The range to print, by the one policy; none under two clusters.
std::optional<estimates::Interval> printedRange(const estimates::RetentionEstimate& estimate);

/// "84.3-89.7", with ", few children" where it is read from under ten of them.
Cell rangeCell(const std::optional<estimates::RetentionEstimate>& estimate, ClusterUnit unit);
/// The share, and that behind it.
Cell estimateCell(const std::optional<estimates::RetentionEstimate>& estimate, ClusterUnit unit);

/// Of the teeth due: protected if none, and if all, of those not looked at are (Manski 1989). None
/// where none is due.
std::optional<estimates::Interval> protectedBounds(const RetentionLine& line);

enum class AgainstBenchmark {
  below,
  met,
  cannotTell ///< the interval holds the benchmark, or there is none
};
/// By the whole interval as printed. An estimate on one side of a benchmark is no verdict: with the
/// truth at the benchmark half of all schools would be called below.
AgainstBenchmark againstBenchmark(double benchmark, const RetentionLine& line);

/// What the ranges of a table are, and which of them rest on a planning value.
std::string rangeNote(const std::vector<RetentionLine>& lines);

/// Of CIs of two or three schools.
std::string schoolPlannedWords();

/// "94.5 % (92.1-96.2)".
std::string estimateWords(const estimates::RetentionEstimate& rate, ClusterUnit unit);

/// Which of the line's sealants were looked at because a loss was reported, and which of these its
/// estimates hold; empty where there is none.
std::string reportedNote(const RetentionLine& total);

/// Whether the teeth are protected a year later: another question, never mixed with the first.
std::string protectionNote(const RetentionLine& total);

struct RetentionTotals {
  std::vector<RetentionLine> schools; ///< by placing school
  RetentionLine total;                ///< clusters as `estimates::programShare` has them
};

RetentionTotals retentionTotals(const RetentionFacts& facts);

/// The sealants of the choice as one line; its clusters as those of the total, but of one school.
RetentionLine retentionLine(const RetentionFacts& facts, const Choice& choice = {});

/// One line for each value of the factor among the sealants of the choice, by label and never by
/// rate; clusters likewise. Operators and pairs under `leastForOperator` are hidden.
std::vector<RetentionLine> retentionBy(const RetentionFacts& facts, Factor factor,
                                       const Choice& choice = {},
                                       const RetentionOptions& options = {});

} // namespace gk::reports

template <>
inline constexpr auto gk::base::enumNames<gk::reports::ClusterUnit> =
    std::to_array<std::string_view>({"children", "schools"});
