#include "store/book.h"
#include "store/sqlite/trouble.h"

// A book is written only where it was opened, and once it was found whole.
namespace gk::store {

using base::Error;
using base::ErrorCode;
using base::Result;

Result<bool> Book::isChecked() const {
  if (check_ && !check_->isOver()) return false;
  if (const auto whole = awaitCheck(); !whole) return whole.error();
  return true;
}

Result<base::Done> Book::awaitCheck() const {
  if (!check_) return base::Done{};
  auto answer = check_->answer();
  // What was found wrong may be of the file that took the place of this one.
  if (!answer && !isInPlace()) return movedError(path());
  return answer;
}

bool Book::isInPlace() const {
  return !connection_.hasMoved();
}

Result<base::Done> Book::mayWrite() const {
  if (!isInPlace()) return movedError(path());
  return awaitCheck();
}

Result<base::Done> Book::inPlace(Result<base::Done> done) const {
  if (isInPlace()) return done;
  // SQLite then says that the disk failed or that the folder may not be written.
  const auto code = done ? ErrorCode::storeUnsure : done.error().code;
  if (code == ErrorCode::storeReadOnly || code == ErrorCode::storeWriteFailed)
    return movedError(path());
  if (code != ErrorCode::storeUnsure) return done;
  return Error{ErrorCode::storeMoved,
               path().string() +
                   ": the file was moved, deleted or replaced just as this was written, so it may "
                   "be in what is open here alone, or nowhere; save the logbook under a new name "
                   "before it is closed, and look there before you enter it again"};
}

} // namespace gk::store
