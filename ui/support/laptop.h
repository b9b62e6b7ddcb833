#pragma once

#include "base/files.h"
#include "base/id.h"

namespace gk::ui {

/// Which laptop this is: made once, kept as `laptop-id` in the folder, and named by every entry
/// that it writes. Fails as readFile, makeFolder and replaceFile; with `textMalformed` when the
/// file holds something else, since a new identity would hide whose entries were whose.
base::Result<base::LaptopId> laptopIdentity(const base::Path& folder, base::Instant now,
                                            base::Random& random);

/// A new one in its place, for a laptop that goes on in an earlier copy of a logbook: under its own
/// it would write other acts under numbers that are taken, and no other laptop could merge them.
base::Result<base::LaptopId> renewLaptopIdentity(const base::Path& folder, base::Instant now,
                                                 base::Random& random);

/// The logbook that was opened last, kept as `recent`; empty when there is none.
base::Path recentBook(const base::Path& folder);
base::Result<base::Done> rememberBook(const base::Path& folder, const base::Path& book);

} // namespace gk::ui
