#include "store/sqlite/connection.h"

#include "store/sqlite/folder.h"
#include "store/sqlite/statement_cache.h"

#include <array>
#include <optional>
#include <sqlite3.h>
#include <string>
#include <sys/stat.h>
#include <utility>

namespace gk::store {

namespace {

// Long enough for another program to finish one read, short enough for a person who waits.
constexpr int busyMilliseconds = 1000;

// The pages that a clinic day touches again and again, with the inner nodes of every index, fit in
// 64 MiB at 100,000 children; SQLite's own 2 MiB do not hold them.
constexpr std::string_view pageCache = "PRAGMA cache_size = -65536";

// Some tenths of a millisecond of SQLite's work, so that asking costs nothing and stopping is
// prompt.
constexpr int stepsBetweenAsking = 4000;

struct Closer {
  void operator()(sqlite3* db) const { sqlite3_close_v2(db); }
};
using Handle = std::unique_ptr<sqlite3, Closer>;

Handle opened(const std::string& file, Access access, const char* vfs) {
  const bool mayWrite = access == Access::readWrite || vfs != nullptr; // such a VFS does not
  const int mode = mayWrite ? SQLITE_OPEN_READWRITE : SQLITE_OPEN_READONLY;
  sqlite3* raw = nullptr;
  const int code =
      sqlite3_open_v2(file.c_str(), &raw, mode | SQLITE_OPEN_NOMUTEX | SQLITE_OPEN_EXRESCODE, vfs);
  Handle db(raw);
  if (code != SQLITE_OK) throwTrouble(db.get(), code, file);
  return db;
}

void configure(sqlite3* db, const std::string& file) {
  constexpr auto settings = std::to_array<std::pair<int, int>>({
      {SQLITE_DBCONFIG_ENABLE_FKEY, 1},
      {SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0},
      {SQLITE_DBCONFIG_DEFENSIVE, 1},
      {SQLITE_DBCONFIG_DQS_DDL, 0},
      {SQLITE_DBCONFIG_DQS_DML, 0},
      {SQLITE_DBCONFIG_WRITABLE_SCHEMA, 0},
      {SQLITE_DBCONFIG_ENABLE_TRIGGER, 1},
      {SQLITE_DBCONFIG_ENABLE_LOAD_EXTENSION, 0},
  });
  for (const auto& [setting, wanted] : settings) {
    int now = -1;
    const int code = sqlite3_db_config(db, setting, wanted, &now);
    if (code != SQLITE_OK) throwTrouble(db, code, file);
    base::require(now == wanted, "a connection setting that SQLite was built without");
  }
  // Far more than any row or statement of ours; a foreign file must not fill the memory.
  sqlite3_limit(db, SQLITE_LIMIT_LENGTH, 16 * 1024 * 1024);
  sqlite3_limit(db, SQLITE_LIMIT_SQL_LENGTH, 1024 * 1024);
  // One, since VACUUM INTO attaches its target.
  sqlite3_limit(db, SQLITE_LIMIT_ATTACHED, 1);
  sqlite3_busy_timeout(db, busyMilliseconds);
}

/// What a name stands for. A link is one thing and the file that it leads to another: where a link
/// took the file's place, SQLite would look for the journal beside the link, and an opening by it
/// beside the file.
struct Standing {
  dev_t device;
  ino_t file;
  mode_t kind;
  bool operator==(const Standing&) const = default;
};

std::optional<Standing> standingAt(const base::Path& path) {
  struct stat found {};
  if (::lstat(path.c_str(), &found) != 0) return std::nullopt;
  return Standing{found.st_dev, found.st_ino, found.st_mode & S_IFMT};
}

} // namespace

namespace {

/// Our schema takes some 3,500 of SQLite's steps to read; that of a file with a hundred
/// thousand views takes minutes, before anything could be canceled.
constexpr int stepsAtOnce = 1000;
constexpr int mostRounds = 100;

/// Reads what the file says that it has, and no more of it than a logbook could have.
void readSchema(sqlite3* db, const std::string& file) {
  int rounds = 0;
  const auto isTooMuch = [](void* count) {
    return ++*static_cast<int*>(count) > mostRounds ? 1 : 0;
  };
  sqlite3_progress_handler(db, stepsAtOnce, isTooMuch, &rounds);
  const int code =
      sqlite3_exec(db, "PRAGMA cell_size_check = ON; SELECT 1 FROM sqlite_schema LIMIT 1", nullptr,
                   nullptr, nullptr);
  sqlite3_progress_handler(db, 0, nullptr, nullptr);
  if (rounds > mostRounds)
    throw Trouble({base::ErrorCode::storeDamaged,
                   file + ": it has more tables, indexes and views than a logbook; it was not "
                          "opened"});
  if (code != SQLITE_OK) throwTrouble(db, code, file);
}

} // namespace

struct Connection::State {
  State(const base::Path& given, Access wanted, const char* vfs = nullptr)
      : path(given), access(wanted), db(opened(given.string(), wanted, vfs)),
        cache(db.get(), given.string()), standing(standingAt(given)) {}

  base::Path path;
  Access access;
  base::Progress progress{};
  Handle db;
  StatementCache cache;             // after db, so that statements are finalized before it closes
  std::optional<Standing> standing; // when it was opened
  bool isNameless = false;
  bool cutsJournal = false;
};

Connection::Connection(const base::Path& path, Access access, Durability durability)
    : state_(std::make_unique<State>(path, access)) {
  configure(state_->db.get(), state_->cache.file());
  readSchema(state_->db.get(), state_->cache.file());
  execute("PRAGMA temp_store = MEMORY; PRAGMA secure_delete = ON");
  execute(pageCache);
  if (access == Access::readOnly) return;
  if (sqlite3_db_readonly(state_->db.get(), "main") == 1)
    throwTrouble(state_->db.get(), SQLITE_READONLY, state_->cache.file());
  execute("PRAGMA locking_mode = EXCLUSIVE");
  execute("BEGIN EXCLUSIVE; COMMIT"); // the lock is taken now and kept until closing
  execute("PRAGMA journal_mode = DELETE");
  execute(durability == Durability::everyAct ? "PRAGMA synchronous = EXTRA"
                                             : "PRAGMA synchronous = OFF");
}

Connection::Connection(const base::Path& path, Looking how)
    : state_(std::make_unique<State>(path, Access::readOnly, lookingVfs(how))) {
  configure(state_->db.get(), state_->cache.file());
  readSchema(state_->db.get(), state_->cache.file());
  execute("PRAGMA temp_store = MEMORY; PRAGMA query_only = ON");
}

Connection::Connection(Connection&&) noexcept = default;
Connection& Connection::operator=(Connection&&) noexcept = default;
Connection::~Connection() = default;

Statement Connection::prepare(std::string_view sql) {
  return {state_->cache, std::string(sql), state_->cache.lend(sql)};
}

const Hands& Connection::hands() const {
  return state_->cache.hands();
}

int Connection::numberFor(base::LaptopId laptop) {
  if (const int known = hands().numberOf(laptop); known != 0) return known;
  auto hands = this->hands();
  const int number = hands.taken(laptop);
  prepare("INSERT INTO hand (number, laptop) VALUES (?, ?)").bindAll(number, laptop).run();
  forgetHands();
  return number;
}

void Connection::forgetHands() noexcept {
  state_->cache.forgetHands();
}

void Connection::keepName(std::int64_t since) {
  state_->cache.keepName(since);
}

void Connection::execute(std::string_view sql) {
  const int code =
      sqlite3_exec(state_->db.get(), std::string(sql).c_str(), nullptr, nullptr, nullptr);
  if (code != SQLITE_OK) throwTrouble(state_->db.get(), code, state_->cache.file());
}

std::int64_t Connection::changes() const {
  return sqlite3_changes64(state_->db.get());
}

bool Connection::hasMoved() const {
  if (state_->isNameless) return false;
  int moved = 0;
  sqlite3_file_control(state_->db.get(), "main", SQLITE_FCNTL_HAS_MOVED, &moved);
  return moved != 0 || standingAt(state_->path) != state_->standing;
}

void Connection::goNameless() {
  state_->isNameless = true;
}

bool Connection::isInTransaction() const {
  return sqlite3_get_autocommit(state_->db.get()) == 0;
}

void Connection::rollBack() noexcept {
  // Trouble such as a full disk may have ended the transaction already.
  if (isInTransaction()) sqlite3_exec(state_->db.get(), "ROLLBACK", nullptr, nullptr, nullptr);
  forgetHands(); // one that the transaction brought is gone
}

void Connection::cutJournal() {
  execute("PRAGMA main.journal_size_limit = 0"); // what is over it is cut off
  state_->cutsJournal = true;
}

void Connection::keepJournal() noexcept {
  if (!std::exchange(state_->cutsJournal, false)) return;
  // It only sets a number, so that nothing can be done, and nothing is lost, where it fails.
  sqlite3_exec(state_->db.get(), "PRAGMA main.journal_size_limit = -1", nullptr, nullptr, nullptr);
}

void Connection::enforceForeignKeys(bool enforced) {
  base::require(!isInTransaction(), "foreign keys switched inside a transaction");
  sqlite3_db_config(state_->db.get(), SQLITE_DBCONFIG_ENABLE_FKEY, enforced ? 1 : 0, nullptr);
}

void Connection::finish() {
  base::require(!isInTransaction(), "finish() inside a transaction");
  // Through SQLite's own descriptor: closing another would drop the locks.
  sqlite3_file* file = nullptr;
  int code = sqlite3_file_control(state_->db.get(), "main", SQLITE_FCNTL_FILE_POINTER,
                                  static_cast<void*>(&file));
  if (code == SQLITE_OK) code = file->pMethods->xSync(file, SQLITE_SYNC_FULL);
  if (code != SQLITE_OK) throwTrouble(state_->db.get(), code, state_->cache.file());
  syncToDisk(folderOf(state_->path));
  execute("PRAGMA synchronous = EXTRA");
}

const base::Path& Connection::path() const {
  return state_->path;
}
Access Connection::access() const {
  return state_->access;
}
const base::Progress& Connection::progress() const {
  return state_->progress;
}
sqlite3* Connection::handle() const {
  return state_->db.get();
}

void Connection::watch(base::Progress progress) {
  state_->progress = std::move(progress);
  const auto ask = [](void* watched) {
    return static_cast<const base::Progress*>(watched)->isStopped() ? 1 : 0;
  };
  sqlite3_progress_handler(state_->db.get(), stepsBetweenAsking, ask, &state_->progress);
}

bool Connection::seesChecks() const {
  return sqlite3_db_readonly(state_->db.get(), "main") == 0;
}

} // namespace gk::store
