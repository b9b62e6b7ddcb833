#include "session/reader_held.h"
#include "session/session_write.h"
#include "store/copies/image.h"

// Several acts as one, and acts that are only tried.
namespace gk::session {

Result<base::Done> Door::together(const std::function<Result<base::Done>()>& work) {
  auto done = book_.together(work);
  if (!done) {
    // What was read meanwhile is of acts that are not there.
    forgetRoll();
    changed_.emit(Change{});
  }
  return done;
}

Result<Session> Session::rehearsal() {
  constexpr int pagesAtOnce = 1024;
  auto image = store::Image::of(book_);
  if (!image) return image.error();
  for (;;) {
    const auto all = (*image)->copy(pagesAtOnce);
    if (!all) return all.error();
    if (*all) break;
  }
  auto book = (*image)->take();
  if (!book) return book.error();
  Session tried(std::move(*book), world_);
  if (vault_) tried.vault_ = vault_->twin();
  tried.kind_ = kind_;
  tried.keyboard_.signedIn = keyboard_.signedIn;
  tried.clockTrusted_ = clockTrusted_;
  return tried;
}

} // namespace gk::session
