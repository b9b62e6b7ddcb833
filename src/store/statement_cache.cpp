#include "store/statement_cache.h"

#include "store/trouble.h"

namespace gk::store {

sqlite3_stmt* StatementCache::lend(std::string_view sql) {
  std::string text(sql);
  if (auto idle = idle_.extract(text)) return idle.mapped();
  sqlite3_stmt* handle = nullptr;
  const char* rest = nullptr;
  const int code = sqlite3_prepare_v3(db_, text.c_str(), static_cast<int>(text.size()),
                                      SQLITE_PREPARE_PERSISTENT, &handle, &rest);
  if (code != SQLITE_OK) throwTrouble(db_, code, file_);
  base::require(handle != nullptr && *rest == '\0', "one statement to prepare");
  return handle;
}

void StatementCache::takeBack(std::string sql, sqlite3_stmt* handle) noexcept {
  sqlite3_reset(handle); // gives again the trouble that step() already threw
  sqlite3_clear_bindings(handle);
  try {
    idle_.emplace(std::move(sql), handle);
  } catch (const std::bad_alloc&) {
    sqlite3_finalize(handle);
  }
}

void StatementCache::clear() noexcept {
  for (const auto& [sql, handle] : idle_)
    sqlite3_finalize(handle);
  idle_.clear();
}

} // namespace gk::store
