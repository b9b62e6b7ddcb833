#include "session/book/snapshot.h"

#include "crypto/secret.h"
#include "session/reader_held.h"
#include "store/copies/image.h"

namespace gk::session {

void wipeThisThread() {
  crypto::wipeStack();
}

Snapshot::Snapshot(store::Book book, std::unique_ptr<StillWorld> world, base::Path source)
    : std::unique_ptr<StillWorld>(std::move(world)),
      Reader(std::move(book), World{get()->clock, get()->random}), source_(std::move(source)) {}

void Snapshot::watch(const base::Progress& progress) {
  book_.watch(progress);
}

Result<base::Done> Snapshot::backUp(const base::Path& target, const base::Progress& progress) {
  return book_.backUp(target, progress);
}

Result<std::vector<store::Fault>> Snapshot::findings(const base::Progress& progress) {
  return book_.faults(progress);
}

Result<BookFacts> Snapshot::facts() {
  return factsOf(book_);
}

Result<std::vector<LostActs>> Snapshot::beyond(const BookFacts& other) {
  return session::beyond(book_, other);
}

base::LaptopId Snapshot::laptop() const {
  return book_.laptop();
}

base::Uuid Snapshot::identity() const {
  return book_.identity();
}

base::Instant Snapshot::madeAt() const {
  return world_.clock.now().at;
}

struct SnapshotDraft::Parts {
  std::unique_ptr<store::Image> image;
  std::unique_ptr<StillWorld> world;
  std::optional<vault::Vault> vault;
  base::Path source;
};

SnapshotDraft::SnapshotDraft(std::unique_ptr<store::Image> image, std::unique_ptr<StillWorld> world,
                             std::optional<vault::Vault> vault, base::Path source)
    : parts_(std::make_unique<Parts>(
          Parts{std::move(image), std::move(world), std::move(vault), std::move(source)})) {}

SnapshotDraft::~SnapshotDraft() = default;

Result<bool> SnapshotDraft::copy(int pages) {
  return parts_->image->copy(pages);
}

std::int64_t SnapshotDraft::done() const {
  return parts_->image->done();
}

std::int64_t SnapshotDraft::whole() const {
  return parts_->image->whole();
}

Result<Snapshot> SnapshotDraft::finish() {
  auto book = parts_->image->take();
  if (!book) return book.error();
  Snapshot snapshot(std::move(*book), std::move(parts_->world), std::move(parts_->source));
  snapshot.vault_ = std::move(parts_->vault);
  return snapshot;
}

} // namespace gk::session
