#pragma once

namespace gk::store {

/// How a connection that only looks shares the file.
enum class Looking {
  locked,  ///< as any reader
  unlocked ///< takes no lock: the holder of the file must not write meanwhile
};

/// The name of an SQLite VFS that opens files for reading and says that they could be written.
/// SQLite leaves the CHECKs of a schema out where a file is open for reading alone
/// (sqlite3AddCheckConstraint, 3.40), so its checks of rows would pass over them; every write
/// fails.
const char* lookingVfs(Looking how);

} // namespace gk::store
