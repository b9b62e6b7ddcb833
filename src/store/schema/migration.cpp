#include "store/schema/migration.h"

#include "store/sqlite/transaction.h"

#include <optional>
#include <string>

namespace gk::store {

namespace {

using base::ErrorCode;

constexpr std::string_view createHistory = "CREATE TABLE IF NOT EXISTS migration ("
                                           "number INTEGER NOT NULL PRIMARY KEY,"
                                           "name TEXT NOT NULL,"
                                           "checksum TEXT NOT NULL,"
                                           "applied_at INTEGER NOT NULL) STRICT";

constexpr std::string_view insertApplied = "INSERT INTO migration "
                                           "(number, name, checksum, applied_at) "
                                           "VALUES (?1, ?2, ?3, ?4)";

constexpr std::string_view selectApplied =
    "SELECT number, name, checksum, applied_at FROM migration ORDER BY "
    "number";

std::string hex(std::uint64_t value) {
  std::string digits(16, '0');
  for (auto digit = digits.rbegin(); value != 0; value /= 16, ++digit)
    *digit = "0123456789abcdef"[value % 16];
  return digits;
}

std::string nameOf(const Migration& step) {
  return "schema step " + std::to_string(step.number) + " " + std::string(step.name);
}

/// Off while it lives.
class ForeignKeysOff {
 public:
  explicit ForeignKeysOff(Connection& connection) : connection_(connection) {
    connection_.enforceForeignKeys(false);
  }
  ~ForeignKeysOff() { connection_.enforceForeignKeys(true); }
  ForeignKeysOff(const ForeignKeysOff&) = delete;
  ForeignKeysOff& operator=(const ForeignKeysOff&) = delete;

 private:
  Connection& connection_;
};

/// Of the step and of all that its row says, so that none of it changes unseen.
std::string checksumOf(const Migration& step, base::Instant appliedAt) {
  return hex(checksum(std::string(step.sql) + '\0' + std::string(step.name) + '\0' +
                      std::to_string(appliedAt.utc.count())));
}

void apply(Connection& connection, const Migration& step, base::Instant now) {
  connection.execute("SAVEPOINT step");
  if (step.number == 1)
    connection.execute("PRAGMA application_id = " + std::to_string(applicationId));
  connection.execute(createHistory);
  connection.execute(step.sql);
  base::require(connection.isInTransaction(), "a schema step ended its transaction");
  connection.prepare(insertApplied)
      .bindAll(step.number, step.name, checksumOf(step, now), now)
      .run();
  connection.execute("PRAGMA user_version = " + std::to_string(step.number));
  if (connection.prepare("PRAGMA foreign_key_check").step())
    throw Trouble({ErrorCode::storeMigrationFailed,
                   connection.path().string() + ": rows would point at rows that do not exist"});
  connection.execute("RELEASE step");
}

} // namespace

std::uint64_t checksum(std::string_view sql) {
  std::uint64_t hash = 14695981039346656037ULL; // the offset basis and prime for 64 bits
  for (const char c : sql)
    hash = (hash ^ static_cast<unsigned char>(c)) * 1099511628211ULL;
  return hash;
}

std::int64_t userVersion(Connection& connection) {
  auto pragma = connection.prepare("PRAGMA user_version");
  if (!pragma.step())
    throw Trouble({ErrorCode::storeDamaged, connection.path().string() +
                                                ": its version cannot be read; keep this file and "
                                                "open the latest backup"});
  return pragma.column<std::int64_t>(0);
}

void checkHistory(Connection& connection, std::span<const Migration> steps, std::int64_t version) {
  const auto refuse = [&](const std::string& why) {
    throw Trouble({ErrorCode::storeDamaged,
                   connection.path().string() + ": " + why +
                       "; keep this file and use the program that made it or the latest backup"});
  };
  auto applied = connection.prepare(selectApplied);
  std::int64_t count = 0;
  while (applied.step()) {
    const auto [number, name, sum, at] =
        applied.columns<std::int64_t, std::string, std::string, base::Instant>();
    if (number != ++count || number > version)
      refuse("its schema history does not fit its version");
    const Migration& step = steps[static_cast<std::size_t>(number - 1)];
    if (name != step.name || sum != checksumOf(step, at))
      refuse(nameOf(step) + " differs from the one applied");
  }
  if (count != version) refuse("its schema history does not fit its version");
}

void migrate(Connection& connection, std::span<const Migration> steps, base::Instant now) {
  const std::int64_t version = userVersion(connection);
  const auto newest = static_cast<std::int64_t>(steps.size());
  if (version >= newest) return;
  std::optional<Trouble> failure;
  const ForeignKeysOff rebuilding(connection);
  Transaction transaction(connection);
  for (const Migration& step : steps) {
    if (step.number <= version) continue;
    connection.progress().at(base::Stage::updating, step.number - version, newest - version);
    try {
      apply(connection, step, now);
    } catch (const Trouble& trouble) {
      const base::Error& cause = trouble.error();
      const bool isUndone = !connection.isInTransaction(); // by SQLite itself, all of it
      if (cause.code == ErrorCode::workCanceled || cause.code == ErrorCode::diskFull) throw;
      failure = Trouble(
          {ErrorCode::storeMigrationFailed, nameOf(step) + " was undone: " + cause.detail +
                                                "; the book is as it was; send this message to the "
                                                "person who maintains the program"});
      if (isUndone) throw *failure;
      connection.execute("ROLLBACK TO step");
      break;
    }
  }
  transaction.commit();
  if (failure) throw *failure;
}

} // namespace gk::store
