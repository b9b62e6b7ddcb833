#pragma once

#include "store/sqlite/hands.h"

#include <set>
#include <sqlite3.h>
#include <string>
#include <string_view>
#include <unordered_map>

namespace gk::store {

/// Idle prepared statements by SQL text. A statement on loan is not in here, so the same text used
/// twice at once is simply prepared twice.
class StatementCache {
 public:
  StatementCache(sqlite3* db, std::string file) : db_(db), file_(std::move(file)) {}
  ~StatementCache() { clear(); }
  StatementCache(const StatementCache&) = delete;
  StatementCache& operator=(const StatementCache&) = delete;

  /// An idle statement or a newly prepared one. Throws Trouble.
  sqlite3_stmt* lend(std::string_view sql);
  /// Never throws; a statement that cannot be kept is finalized.
  void takeBack(std::string sql, sqlite3_stmt* handle) noexcept;
  void clear() noexcept;

  /// Who writes in the file; read when it is first asked. Throws Trouble.
  const Hands& hands() { return hands_ ? *hands_ : freshHands(); }
  const Hands& freshHands();
  void forgetHands() noexcept { hands_.reset(); }
  /// The line that begins with this key is called as its hand until the file is opened again.
  void keepName(std::int64_t since) { unnamed_.insert(since); }

  [[nodiscard]] sqlite3* db() const { return db_; }
  [[nodiscard]] const std::string& file() const { return file_; }

 private:
  sqlite3* db_;
  std::string file_;
  std::unordered_multimap<std::string, sqlite3_stmt*> idle_;
  std::optional<Hands> hands_;
  std::set<std::int64_t> unnamed_;
};

} // namespace gk::store
