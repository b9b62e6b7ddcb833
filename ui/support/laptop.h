#pragma once

#include "base/files/files.h"

namespace gk::ui {

/// The logbook that was opened last, kept as `recent`; empty when there is none.
base::Path recentBook(const base::Path& folder);
base::Result<base::Done> rememberBook(const base::Path& folder, const base::Path& book);

} // namespace gk::ui
