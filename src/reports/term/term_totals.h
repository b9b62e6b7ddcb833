#pragma once

#include "reports/decay/prevention.h"
#include "reports/retention/early_checks.h"
#include "reports/term/participation.h"
#include "reports/term/students.h"

namespace gk::reports {

/// Reference lines as shares, from published state guidance (docs/methods.md, "Population
/// measures"); a program edits them.
struct Targets {
  double consented = 0.50; ///< of enrolled
  double screened = 0.97;  ///< of consented
  double sealed = 0.90;    ///< of those in need
  double retained = 0.90;  ///< whole at one year
};

struct TermOptions {
  RetentionOptions retention{};
  Targets targets{};
  int avertedYears = 9; ///< as Griffin, Jones and Crespin 2014
};

/// Care that a named clinician took on herself without a valid consent.
struct OverrideLine {
  std::string child;                      ///< number
  std::optional<roster::SchoolId> school; ///< of the child; none where the child is not known
  base::Date on;
  std::string clinician;
  std::string reason;
};

struct TermTotals {
  std::string term;
  base::Date start;
  base::Date end;
  base::Date asOf;
  Targets targets;
  followup::Window window;
  bool firstPlacementsOnly = true;
  std::vector<Participation> schools;
  Participation total;
  RetentionTotals retention;
  AttackRateReport attackRate;
  AvertedReport averted;
  std::vector<OverrideLine> overrides; ///< by date; shown in every report
  StudentCounts students{};
  EarlyChecks shortTerm{};
  int erased = 0; ///< students of whatever term, whom no count has
};

TermTotals termTotals(const TermView& view, const TermOptions& options = {});

/// The term of one school, for the school: what was placed there and who was seen there. Decay
/// spared stays the program's. Precondition: the school is of these records.
TermTotals schoolTotals(TermTotals totals, const TermRecords& records, roster::SchoolId school);

} // namespace gk::reports
