#pragma once

#include "base/identity/entry.h"
#include "crypto/digest.h"
#include "store/schema/owners.h"

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

/// The canonical bytes of rows, which name others by the numbers of `hands`; those must outlive it.
class RowBytes {
 public:
  explicit RowBytes(const Hands& hands) : hands_(hands) {}
  /// The row that the statement stands on: each column of `table` in its order, but for `left`.
  void add(const OwnTable& table, const Statement& row, int left = -1);
  [[nodiscard]] std::string& bytes() { return bytes_; }
  [[nodiscard]] const std::string& bytes() const { return bytes_; }
  /// Whether each text is one that base::soundText lets into a book.
  [[nodiscard]] bool isSound() const { return isSound_; }

 private:
  const Hands& hands_;
  std::string bytes_;
  bool isSound_ = true;
};

/// The rows of an entry in the tables of its kind, of the book itself.
RowBytes recordsOf(Connection& book, const OwnSchema& own, const OwnedEntry& entry);

/// Of an entry that is a child's: its reason and its records, with the child's salt. It stays when
/// they are erased.
crypto::Hash contentHash(const OwnSchema& own, const Statement& row, const RowBytes& records,
                         const Salt& salt);

/// The digest of one act, over its canonical bytes (docs/formats.md, Digests). It takes whatever
/// columns the program's schema gives a table, so none can be forgotten.
class ActDigest {
 public:
  /// `previous` is of the laptop's act before, zeros at its first. Rows name others by the numbers
  /// of `hands`, which must outlive it.
  ActDigest(const Hand& hand, const crypto::Hash& previous, const Hands& hands);

  /// First the row of `act`.
  void add(const OwnTable& act, const Statement& row);
  /// Then each row of `entry`, with its records. What has an owner enters as the hash of its
  /// content.
  void addEntry(const OwnSchema& own, const Statement& row, const RowBytes& records,
                const std::optional<Owner>& owner);
  [[nodiscard]] crypto::Hash finish();
  /// Whether each text of it is, so far.
  [[nodiscard]] bool isSound() const { return isSound_ && rows_.isSound(); }

 private:
  void flush();

  const Hands& hands_;
  crypto::Hasher hasher_;
  RowBytes rows_; // not yet given to it
  std::int64_t entries_ = 0;
  bool isSound_ = true; // of the records
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
