#pragma once

#include "reports/day/close_out.h"

#include <iosfwd>

namespace gk::office {

/// The sheet with the keys of the report in snake_case; "reconciles" says whether it may be
/// signed. Children are called as the sheet calls them.
void writeJson(const reports::CloseOut& sheet, std::ostream& out);

} // namespace gk::office
