#pragma once

#include "roster/keys/keys.h"

#include <algorithm>
#include <string>

namespace gk::roster {

using BookKeyId = base::Id<struct BookKeyTag>;

/// A key of the names before another, sealed under that.
struct EarlierKey {
  Bytes name;  ///< 16 bytes; zeros for the one that the book began with
  Bytes nonce; ///< this and the rest as crypto::Sealed
  Bytes box;
  bool operator==(const EarlierKey&) const = default;
};

/// The key of the names was replaced by the one of this name. What opens it is no record, since
/// that must be removable (store/keys/key_wraps.h). Who has it has all those before it too.
struct BookKey {
  using Key = BookKeyId;
  Bytes name; ///< 16 random bytes
  std::string reason;
  std::vector<EarlierKey> earlier{};
  bool operator==(const BookKey&) const = default;
};

/// Names are kept as bytes; one of another length is no key's.
inline base::Uuid uuidOf(const Bytes& name) {
  base::Uuid uuid;
  if (name.size() == uuid.bytes.size()) std::ranges::copy(name, uuid.bytes.begin());
  return uuid;
}

} // namespace gk::roster
