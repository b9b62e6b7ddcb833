#pragma once

#include "base/enum_names.h"
#include "reports/prevention_report.h"
#include "reports/retention_report.h"

namespace gk::reports {

/// The reports of a term, one model each for screen, paper and file.
enum class ReportKind { term, retention, quality, findings, prevention };

struct ReportOptions {
  ComparisonOptions comparison{};
  CurveOptions curve{};
  std::optional<roster::SchoolId> school{}; ///< of the retention report; all when empty
  WhatIf whatIf{};
};

std::vector<Table> reportOf(ReportKind kind, const TermRecords& records,
                            const ReportOptions& options = {});

/// "Retention: Autumn 2026".
std::string reportTitle(ReportKind kind, const TermRecords& records);

} // namespace gk::reports

template <>
inline constexpr auto gk::base::enumNames<gk::reports::ReportKind> =
    std::to_array<std::string_view>({"term", "retention", "quality", "findings", "prevention"});
