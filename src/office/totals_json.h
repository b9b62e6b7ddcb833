#pragma once

#include "reports/term/term_totals.h"

#include <iosfwd>
#include <span>

namespace gk::office {

/// What is kept of a term once it is counted: its records may be of many children.
struct CountedTerm {
  explicit CountedTerm(const reports::TermRecords& records);

  reports::TermTotals totals;
  reports::Rows<roster::School> schools; ///< by name, those of one name by identity
};

/// {"terms": [...]}, one object for each term with its schools. A number for which there is not
/// enough data is null, and "why_not" says why.
void writeTotalsJson(std::span<const CountedTerm> terms, std::ostream& out);

} // namespace gk::office
