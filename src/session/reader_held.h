#pragma once

#include "crypto/sign.h"
#include "roster/keys/keys.h"
#include "roster/team/member_pin.h"
#include "session/reader.h"
#include "session/values/roll.h"
#include "store/book.h"
#include "vault/vault.h"

#include <map>
#include <utility>

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
    crypto::Key opening; ///< what the key of the names is sealed under for her
    roster::PersonalKeyId id;
    base::Date on;         ///< it signs on that date alone
    bool isAsleep = false; ///< unreadable until she shows herself

    void sleep() {
      if (std::exchange(isAsleep, true)) return;
      key.forbid();
      opening.forbid();
    }
    void awaken() {
      if (!std::exchange(isAsleep, false)) return;
      key.expose();
      opening.expose();
    }
  };
  /// Wrong passphrases since the last right one; session_keys.cpp.
  struct Misses {
    int count = 0;
    base::Milliseconds until{}; ///< by the steady clock; nothing is tried before

    /// Fails with `vaultWait`.
    [[nodiscard]] Result<base::Done> mayTry(base::Milliseconds now) const;
    void noteWrong(base::Milliseconds now);
  };

  store::Book book;
  std::optional<vault::Vault> vault{};
  std::unique_ptr<RollRead> roll{};
  std::map<base::MemberId, OpenKey> keys{};
  std::map<base::MemberId, Misses> misses{};
  Misses bookMisses{}; ///< of the logbook's own passphrase, where it confirms what is done
  /// When each signer gave her passphrase or PIN, by the steady clock; for one signature.
  std::map<base::MemberId, base::Milliseconds> shown{};
  /// Whose own passphrase opened the names.
  std::optional<base::MemberId> openedBy{};
};

/// A child whose name cannot be shown, which stops nothing for the others: it has none, it was
/// sealed under a newer key than what unlocked the logbook opens, or what was sealed does not open,
/// which the findings say.
inline bool hasNoName(const base::Error& why) {
  return why.code == base::ErrorCode::notFound || why.code == base::ErrorCode::vaultReplaced ||
         why.code == base::ErrorCode::vaultDamaged;
}

/// Of the PINs that were entered for her the newest that opens, or that was reset: one that does
/// not open was written past this program and takes nothing from her. None where she has none;
/// fails with `vaultDamaged` where none opens, and where the names are of a key that may be missing
/// here.
Result<std::optional<roster::MemberPin>> pinThatCounts(store::Book& book, const vault::Vault& vault,
                                                       base::MemberId who);

/// `vaultReplaced` where what unlocked the logbook is of a key that another took the place of:
/// nothing new is sealed with it.
Result<base::Done> sealsWithNewest(store::Book& book, const vault::Vault& vault);

} // namespace gk::session
