#pragma once

#include "base/progress.h"
#include "exchange/papers.h"
#include "session/book/book_facts.h"
#include "session/reader.h"
#include "store/values/fault.h"

namespace gk::store {
class Image;
}

namespace gk::session {

using exchange::Paper;

/// The time at which it was made, for what is read elsewhere; nothing is written there.
struct StillWorld {
  base::ManualClock clock;
  base::SystemRandom random{};
};

/// At the end of work in another thread: the names that it had on its stack are overwritten.
/// Session::lock does so in its own thread alone.
void wipeThisThread();

/// A logbook as it was at one moment, for long work in another thread: it can be asked all that a
/// Reader can, and copied, and nothing can be written in it. It has its own key of the names, wiped
/// when it goes. One thread at a time.
class Snapshot final : private std::unique_ptr<StillWorld>, public Reader {
 public:
  Snapshot(Snapshot&& other) noexcept = default;
  ~Snapshot() = default;

  /// What is asked from now on ends with `workCanceled` once that is stopped.
  void watch(const base::Progress& progress);
  /// As Session::backUp.
  Result<base::Done> backUp(const base::Path& target, const base::Progress& progress);
  /// As Session::findings.
  Result<std::vector<store::Fault>> findings(const base::Progress& progress);
  /// Files that name children, as one that only this logbook opens, with the names unlocked.
  Result<std::string> sealPapers(const std::vector<exchange::Paper>& papers);
  Result<BookFacts> facts();
  /// What is in this book and not in the one of those facts; all of it when that is of another
  /// program.
  Result<std::vector<LostActs>> beyond(const BookFacts& other);
  [[nodiscard]] base::LaptopId laptop() const;
  [[nodiscard]] base::Uuid identity() const;
  [[nodiscard]] base::Instant madeAt() const;
  /// Where the book lies that this is a copy of.
  [[nodiscard]] const base::Path& source() const { return source_; }

 private:
  friend class SnapshotDraft;
  Snapshot(store::Book book, std::unique_ptr<StillWorld> world, base::Path source);

  base::Path source_;
};

/// A snapshot that is still made, piece by piece, while the book is written on. Made in the book's
/// own thread; finished in any.
class SnapshotDraft {
 public:
  SnapshotDraft(std::unique_ptr<store::Image> image, std::unique_ptr<StillWorld> world,
                std::optional<vault::Vault> vault, base::Path source);
  SnapshotDraft(const SnapshotDraft&) = delete;
  SnapshotDraft& operator=(const SnapshotDraft&) = delete;
  ~SnapshotDraft();

  /// At most so many pages of the file; true when none is left.
  Result<bool> copy(int pages);
  [[nodiscard]] std::int64_t done() const;
  [[nodiscard]] std::int64_t whole() const;
  /// Once, when all is copied.
  Result<Snapshot> finish();

 private:
  struct Parts;
  std::unique_ptr<Parts> parts_;
};

} // namespace gk::session
