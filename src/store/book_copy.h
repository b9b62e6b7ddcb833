#pragma once

#include "store/schema/own_schema.h"

#include <string>
#include <vector>

namespace gk::store {

// What book_file.h promises, for use inside the module: these throw Trouble.

/// A new private (0600) file beside `target` that goes away, its journal too, unless it is put in
/// place.
class Draft {
 public:
  /// Refuses with `fileNotFound` a folder that is not there, with `storeReadOnly` one that may not
  /// be written, and with `fileUnwritable` a target that exists and is not empty, or that has a
  /// left-over journal, which SQLite would roll into the new file.
  explicit Draft(base::Path target);
  ~Draft();
  Draft(const Draft&) = delete;
  Draft& operator=(const Draft&) = delete;

  [[nodiscard]] const base::Path& path() const { return path_; }
  /// Syncs, renames to the target and syncs the folder. Precondition: no connection has it open.
  void putInPlace();

 private:
  base::Path target_;
  base::Path path_;
};

/// Throws `storeReadOnly` when files cannot be made in the folder.
void requireWritableFolder(const base::Path& folder);

/// On a connection of its own where the book's does not see CHECKs.
std::vector<std::string> findings(Connection& book);

void writeCopy(Connection& book, const base::Path& target, const OwnSchema& own);

} // namespace gk::store
