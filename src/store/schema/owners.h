#pragma once

#include "crypto/digest.h"
#include "store/schema/own_schema.h"

#include <optional>
#include <unordered_map>
#include <vector>

namespace gk::store {

/// What an erased entry gives as its reason, where it had one.
inline constexpr std::string_view erasedReason = "erased";

using Salt = std::vector<std::uint8_t>;

/// Whose content an entry is, for its digest. Keys are of the book it lies in.
struct Owner {
  std::int64_t child;
  Salt salt{};                          ///< empty where the book has none
  std::optional<crypto::Hash> erased{}; ///< of the content, which is there no more
};

/// What is known of an entry before its owner is.
struct OwnedEntry {
  using MaybeKey = std::optional<std::int64_t>;
  std::int64_t id;
  std::int64_t kind = 0;
  MaybeKey subject{};
  MaybeKey supersedes{};
  MaybeKey child{}; ///< as the row of its kind names it
  MaybeKey field{}; ///< the same
};

/// The row of `entry` that the statement stands on.
OwnedEntry ownedEntry(const OwnSchema& own, const Statement& row);

/// Finds whose entries are, in one book as it is now. `database` is "main" or "other".
class Owners {
 public:
  Owners(Connection& book, std::string_view database, const OwnSchema& own);

  /// None for what is of no child.
  std::optional<Owner> of(const OwnedEntry& entry) { return of(entry, 0); }
  /// As `of`, reading the row of the entry's kind.
  std::optional<Owner> read(OwnedEntry entry) { return read(entry, 0); }

 private:
  using MaybeKey = OwnedEntry::MaybeKey;

  // A damaged book may send round in a circle, so each step counts.
  std::optional<Owner> of(const OwnedEntry& entry, int steps);
  std::optional<Owner> read(OwnedEntry entry, int steps);
  MaybeKey childOf(std::int64_t entry, int steps);
  [[nodiscard]] const OwnTable* tableOf(std::int64_t kind) const;

  Connection& book_;
  std::string database_;
  const OwnSchema& own_;
  bool hasErased_ = false;
  std::unordered_map<std::int64_t, Salt> salts_;
  std::optional<std::pair<std::int64_t, MaybeKey>> lastField_; // with its child
};

} // namespace gk::store
