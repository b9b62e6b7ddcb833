#pragma once

#include "reports/inputs.h"

#include <iosfwd>
#include <span>

namespace gk::office {

/// {"terms": [...]}, one object for each term with its schools. A number for which there is not
/// enough data is null, and "why_not" says why.
void writeTotalsJson(std::span<const reports::TermRecords> terms, std::ostream& out);

} // namespace gk::office
