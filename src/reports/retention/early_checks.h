#pragma once

#include "reports/print/table.h"
#include "reports/records/term_view.h"

namespace gk::reports {

/// Checks of one kind made in a term, before the one-year check is due or by chance. Teeth, but for
/// the children.
struct EarlyChecks {
  std::string label{};
  int children = 0;
  int examined = 0;
  int assessable = 0;
  int whole = 0;
  int part = 0;
  int lost = 0;
  int cannotAssess = 0;
  int byAnother = 0;     ///< of examined: not by who placed it
  double firstMonth = 0; ///< after placement, of the earliest of these looks
  double lastMonth = 0;
  bool isOfReports = false; ///< made because a loss was reported: what they find is no rate
  bool operator==(const EarlyChecks&) const = default;
};

/// Routine samples, triggered ones, those of opportunity and those of a reported loss, at whatever
/// age; kinds of which none was made are left out. Each sealant counts once a kind, by its first
/// check that could judge it.
std::vector<EarlyChecks> earlyChecks(const TermView& view,
                                     std::optional<roster::SchoolId> placedAt = {});

/// Routine samples and triggered ones together; none of a reported loss.
EarlyChecks shortTermChecks(const TermView& view);

/// Of sealants placed at one school, or at all.
Table earlyCheckTable(const TermView& view, std::optional<roster::SchoolId> placedAt = {});

/// When after placement looks were made, in months.
struct LookAges {
  double first;
  double last;
};
/// "within two months of placement" only where all were.
std::string lookWords(const LookAges& ages);

} // namespace gk::reports
