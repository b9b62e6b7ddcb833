#pragma once

#include "estimates/shares/screening_measures.h"
#include "reports/records/term_view.h"
#include "reports/retention/retention_totals.h"

#include <optional>

namespace gk::reports {

/// What the screenings of one school, or of all, found; shares of children, each of those for whom
/// it is known.
struct FindingLine {
  std::string label;
  int screened = 0;
  int couldNotTell = 0; ///< of screened: untreated or treated decay could not be told
  std::optional<estimates::ScreeningMeasures> measures; ///< none without a child
};

struct FindingTotals {
  std::vector<FindingLine> schools; ///< by the school of the child's first screening, by name
  FindingLine total;
  ClusterUnit unit = ClusterUnit::children; ///< of the total
  bool isSchoolPlanned = false;             ///< likewise, as of a RetentionLine
};

/// A child screened in the term, once.
struct SeenChild {
  roster::SchoolId school; ///< of its first screening
  std::string grade;       ///< as the child's card has it
  estimates::ScreenedChild child;
};

/// Each child once: decay and urgency by the more serious finding, sealants as found at the first
/// screening.
std::vector<SeenChild> seenChildren(const TermView& view);

/// Basic Screening Survey measures of the term. A child screened twice counts once: decay and
/// urgency by the more serious finding, sealants as found at the first screening, before anything
/// was placed. The total's clusters are those of `estimates::programShare`.
FindingTotals findingTotals(const TermView& view);

} // namespace gk::reports
