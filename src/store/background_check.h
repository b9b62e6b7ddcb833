#pragma once

#include "store/trouble.h"

#include "base/files.h"

#include <future>
#include <memory>

struct sqlite3;

namespace gk::store {

/// Looks through every page of an open book on a thread of its own, so that nobody waits for it.
/// Its connection takes no lock, so nothing may write until the answer is known; and closing it
/// drops this process's locks on the file, so it must outlive the book's own connection.
class BackgroundCheck {
 public:
  /// Throws Trouble when the file cannot be opened.
  explicit BackgroundCheck(const base::Path& path);

  [[nodiscard]] bool isOver() const;
  /// Waits. Fails with `storeDamaged`, each time it is asked.
  [[nodiscard]] base::Result<base::Done> answer() const { return answer_.get(); }

 private:
  struct Closer {
    void operator()(sqlite3* db) const;
  };
  std::unique_ptr<sqlite3, Closer> db_;
  std::shared_future<base::Result<base::Done>> answer_; // goes first, and waits for the thread
};

} // namespace gk::store
