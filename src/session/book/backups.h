#pragma once

#include "followup/copies/backup_rotation.h"
#include "session/book/snapshot.h"

namespace gk::session {

/// A backup that was written and read back whole.
struct MadeBackup {
  base::Path path;
  bool sameDisk = true; ///< as the logbook, or it cannot be told
  int removed = 0;      ///< older ones that went
};

/// Writes a backup into the folder, named by date, book and laptop, verifies it (pages, rows and
/// digests), then lets go of those of this book and laptop that followup::outdatedBackups names;
/// never another file, nor one that is not this book's. Fails with `fileNotFound` where the folder
/// is not there, and as Snapshot::backUp; then nothing was removed.
Result<MadeBackup> backUpInto(Snapshot& book, const base::Path& folder, base::Date today,
                              const base::Progress& progress);

} // namespace gk::session
