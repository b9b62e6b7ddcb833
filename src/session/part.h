#pragma once

#include "session/reader.h"

#include <string>
#include <string_view>

namespace gk::session {

// Of a logbook that was sealed for one school's day (docs/decisions/0017).

/// Said while it is open; empty for a whole logbook.
std::string partNotice(Reader& book);
/// `storePart` in one; `what` is done elsewhere, as "totals are counted".
Result<base::Done> needsWhole(Reader& book, std::string_view what);
/// `storePart` where it is not this school's.
Result<base::Done> hasSchool(Reader& book, roster::SchoolId school);

} // namespace gk::session
