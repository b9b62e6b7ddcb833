#pragma once

#include "store/connection.h"

namespace gk::store {

/// One act: everything between construction and `commit()` happens, or nothing does. Takes the
/// write lock at once (BEGIN IMMEDIATE), so that trouble shows before the work. Leaving without
/// `commit()` rolls back. A transaction inside another is a bug.
class Transaction {
 public:
  explicit Transaction(Connection& connection) : connection_(connection) {
    base::require(!connection.isInTransaction(), "a transaction inside another");
    connection_.execute("BEGIN IMMEDIATE");
  }
  ~Transaction() {
    if (!isCommitted_) connection_.rollBack();
  }
  Transaction(const Transaction&) = delete;
  Transaction& operator=(const Transaction&) = delete;

  /// Durable on return (`Durability::everyAct`). When it throws, nothing was kept.
  void commit() {
    base::require(!isCommitted_, "a transaction committed twice");
    connection_.execute("COMMIT");
    isCommitted_ = true;
  }

 private:
  Connection& connection_;
  bool isCommitted_ = false;
};

} // namespace gk::store
