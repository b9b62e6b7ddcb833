#pragma once

#include "base/files/files.h"
#include "session/reader.h"
#include "ui/asking/acting.h"

#include <QString>

namespace gk::ui {

/// What this laptop keeps for its next start.
struct Kept {
  Habits habits{};
  std::optional<base::Date> on{}; ///< the day on which `setup` was chosen
  Setup setup{};
};

struct ReadKept {
  Kept kept{};
  QString trouble{}; ///< empty when it was read, or when there was nothing to read
};

/// From `laptop-settings` in the folder. A damaged file gives what a new laptop has, says so, and
/// is set aside as `laptop-settings.damaged`; it never stops the program.
ReadKept readKept(const base::Path& folder);
/// Fails as makeFolder and replaceFile.
base::Result<base::Done> writeKept(const base::Path& folder, const Kept& kept);

/// Without what this book does not know, or what may not be used on that day.
Setup stillUsable(Setup setup, session::Reader& book, base::Date on);

} // namespace gk::ui
