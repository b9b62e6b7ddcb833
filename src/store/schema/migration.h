#pragma once

#include "store/sqlite/connection.h"

#include <cstdint>
#include <span>
#include <string_view>
#include <vector>

namespace gk::store {

/// One step of the schema: the file schema/database/NNNN_name.sql, never changed once released.
struct Migration {
  int number;
  std::string_view name;
  std::string_view sql;
};

/// The steps built into this program, 1, 2, 3... in order.
const std::vector<Migration>& migrations();

/// FNV-1a, 64 bits, of the SQL text (Fowler, Noll and Vo; IETF draft-eastlake-fnv). It finds a
/// file edited after release, not an attacker.
std::uint64_t checksum(std::string_view sql);

/// Marks a file as a book: "GKBK" in the header's application_id.
inline constexpr std::int64_t applicationId = 0x474B424B;

/// The header's user_version. A version that cannot be read throws, it is never taken for zero.
std::int64_t userVersion(Connection& connection);

/// Throws `storeDamaged` unless the table `migration` says that exactly the steps 1..version of
/// `steps` were applied, with the same text, and says nothing else of them than was written.
void checkHistory(Connection& connection, std::span<const Migration> steps, std::int64_t version);

/// Applies the steps above the file's version, each together with its row in `migration` and
/// `user_version`, all in one transaction: work that is stopped, or a full disk, leaves the book as
/// it was. A step that fails throws `storeMigrationFailed` and leaves the version before it.
/// Foreign keys are checked as a whole before each commit, since rebuilding a table needs them off
/// (sqlite.org/lang_altertable.html, section 7).
void migrate(Connection& connection, std::span<const Migration> steps, base::Instant now);

} // namespace gk::store
