#pragma once

#include "base/entry.h"
#include "crypto/digest.h"
#include "store/own_schema.h"

#include <optional>
#include <string>

namespace gk::store {

/// Whose act a digest is of.
struct Hand {
  base::Uuid book;
  base::LaptopId laptop;
};

/// What the rows of one act have in common.
struct ActHead {
  base::EntryId first;
  std::int64_t sequence; ///< of its first row
  std::int64_t count;    ///< of its rows
  base::LocalInstant at;
  base::By by;
  std::string_view verb;
};

/// The digest of one act, over its canonical bytes (docs/formats.md, Digests). It takes whatever
/// columns the program's schema gives a table, so none can be forgotten.
class ActDigest {
 public:
  /// `previous` is of the laptop's act before, zeros at its first. Rows name others by the numbers
  /// of `hands`, which must outlive it.
  ActDigest(const Hand& hand, const crypto::Hash& previous, const Hands& hands);

  /// The row that the statement stands on: each column of `table`, in its order. First the row of
  /// `act`, then those of each entry.
  void add(const OwnTable& table, const Statement& row);
  /// A row of `entry`, which counts as one of the act.
  void addEntry(const OwnTable& entry, const Statement& row);
  [[nodiscard]] crypto::Hash finish();

 private:
  void flush();

  const Hands& hands_;
  crypto::Hasher hasher_;
  std::string bytes_; // not yet given to it
  std::int64_t entries_ = 0;
};

/// Writes the act of the rows from `head.first` to `last`, which this laptop has just written, and
/// gives its digest back.
crypto::Hash sealAct(Connection& book, const OwnSchema& own, const Hand& hand, const ActHead& head,
                     base::EntryId last, const crypto::Hash& previous);

/// Of an act that is there already, read row by row; nothing where it has no row in `act`.
std::optional<crypto::Hash> digestOf(Connection& book, const OwnSchema& own, const Hand& hand,
                                     std::int64_t first, const crypto::Hash& previous);

/// Of what the book keeps of its key.
crypto::Hash keyDigest(Connection& book);
/// Writes it beside the key.
void sealKey(Connection& book);

/// A column with a digest; nothing where it holds something else.
std::optional<crypto::Hash> hashIn(const Statement& row, int column);

} // namespace gk::store
