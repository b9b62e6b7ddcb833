#include "store/sqlite/looking.h"

#include "base/contract.h"

#include <sqlite3.h>

namespace gk::store {

namespace {

int openToLook(sqlite3_vfs* vfs, const char* name, sqlite3_file* file, int flags, int* given) {
  constexpr int writing = SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE;
  constexpr std::size_t ours = 3; // "gk-", before the name of the system's, whose copy this is
  auto* system = sqlite3_vfs_find(vfs->zName + ours);
  // Whether a journal has anything to be undone is read from its first byte: a program that was
  // killed leaves an empty one. One that has is not played back, since nothing is written here.
  const bool isAskedOnly = (flags & SQLITE_OPEN_MAIN_JOURNAL) != 0 && (flags & writing) == 0;
  if ((flags & SQLITE_OPEN_MAIN_DB) == 0 && !isAskedOnly) return SQLITE_CANTOPEN;
  const int code =
      system->xOpen(system, name, file, (flags & ~writing) | SQLITE_OPEN_READONLY, given);
  if (code == SQLITE_OK && given != nullptr)
    *given = (*given & ~SQLITE_OPEN_READONLY) | SQLITE_OPEN_READWRITE;
  return code;
}

sqlite3_vfs copyOf(const char* system, const char* name) {
  const auto* found = sqlite3_vfs_find(system);
  base::require(found != nullptr, "SQLite has its own way of reading files");
  sqlite3_vfs copy = *found;
  copy.zName = name; // "gk-" and the system's
  copy.xOpen = openToLook;
  copy.pNext = nullptr;
  return copy;
}

} // namespace

const char* lookingVfs(Looking how) {
  static auto locked = copyOf("unix", "gk-unix");
  static auto unlocked = copyOf("unix-none", "gk-unix-none");
  static const bool areKnown = sqlite3_vfs_register(&locked, 0) == SQLITE_OK &&
                               sqlite3_vfs_register(&unlocked, 0) == SQLITE_OK;
  base::require(areKnown, "SQLite takes a way of reading files");
  return how == Looking::locked ? locked.zName : unlocked.zName;
}

} // namespace gk::store
