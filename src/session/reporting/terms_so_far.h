#pragma once

#include "base/progress.h"
#include "reports/term/term_totals.h"
#include "session/reader.h"

namespace gk::session {

/// The totals of every term that began by `start`, the oldest first, each as it stood at its end or
/// stands on `asOf`. Fails as Reader::termRecords, and with `workCanceled`.
Result<std::vector<reports::TermTotals>> termsSoFar(Reader& book, base::Date start, base::Date asOf,
                                                    const base::Progress& progress = {});

} // namespace gk::session
