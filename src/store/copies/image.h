#pragma once

#include "store/book.h"
#include "store/sqlite/page_copy.h"

namespace gk::store {

/// An open book as it is at one moment, for another thread to read while the book is written on.
/// It is copied in pieces in the book's own thread. The copy is a file of no name beside the book,
/// which goes when it is closed, even by a crash; in the system's folder for such files where the
/// book was moved and its folder with it.
class Image {
 public:
  /// Fails as Draft where no file can be made for it. The book outlives the copying.
  static base::Result<std::unique_ptr<Image>> of(Book& book);
  /// Throws Trouble; `of` is the way in.
  Image(Connection& source, base::LaptopId laptop, const base::Path& folder);
  Image(const Image&) = delete;
  Image& operator=(const Image&) = delete;
  ~Image();

  /// At most so many pages; true once the copy is one state of the book.
  base::Result<bool> copy(int pages);
  [[nodiscard]] std::int64_t done() const { return done_; }
  [[nodiscard]] std::int64_t whole() const { return whole_; }
  /// The copy as a book of its own, in whatever thread. Once, when all is copied.
  base::Result<Book> take();

 private:
  std::unique_ptr<Connection> target_;
  base::LaptopId laptop_;
  std::int64_t done_ = 0;
  std::int64_t whole_ = 0;
  std::unique_ptr<PageCopy> pages_; // goes before the connection
};

} // namespace gk::store
