#pragma once

#include "crypto/sign.h"
#include "roster/keys.h"
#include "session/reader.h"
#include "session/roll.h"
#include "store/book.h"
#include "vault/vault.h"

#include <map>

namespace gk::session {

/// What a Reader keeps behind its header, so that a face that asks it needs neither book nor vault.
struct Reader::Held {
  /// The roll, and how much of the book is in it.
  struct RollRead {
    Roll roll{};
    std::optional<store::Edition> edition{}; ///< what it is complete up to, once `isWhole`
    std::optional<base::EntryId> last{};     ///< the last row on it while it is not
    bool isWhole = false;
  };

  /// A person's key that was opened, wiped when it goes.
  struct OpenKey {
    crypto::SigningKey key;
    roster::PersonalKeyId id;
    base::Date on;         ///< it signs on that date alone
    bool isAsleep = false; ///< unreadable until she shows herself
  };
  /// Wrong passphrases since the last right one.
  struct Misses {
    int count = 0;
    base::Milliseconds until{}; ///< by the steady clock; nothing is tried before
  };

  store::Book book;
  std::optional<vault::Vault> vault{};
  std::unique_ptr<RollRead> roll{};
  std::map<base::MemberId, OpenKey> keys{};
  std::map<base::MemberId, Misses> misses{};
  /// When each signer gave her passphrase or PIN, by the steady clock; for one signature.
  std::map<base::MemberId, base::Milliseconds> shown{};
};

} // namespace gk::session
