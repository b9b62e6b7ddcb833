#pragma once

#include "base/id.h"
#include "crypto/digest.h"
#include "store/own_schema.h"

#include <string>

namespace gk::store {

/// What the digest of an act begins with.
struct ActHead {
  base::Uuid book;
  base::LaptopId laptop;
  crypto::Hash previous; ///< of the laptop's act before, zeros at its first
  base::Uuid act;
  std::int64_t first; ///< sequence of its first row
};

/// The digest of one act, over its canonical bytes (docs/formats.md, Digests). It takes whatever
/// columns the program's schema gives a table, so none can be forgotten.
class ActDigest {
 public:
  explicit ActDigest(const ActHead& head);

  /// The row that the statement stands on: each column of `table`, in its order.
  void add(const OwnTable& table, const Statement& row);
  /// A row of `entry`, which counts as one of the act.
  void addEntry(const OwnTable& entry, const Statement& row);
  [[nodiscard]] crypto::Hash finish();

 private:
  void put(std::int64_t number);
  void flush();

  crypto::Hasher hasher_;
  std::string bytes_; // not yet given to it
  std::int64_t entries_ = 0;
};

/// Which book and whose hand a digest is of.
struct Hand {
  base::Uuid book;
  base::LaptopId laptop;
};

/// Writes the digest of the act whose rows this laptop has just written, those after the sequence
/// `after`, and gives it back.
crypto::Hash sealAct(Connection& book, const OwnSchema& own, const Hand& hand, std::int64_t after,
                     const crypto::Hash& previous);

/// Of an act that is there already, read row by row.
crypto::Hash digestOf(Connection& book, const OwnSchema& own, const ActHead& head);

/// Of what the book keeps of its key.
crypto::Hash keyDigest(Connection& book);
/// Writes it beside the key.
void sealKey(Connection& book);

/// The digest that is kept of an act; zeros when there is none.
crypto::Hash keptDigest(Connection& book, const base::Uuid& act);

} // namespace gk::store
