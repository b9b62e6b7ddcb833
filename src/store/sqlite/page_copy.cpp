#include "store/sqlite/page_copy.h"

#include <sqlite3.h>

namespace gk::store {

struct PageCopy::State {
  struct Finish {
    void operator()(sqlite3_backup* handle) const { sqlite3_backup_finish(handle); }
  };

  sqlite3* target;
  std::string file;
  std::unique_ptr<sqlite3_backup, Finish> copy;
};

PageCopy::PageCopy(Connection& source, Connection& target)
    : state_(std::make_unique<State>(State{target.handle(), target.path().string(), {}})) {
  state_->copy.reset(sqlite3_backup_init(target.handle(), "main", source.handle(), "main"));
  if (!state_->copy)
    throwTrouble(state_->target, sqlite3_extended_errcode(state_->target), state_->file);
}

PageCopy::~PageCopy() = default;

bool PageCopy::step(int pages) {
  const int code = sqlite3_backup_step(state_->copy.get(), pages);
  if (code == SQLITE_DONE) return true;
  if (code != SQLITE_OK) throwTrouble(state_->target, code, state_->file);
  return false;
}

std::int64_t PageCopy::done() const {
  return whole() - sqlite3_backup_remaining(state_->copy.get());
}

std::int64_t PageCopy::whole() const {
  return sqlite3_backup_pagecount(state_->copy.get());
}

} // namespace gk::store
