#pragma once

#include "store/sqlite/connection.h"

namespace gk::store {

/// Copies one open file into another page by page, in pieces; what is written to the source through
/// its own connection meanwhile is copied again, so that the end is one state of it
/// (sqlite.org/c3ref/backup_finish.html). Throws Trouble. Both connections outlive it.
class PageCopy {
 public:
  PageCopy(Connection& source, Connection& target);
  ~PageCopy();
  PageCopy(const PageCopy&) = delete;
  PageCopy& operator=(const PageCopy&) = delete;

  /// At most so many pages; true once all are copied.
  bool step(int pages);
  [[nodiscard]] std::int64_t done() const;
  [[nodiscard]] std::int64_t whole() const;

 private:
  struct State;
  std::unique_ptr<State> state_;
};

} // namespace gk::store
