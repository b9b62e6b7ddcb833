#include "store/sqlite/folder.h"

#include "store/sqlite/trouble.h"

#include <cerrno>
#include <cstring>
#include <fcntl.h>
#include <string>
#include <unistd.h>

namespace gk::store {

base::Path folderOf(const base::Path& file) {
  return file.has_parent_path() ? file.parent_path() : base::Path(".");
}

void syncToDisk(const base::Path& path) {
  const int handle = ::open(path.c_str(), O_RDONLY | O_CLOEXEC);
  int code = handle < 0 || ::fsync(handle) != 0 ? errno : 0;
  if (handle >= 0) ::close(handle);
  if (code == 0) return;
  const auto kind = code == ENOSPC || code == EDQUOT ? base::ErrorCode::diskFull
                                                     : base::ErrorCode::storeWriteFailed;
  throw Trouble({kind, path.string() + ": cannot be synced to disk: " + std::strerror(code)});
}

} // namespace gk::store
