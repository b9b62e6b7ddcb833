#pragma once

#include "base/enum_names.h"
#include "reports/compare/retention_report.h"
#include "reports/funder/earlier_term.h"
#include "reports/funder/effort_report.h"
#include "reports/funder/state_report.h"
#include "reports/publish/published_counts.h"
#include "reports/publish/suppression.h"
#include "reports/term/prevention_report.h"

namespace gk::reports {

/// The reports of a term, one model each for screen, paper and file.
enum class ReportKind {
  term,
  retention,
  quality,
  findings,
  prevention,
  followUp,
  trace,
  payers,
  terms,       ///< side by side, up to this one
  cost,        ///< per child, tooth and cavity averted
  state,       ///< of a year, for a state
  funder,      ///< the summary on one sheet
  funderAnnex, ///< the tables behind it
  schoolPage   ///< of one school or each, for its principal
};

struct ReportOptions {
  ComparisonOptions comparison{};
  CurveOptions curve{};
  std::optional<roster::SchoolId> school{}; ///< where partsBy; all when empty
  WhatIf whatIf{};
  /// Of the follow-up, which goes on after its term; the records' own date when empty.
  std::optional<base::Date> today{};
  std::string lot{};               ///< of the trace, by its number; all lots and lights when empty
  std::string material{};          ///< of the lot, where two materials have its number
  std::string light{};             ///< of the trace, by its tag
  std::vector<TermTotals> terms{}; ///< of the terms side by side, oldest first
  std::optional<YearOptions> year{}; ///< of the state's; the records are then the year's
  HandedOut page{};                  ///< of the funder's summary and the school's page
  // Of the funder's two, the school's and the state's:
  SuppressionRule suppression{};
  std::vector<Release> earlier{};    ///< of the term, oldest first
  Groups groups{};                   ///< schools shown as one row
  std::optional<GradeBands> bands{}; ///< grades shown as one row; empty: as `addGrades` finds
};

/// A term counted once: whatever is chosen of it is then answered from this.
struct CountedTerm {
  explicit CountedTerm(const TermView& view);
  /// Of the school, or of all. `records` are those that were counted.
  [[nodiscard]] TermTotals of(std::optional<roster::SchoolId> school,
                              const TermRecords& records) const;

  RetentionFacts facts;
  TermTotals totals;
  std::vector<Effort> efforts;
};

/// What of a term is asked for.
struct TermChoice {
  Choice sealants{};
  std::optional<roster::SchoolId> school{}; ///< that of `sealants`, where it is one
  std::string words{};                      ///< the choice as a person reads it
  std::optional<Factor> by{};               ///< adds retention by it, at the end
};

/// What files call the table of retention by the factor asked for.
inline constexpr const char* byFactor = "retention_by_factor";

/// What is counted of the care, what it took, and what was spared.
std::vector<Table> termReport(const TermRecords& records, const CountedTerm& counted,
                              const TermChoice& choice);

struct Report {
  std::vector<Table> tables;
  std::optional<Release> release{}; ///< what it tells, of a report that leaves the program
  int exposed = 0; ///< small counts that it would let be worked out: it may not go out
};

/// Whether it may leave the program, and so is suppressed.
bool isPublished(ReportKind kind);

/// What each page of it says of who may read it; nothing of what may leave the program.
std::string_view markOf(ReportKind kind);

/// Whether a report can be of some sealants alone, chosen by this factor. In another report such a
/// choice is refused, or said not to be applied.
bool partsBy(ReportKind kind, Factor factor);

/// Precondition: a lot or a light that is named is on the list; a state's report has its year.
Report makeReport(ReportKind kind, const TermView& view, const ReportOptions& options = {});

/// Its tables alone.
std::vector<Table> reportOf(ReportKind kind, const TermView& view,
                            const ReportOptions& options = {});

/// What was chosen in a report, so that issues of one choice are compared with each other: "school
/// CL", "lot RF-2609". Empty when nothing was.
std::string choiceOf(ReportKind kind, const TermRecords& records, const ReportOptions& options);

/// "Retention: Fall 2026, school CL", "Funder's summary: Fall 2026". `choice` as `choiceOf`.
std::string reportTitle(ReportKind kind, const TermRecords& records,
                        const std::string& choice = {});

} // namespace gk::reports

template <>
inline constexpr auto gk::base::enumNames<gk::reports::ReportKind> =
    std::to_array<std::string_view>({"term", "retention", "quality", "findings", "prevention",
                                     "follow-up", "trace", "payers", "terms-compared", "cost",
                                     "state", "funder", "funder-annex", "school-page"});
