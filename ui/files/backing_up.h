#pragma once

#include "session/book/backups.h"
#include "ui/asking/context.h"

#include <QString>

#include <functional>

namespace gk::ui {

/// "Backed up and verified: ...", and where it had better lie.
QString backedUpWords(const base::Path& file, bool sameDisk);

/// This laptop remembers, outside the book, that a good backup has all that is in it now.
void keepLastBackup(Context& context);
/// Whether there is something in the book that the last good backup of this laptop has not.
[[nodiscard]] bool isToBackUp(Context& context);
/// The day of the last good backup of this book that this laptop remembers.
[[nodiscard]] std::optional<base::Date> lastBackup(Context& context);

/// Writes a backup to this laptop's place for them, verifies it, lets older ones go, and remembers
/// it. Fails as session::backUpInto; with `notFound` when no place was chosen.
void backUpToPlace(Context& context, QObject* owner,
                   std::function<void(const base::Result<session::MadeBackup>&)> then);

/// Asks for the place and keeps it for this laptop; false when backed out.
bool chooseBackupPlace(Context& context);

} // namespace gk::ui
