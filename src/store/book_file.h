#pragma once

#include "store/schema/own_schema.h"
#include "store/sqlite/connection.h"

#include <functional>
#include <span>
#include <string>
#include <vector>

namespace gk::store {

/// Opens a book and, for writing, brings an older one up to date after a verified copy of it was
/// put beside it as `<name>.before-<version>.gkbook`. Refuses, in this order, and leaves a file
/// that it refuses untouched:
///  fileNotFound      no such file
///  storeNotALogbook  not a file, empty, not SQLite, or another program's (application id)
///  fileUnreadable    no permission to read
///  storeNewerSchema  made by a newer version of this program
///  storeDamaged      a version of zero or less
///  storeReadOnly     writing asked for, but file or folder may not be written
///  storeInUse        open elsewhere
///  storeDamaged      holds a table, index, trigger or view that this program did not make, lacks
///                    one or has another; fails the check of pages; or its schema history is not
///                    ours
///  storeReadOnly     reading asked for, but the book must first be brought up to date
///  storeMigrationFailed, diskFull   bringing it up to date failed; it stays at its old version
///  workCanceled     `progress` was stopped; it stays at its old version, and no copy is left
base::Result<Connection> openBook(const base::Path& path, Access access, Durability durability,
                                  base::Instant now, Checkup checkup = Checkup::whole,
                                  std::span<const Migration> steps = migrations(),
                                  const base::Progress& progress = {});

/// Whether `openBook` would first bring it up to date; false where it cannot be told. Touches
/// nothing.
bool isOfOlderVersion(const base::Path& path, std::span<const Migration> steps = migrations());

/// Whether another program or connection has it open for writing. What a crash left half done is
/// rolled back, as on opening.
bool isInUse(const base::Path& path);

/// Makes a new book, readable by the owner only, whole or not at all, and opens it for writing. An
/// existing file is refused with `fileUnwritable` unless it is truly empty (0 bytes). `fill` writes
/// what the book must not be without, before the file is there under its name; what it throws
/// leaves none.
base::Result<Connection> createBook(const base::Path& path, Durability durability,
                                    base::Instant now,
                                    std::span<const Migration> steps = migrations(),
                                    const std::function<void(Connection&)>& fill = {});

/// What `make` makes under the hidden name that it is given takes the name `path`, whole and
/// synced, if it says so; else nothing is left of it. It leaves nothing open. Fails as `make` and
/// as createBook.
base::Result<base::Done>
makeInPlace(const base::Path& path,
            const std::function<base::Result<bool>(const base::Path& draft)>& make);

/// Writes a compact copy to `target`, which must not exist (`fileUnwritable`); checks that the copy
/// opens, is whole, has as many rows and, by `own`, each act as it was written; syncs file and
/// folder. On failure no copy is left. A book with findings of its own is not copied
/// (`storeDamaged`). Precondition: no open transaction.
base::Result<base::Done> backupTo(Connection& book, const base::Path& target,
                                  const OwnSchema& own = {});

/// Everything SQLite's integrity_check and foreign_key_check find, one sentence each; empty when
/// the file is whole. Whether its acts are as they were written is asked of store/audit.h.
base::Result<std::vector<std::string>> integrity(Connection& book);

} // namespace gk::store
