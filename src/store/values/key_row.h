#pragma once

#include "base/identity/id.h"

#include <cstdint>
#include <optional>
#include <vector>

namespace gk::store {

/// What the book keeps of its key: opaque here, a vault::WrappedKey to the session.
struct KeyRow {
  std::vector<std::uint8_t> salt;
  std::int64_t passes;
  std::int64_t memoryBytes;
  std::vector<std::uint8_t> nonce;
  std::vector<std::uint8_t> box;
  base::Uuid name{}; ///< of the key (roster/keys/book_key.h); zeros for the one that it began with
};

/// What a key is sealed under.
enum class Opener : std::uint8_t { passphrase, recoveryCode, ownPassphrase };

/// What opens a key of the names besides the row of `book`: people's own passphrases, and a newer
/// key's passphrase and recovery code that came from another laptop and were not used here yet.
struct KeyWrap {
  Opener opener;
  KeyRow key;                                 ///< a person's salt and cost are in her PersonalKey
  std::optional<base::EntryId> personalKey{}; ///< the word on it that her passphrase opens
};

} // namespace gk::store
