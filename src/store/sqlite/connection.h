#pragma once

#include "base/files/files.h"
#include "base/progress.h"
#include "store/sqlite/hands.h"
#include "store/sqlite/looking.h"
#include "store/sqlite/statement.h"
#include "store/sqlite/trouble.h"
#include "store/values/access.h"

#include <cstdint>
#include <memory>
#include <string_view>

struct sqlite3;

namespace gk::store {

/// `everyAct`: a committed transaction survives loss of power. `bulk`: nothing is synced until
/// `finish()`; for building a book that can be built again.
enum class Durability { everyAct, bulk };

/// One open SQLite file with the house settings: foreign keys on, trusted schema off, defensive,
/// double-quoted strings off, cell sizes checked, deleted content zeroed, rollback journal. Writing
/// holds the file locked against every other connection until closed (docs/decisions/
/// 0002-journal.md). Throws Trouble; `openBook` is the public way in. One thread at a time.
class Connection {
 public:
  /// The file must exist (it may be empty). Fails with `storeInUse` when another holds it and with
  /// `storeReadOnly` when writing is asked for and not permitted.
  Connection(const base::Path& path, Access access, Durability durability);
  /// Looks alone, and so that the CHECKs of a schema are there to be checked.
  Connection(const base::Path& path, Looking how);
  Connection(Connection&&) noexcept;
  Connection& operator=(Connection&&) noexcept;
  Connection(const Connection&) = delete;
  Connection& operator=(const Connection&) = delete;
  /// Whether its name leads to another file than it did when it was opened, or to none: what is
  /// written from then on would be gone when it is closed, and its journal would lie beside
  /// another.
  [[nodiscard]] bool hasMoved() const;
  /// From now on the file has no name that could lead elsewhere, and never has moved.
  void goNameless();

  /// Rolls back what is not committed. Precondition: no Statement is on loan.
  ~Connection();

  /// Lends the statement of this SQL text, kept prepared between loans. Keep the SQL a
  /// `constexpr std::string_view` beside its binds.
  [[nodiscard]] Statement prepare(std::string_view sql);

  /// The laptops that wrote in the file.
  [[nodiscard]] const Hands& hands() const;
  /// The number of this laptop in the file, where it gets one if it has none yet.
  int numberFor(base::LaptopId laptop);
  /// After rows of `hand` were written otherwise.
  void forgetHands() noexcept;
  /// What was shown under a laptop's name keeps it, though its line has one of its own from now on:
  /// until the file is opened again no one who holds an identity is left with a stale one.
  void keepName(std::int64_t since);

  /// Runs one or more statements without parameters or rows of interest.
  void execute(std::string_view sql);

  /// Rows changed by the last INSERT, UPDATE or DELETE.
  [[nodiscard]] std::int64_t changes() const;
  [[nodiscard]] bool isInTransaction() const;
  /// Undoes the open transaction, if there is one. Never throws: SQLite also undoes it on closing.
  void rollBack() noexcept;

  /// The next commit leaves nothing in the journal beside the file: the pages as they were before
  /// stay in it otherwise, with its head struck out, until the file is closed.
  void cutJournal();
  /// After that commit, since it costs each act a little.
  void keepJournal() noexcept;

  /// Enforced from the next transaction on. Only migrations turn it off, to rebuild tables.
  void enforceForeignKeys(bool enforced);

  /// Ends `bulk`: file and folder are synced and every later act is durable.
  /// Precondition: no transaction is open.
  void finish();

  [[nodiscard]] const base::Path& path() const;
  [[nodiscard]] Access access() const;
  /// Whether SQLite's checks of the file look at the CHECKs of each row here.
  [[nodiscard]] bool seesChecks() const;

  /// What runs here from now on ends with `workCanceled` once that is stopped; see Watching.
  void watch(base::Progress progress);
  [[nodiscard]] const base::Progress& progress() const;

 private:
  friend class PageCopy;
  [[nodiscard]] sqlite3* handle() const;

  struct State;
  std::unique_ptr<State> state_;
};

/// While it lives, `progress` hears of what runs on the connection and may stop it.
class Watching {
 public:
  Watching(Connection& connection, const base::Progress& progress) : connection_(connection) {
    connection_.watch(progress);
  }
  ~Watching() { connection_.watch({}); }
  Watching(const Watching&) = delete;
  Watching& operator=(const Watching&) = delete;

 private:
  Connection& connection_;
};

} // namespace gk::store
