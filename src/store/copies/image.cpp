#include "store/copies/image.h"

#include "store/book_copy.h"
#include "store/sqlite/folder.h"

namespace gk::store {

using base::Result;

namespace {

/// Where the copy is made: beside the book. Where its folder went too, or takes no files any more,
/// it is the system's folder for what goes away again: all that is open must still be saved.
base::Path roomFor(const Book& book) {
  auto folder = folderOf(book.path());
  if (book.isInPlace() || guarded([&] { requireWritableFolder(folder); })) return folder;
  std::error_code none;
  auto other = std::filesystem::temp_directory_path(none);
  return none ? folder : other;
}

} // namespace

Image::Image(Connection& source, base::LaptopId laptop, const base::Path& folder)
    : laptop_(laptop) {
  const Draft draft(folder / ".groovekeeper-image");
  target_ = std::make_unique<Connection>(draft.path(), Access::readWrite, Durability::bulk);
  target_->execute("PRAGMA journal_mode = MEMORY");
  pages_ = std::make_unique<PageCopy>(source, *target_);
  // The draft's name goes here; the open file stays until the connection does.
}

Image::~Image() = default;

Result<std::unique_ptr<Image>> Image::of(Book& book) {
  return guarded(
      [&] { return std::make_unique<Image>(book.connection_, book.laptop(), roomFor(book)); });
}

Result<bool> Image::copy(int pages) {
  return guarded([&] {
    const bool all = pages_->step(pages);
    whole_ = pages_->whole();
    done_ = pages_->done();
    // Ending it touches the book's connection, so it is done here and not where it is taken.
    if (all) pages_.reset();
    return all;
  });
}

Result<Book> Image::take() {
  base::require(whole_ > 0 && !pages_ && target_, "an image is taken once all is copied");
  auto book = Book::over(std::move(*target_), laptop_);
  target_.reset();
  return book;
}

} // namespace gk::store
