#pragma once

#include "reports/decay/prevention.h"
#include "reports/retention/early_checks.h"
#include "reports/term/participation.h"
#include "reports/term/students.h"

namespace gk::reports {

/// The program's own benchmarks as shares; none where the program has not set one
/// (docs/methods.md, section 7, says which values are published).
struct Targets {
  std::optional<double> consented{}; ///< of enrolled
  std::optional<double> screened{};  ///< of consented
  std::optional<double> sealed{};    ///< of those in need
  std::optional<double> retained{};  ///< fully at one year

  [[nodiscard]] bool isAny() const { return consented || screened || sealed || retained; }
};
Targets targetsOf(const roster::Benchmarks& benchmarks);

struct TermOptions {
  RetentionOptions retention{};
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
