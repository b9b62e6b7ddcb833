#pragma once

#include "store/schema/own_schema.h"
#include "store/sqlite/trouble.h"

#include <future>

namespace gk::store {

/// Looks through every page and every act of an open book on a thread of its own, so that no one
/// waits for it.
/// Its connection takes no lock, so nothing may write until the answer is known; and closing it
/// drops this process's locks on the file, so it must outlive the book's own connection.
class BackgroundCheck {
 public:
  /// Throws Trouble when the file cannot be opened. `own` outlives it.
  BackgroundCheck(const base::Path& path, const OwnSchema& own);

  [[nodiscard]] bool isOver() const;
  /// Waits. Fails with `storeDamaged`, each time it is asked.
  [[nodiscard]] base::Result<base::Done> answer() const { return answer_.get(); }

 private:
  Connection book_;
  std::shared_future<base::Result<base::Done>> answer_; // goes first, and waits for the thread
};

} // namespace gk::store
