#pragma once

#include "store/sqlite/connection.h"

namespace gk::store {

/// Which files a transaction locks for writing. Of a file that is attached, `whatIsWritten`: SQLite
/// commits two that are locked by a journal of both, which names them, and which no logbook is
/// opened with after a kill (refuseStrangeJournal).
enum class Locks { atOnce, whatIsWritten };

/// One act: everything between construction and `commit()` happens, or nothing does. Takes the
/// write lock at once (BEGIN IMMEDIATE), so that trouble shows before the work; a connection that
/// may write has the lock of its own file in any case. Leaving without `commit()` rolls back. A
/// transaction inside another is a bug.
class Transaction {
 public:
  explicit Transaction(Connection& connection, Locks locks = Locks::atOnce)
      : connection_(connection) {
    base::require(!connection.isInTransaction(), "a transaction inside another");
    connection_.execute(locks == Locks::atOnce ? "BEGIN IMMEDIATE" : "BEGIN");
  }
  ~Transaction() {
    if (!isCommitted_) connection_.rollBack();
  }
  Transaction(const Transaction&) = delete;
  Transaction& operator=(const Transaction&) = delete;

  /// Durable on return (`Durability::everyAct`). When it throws, nothing was kept; `storeMoved`
  /// when the file is no longer where it was opened, which may have happened meanwhile;
  /// `storeUnsure` when the disk failed or was full so late (as the journal is ended, or its folder
  /// is synced) that it may be.
  void commit() {
    base::require(!isCommitted_, "a transaction committed twice");
    if (connection_.hasMoved()) throw Trouble(movedError(connection_.path()));
    try {
      connection_.execute("COMMIT");
    } catch (const Trouble& trouble) {
      if (trouble.error().code != base::ErrorCode::storeWriteFailed &&
          trouble.error().code != base::ErrorCode::diskFull)
        throw;
      throw Trouble({base::ErrorCode::storeUnsure,
                     connection_.path().string() +
                         ": the disk failed or was full while this was being made safe, so it may "
                         "be kept or not; see that it has room, close the logbook, open it again "
                         "and look"});
    }
    isCommitted_ = true;
    connection_.keepJournal();
  }

 private:
  Connection& connection_;
  bool isCommitted_ = false;
};

} // namespace gk::store
