#include "store/sqlite/statement_cache.h"

#include "store/sqlite/statement.h"
#include "store/sqlite/trouble.h"

namespace gk::store {

namespace {

constexpr std::string_view isBookSql =
    "SELECT 1 FROM main.sqlite_schema WHERE type = 'table' AND name = 'hand'";
constexpr std::string_view hasLinesSql =
    "SELECT 1 FROM main.sqlite_schema WHERE type = 'table' AND name = 'hand_branch'";
constexpr std::string_view lineListSql = "SELECT first, laptop, origin FROM main.hand_branch";

} // namespace

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

const Hands& StatementCache::freshHands() {
  constexpr std::string_view sql = "SELECT number, laptop FROM main.hand";
  Hands hands;
  // A file that is no book has no one who writes in it.
  auto there = Statement(*this, std::string(isBookSql), lend(isBookSql));
  if (there.step()) {
    auto rows = Statement(*this, std::string(sql), lend(sql));
    while (rows.step())
      hands.add(rows.column<std::int64_t>(0), rows.column<base::LaptopId>(1));
  }
  auto parted = Statement(*this, std::string(hasLinesSql), lend(hasLinesSql));
  if (parted.step()) {
    auto rows = Statement(*this, std::string(lineListSql), lend(lineListSql));
    while (rows.step())
      if (const auto since = rows.column<std::int64_t>(0); !unnamed_.contains(since))
        hands.addLine(since, rows.column<base::LaptopId>(1), rows.column<int>(2));
  }
  return hands_.emplace(std::move(hands));
}

void StatementCache::clear() noexcept {
  for (const auto& [sql, handle] : idle_)
    sqlite3_finalize(handle);
  idle_.clear();
}

} // namespace gk::store
