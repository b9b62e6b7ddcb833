#pragma once

#include "base/files/files.h"
#include "base/progress.h"
#include "reports/print/table.h"
#include "session/values/world.h"
#include "store/hand_reach.h"

#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace gk::store {
class Book;
}

namespace gk::session {

class Snapshot;

/// What a logbook holds, for one who chooses among copies of it. Names no one.
struct BookFacts {
  base::Path file;
  base::Uuid book;
  std::string program; ///< empty for one made without
  int days = 0;        ///< school days that were not canceled
  int children = 0;
  std::vector<store::HandReach> hands;
};

/// What one laptop wrote that a copy has not.
struct LostActs {
  base::LaptopId laptop;
  std::vector<base::LocalInstant> acts; ///< oldest first, never empty
};

/// Of a copy, and what going on in it would lose.
struct RestorePreview {
  BookFacts backup;
  bool isOtherProgram = false;         ///< than the present book's
  std::optional<std::string> unread{}; ///< why what would be lost cannot be said
  std::vector<LostActs> lost{};
};

base::Result<BookFacts> factsOf(store::Book& book);
base::Result<std::vector<LostActs>> beyond(store::Book& book, const BookFacts& other);

/// Looks a copy over whole: pages, rows, each act against its digest. Fails as store::Book::open,
/// and with `storeDamaged` naming the first fault.
base::Result<BookFacts> verifyBackup(const base::Path& backup, World world,
                                     const base::Progress& progress);

/// As verifyBackup, set beside a book that is not open; that one may be damaged or gone.
base::Result<RestorePreview> previewRestore(const base::Path& backup, const base::Path& present,
                                            World world, const base::Progress& progress);

/// As above, beside a book that is open.
base::Result<RestorePreview> previewRestore(const base::Path& backup, Snapshot& present,
                                            World world, const base::Progress& progress);

/// As a person reads it: what the copy has, by laptop, and what would be lost.
reports::Table previewTable(const RestorePreview& preview);
/// In one line.
std::string lossWords(const RestorePreview& preview);

struct Restored {
  base::Path book; ///< where it lies now
  base::Path kept; ///< where the book before lies; empty when there was none
};

/// A verified copy of a backup beside the book whose place it is to take, or already in that place
/// where no book was. What is not put in place
/// is let go of with this.
class ReadyRestore {
 public:
  ReadyRestore(base::Path fresh, base::Path present)
      : fresh_(std::move(fresh)), present_(std::move(present)) {}
  ~ReadyRestore();
  ReadyRestore(const ReadyRestore&) = delete;
  ReadyRestore& operator=(const ReadyRestore&) = delete;

  /// In the place of the present file, which goes on under another name and is never overwritten.
  /// On return it is durable; on failure the present file is where it was. `storeInUse` while any
  /// program has it open, this one too.
  base::Result<Restored> putInPlace(base::Date today);

 private:
  base::Path fresh_; ///< empty once it is in place, or where nothing was there before
  base::Path present_;
};

/// All that takes long of a restore: the present book may stay open meanwhile. Stopped, or where it
/// fails, nothing is left of it.
base::Result<std::shared_ptr<ReadyRestore>> readyRestore(const base::Path& backup,
                                                         const base::Path& present, World world,
                                                         const base::Progress& progress);

/// Both at once. `storeInUse` before anything is copied where the present book is open.
base::Result<Restored> restoreBackup(const base::Path& backup, const base::Path& present,
                                     World world, const base::Progress& progress);

} // namespace gk::session
