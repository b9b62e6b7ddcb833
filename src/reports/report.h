#pragma once

#include "base/enum_names.h"
#include "reports/prevention_report.h"
#include "reports/retention_report.h"
#include "reports/suppression.h"

namespace gk::reports {

/// The reports of a term, one model each for screen, paper and file.
enum class ReportKind { term, retention, quality, findings, prevention, followUp, trace, funder };

struct ReportOptions {
  ComparisonOptions comparison{};
  CurveOptions curve{};
  std::optional<roster::SchoolId> school{}; ///< of the retention report; all when empty
  WhatIf whatIf{};
  /// Of the follow-up, which goes on after its term; the records' own date when empty.
  std::optional<base::Date> today{};
  std::string lot{};             ///< of the trace, by its number; all lots and lights when empty
  std::string light{};           ///< of the trace, by its tag
  SuppressionRule suppression{}; ///< of the funder's
  std::string version{};         ///< of the funder's: "version 2; differs from ..."
};

/// Precondition: a lot or a light that is named is on the list.
std::vector<Table> reportOf(ReportKind kind, const TermRecords& records,
                            const ReportOptions& options = {});

/// "Retention: Autumn 2026".
std::string reportTitle(ReportKind kind, const TermRecords& records);

} // namespace gk::reports

template <>
inline constexpr auto gk::base::enumNames<gk::reports::ReportKind> =
    std::to_array<std::string_view>({"term", "retention", "quality", "findings", "prevention",
                                     "follow-up", "trace", "funder"});
