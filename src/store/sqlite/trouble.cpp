#include "store/sqlite/trouble.h"

#include <cerrno>
#include <sqlite3.h>
#include <string>

namespace gk::store {

namespace {

using base::ErrorCode;

ErrorCode codeFor(int extended, int systemError) {
  const int primary = extended & 0xFF;
  // SQLite names only ENOSPC a full disk; a used-up quota comes as a failed write.
  if (primary == SQLITE_IOERR && (systemError == ENOSPC || systemError == EDQUOT))
    return ErrorCode::diskFull;
  if (extended == SQLITE_READONLY_ROLLBACK || extended == SQLITE_READONLY_RECOVERY)
    return ErrorCode::storeUnfinished;
  switch (primary) {
  case SQLITE_FULL:
    return ErrorCode::diskFull;
  case SQLITE_READONLY:
  case SQLITE_CANTOPEN:
  case SQLITE_PERM:
    return ErrorCode::storeReadOnly;
  case SQLITE_BUSY:
  case SQLITE_LOCKED:
    return ErrorCode::storeInUse;
  case SQLITE_INTERRUPT:
    return ErrorCode::workCanceled;
  case SQLITE_CORRUPT:
  case SQLITE_NOTADB:
  case SQLITE_TOOBIG: // no row of ours is
    return ErrorCode::storeDamaged;
  default:
    return ErrorCode::storeWriteFailed;
  }
}

std::string_view remedy(ErrorCode code) {
  if (code == ErrorCode::storeUnfinished)
    return "it was not closed properly; nothing is lost; open it once for writing";
  if (code == ErrorCode::diskFull) return "nothing was changed; free some space and try again";
  if (code == ErrorCode::storeReadOnly)
    return "make the file and its folder writable, or copy it to a folder that is";
  if (code == ErrorCode::storeInUse) return "close it in the other program and try again";
  if (code == ErrorCode::storeDamaged) return "keep this file and open the latest backup";
  return "nothing was changed";
}

} // namespace

base::Error movedError(const base::Path& file) {
  return {ErrorCode::storeMoved,
          file.string() + ": the file was moved, deleted or replaced while it was open; nothing "
                          "more is written to it; save the logbook under a new name before it is "
                          "closed"};
}

void throwTrouble(sqlite3* db, int code, std::string_view file) {
  const int primary = code & 0xFF;
  base::require(primary != SQLITE_MISUSE && primary != SQLITE_RANGE, sqlite3_errmsg(db));
  const ErrorCode kind = codeFor(code, sqlite3_system_errno(db));
  throw Trouble({kind, std::string(file) + ": " + sqlite3_errmsg(db) + " (SQLite " +
                           std::to_string(code) + "); " + std::string(remedy(kind))});
}

} // namespace gk::store
