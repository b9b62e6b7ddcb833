#pragma once

#include "base/files/files.h"

namespace gk::store {

/// The folder a file is in; "." for a bare name.
base::Path folderOf(const base::Path& file);

/// Makes what was written to a file, or which names a folder holds, survive loss of power. Throws
/// Trouble `storeWriteFailed` (or `diskFull`). Never call it on an open book: POSIX drops all locks
/// of a process on a file when any descriptor of it closes (sqlite.org/howtocorrupt.html, 2.2).
void syncToDisk(const base::Path& path);

} // namespace gk::store
