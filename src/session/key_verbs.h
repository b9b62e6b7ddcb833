#pragma once

#include "base/progress.h"
#include "roster/keys/book_key.h"
#include "roster/keys/erasure.h"
#include "roster/keys/keys.h"
#include "session/people_verbs.h"

#include <map>

namespace gk::reports {
struct DayEquation;
}
namespace gk::store {
class Act;
class Book;
struct KeyWrap;
} // namespace gk::store
namespace gk::vault {
class Vault;
}
namespace gk::crypto {
class Key;
class Secret;
} // namespace gk::crypto

namespace gk::session {

/// How it stands with a person's own signing key.
enum class KeyStanding {
  never,  ///< signs by name only
  stands, ///< signs once the passphrase was entered today
  open,   ///< the passphrase was entered today
  revoked ///< must set a new passphrase before signing
};

/// What a signer gives before her signature is written. A PIN alone opens no key.
enum class SignerGives { nothing, pin, passphrase, newPassphrase };

/// An unsigned day that a person worked on.
struct UnsignedDay {
  roster::DayId day;
  base::Date date;
  std::string school;
};

/// What one gives who replaces the key of the names.
struct KeyReplacing {
  std::string confirmation; ///< the author's own passphrase; the logbook's, while she has none
  std::string passphrase;   ///< the logbook's new one
  std::string reason;
  std::string other{}; ///< the passphrase of a key that another laptop set meanwhile
};

struct KeyReplaced {
  std::string recoveryCode;           ///< shown this once; empty where there was none before
  std::vector<std::string> toEnter{}; ///< whose own passphrase opens the names once it was entered
};

/// That the key of the names was replaced.
struct KeyLine {
  Recorded<roster::BookKey> record;
  std::string by; ///< initials; empty where the member is not known
  /// Known copies that what opened the names before may still open.
  std::vector<std::string> copies{};
  [[nodiscard]] std::string words() const; ///< a sentence without its full stop
};

/// What a sheet's code says was signed, and whether the logbook still says it.
struct SignedSheet {
  struct Line {
    std::string signer;
    roster::Capacity capacity;
    bool byNameOnly;
    std::string flaw;      ///< a clause; empty when the signature matches the logbook
    std::string revoked{}; ///< a sentence, where the key had been revoked elsewhere by then
  };
  roster::DayId day;
  std::string school;
  base::Date date;
  base::LocalInstant signedAt;
  std::vector<Line> lines;
  roster::SignedCounts counts;
  roster::SignedCounts countsNow;
  bool isCurrent; ///< false: that signing was taken back since
  int lateEntries = 0;

  [[nodiscard]] bool stands() const;
};

/// The code that is printed on the sheet of each closing: of what its signers signed.
/// Empty for one that was signed before there were signatures.
std::map<roster::ClosureId, std::string>
sheetCodes(store::Book& book, const std::vector<Recorded<roster::DayClosure>>& closures,
           const std::vector<Recorded<roster::DaySignature>>& signatures);

/// The verbs of people's own keys, and of the code that opens the names when the passphrase is
/// lost. No one sets a passphrase for another (docs/threat-model.md).
class KeyVerbs : public PeopleVerbs {
 public:
  [[nodiscard]] Result<KeyStanding> keyStanding(base::MemberId who);
  /// Two where laptops that were apart each made one, or someone made one up.
  [[nodiscard]] Result<std::size_t> keyCount(base::MemberId who);
  /// The author's first key, or the one after a revoked one; `ruleSignature` while one stands, and
  /// when another types.
  Result<roster::PersonalKeyId> enterKey(By by, std::string passphrase, const OwnPin& pin = {});
  /// The same key under another passphrase. Fails as openKey.
  Result<base::Done> changeKey(By by, std::string passphrase, std::string to);
  /// By the person, or by another who signs or is a manager.
  Result<base::Done> revokeKey(By by, base::MemberId whose, const std::string& reason,
                               const OwnPin& pin = {});
  /// Until the date changes or the session is locked. `vaultWrongPassphrase`; `vaultWait` after
  /// several of them, for longer each time; `notFound` without a key.
  Result<base::Done> openKey(base::MemberId who, std::string passphrase);
  /// A key that was opened for one signature is not there for the next: whoever has a PIN gives it,
  /// and who has none the passphrase. No one signs for another.
  [[nodiscard]] Result<SignerGives> asksToSign(base::MemberId who);
  /// Her PIN, for one signature within `signingLasts`. Fails as `confirm`.
  Result<base::Done> showSigner(base::MemberId who, std::string pin);
  static constexpr base::Seconds signingLasts{300};
  [[nodiscard]] Result<std::vector<UnsignedDay>> unsignedDays(base::MemberId who);

  /// Shown this once; an earlier code opens the logbook no more.
  Result<std::string> makeRecoveryCode(By by, const OwnPin& pin = {});
  Result<base::Done> withdrawRecoveryCode(By by, const std::string& reason, const OwnPin& pin = {});
  [[nodiscard]] Result<bool> hasRecoveryCode();

  /// Whose own passphrase unlocked the names, if one did; her signing key for the day as well.
  [[nodiscard]] std::optional<base::MemberId> openedBy() const;
  /// Whose own passphrase opens the names.
  [[nodiscard]] Result<std::vector<Recorded<roster::Member>>> whoOpens();
  /// Names are sealed with another key from now on, by one who keeps the team, with her own
  /// passphrase; others' open them once entered again. `callMalformed` for the present one. In
  /// another thread after `holdNews`; stopped, `workCanceled`, and nothing was replaced.
  Result<KeyReplaced> replaceBookKey(By by, KeyReplacing how, const OwnPin& pin = {},
                                     const base::Progress& progress = {});
  /// Whether another laptop set a key that what unlocked the logbook does not open.
  [[nodiscard]] Result<bool> hasOtherKey();
  /// Each time, oldest first.
  [[nodiscard]] Result<std::vector<KeyLine>> keyReplacements();
  /// Backups that were noted, and other laptops: what opens the names today opens those.
  [[nodiscard]] Result<std::vector<std::string>> knownCopies();

  /// `textMalformed` for a mistyped code; `notFound` where no day was signed under it.
  [[nodiscard]] Result<SignedSheet> signedSheet(const std::string& code);

 protected:
  using PeopleVerbs::PeopleVerbs;

  /// The last word on the person's last key.
  Result<std::optional<Recorded<roster::PersonalKey>>> newestKey(base::MemberId who);
  /// All of hers that are not revoked: each laptop may have made one while apart.
  Result<std::vector<Recorded<roster::PersonalKey>>> standingKeys(base::MemberId who);
  static void revoke(store::Act& act, const Recorded<roster::PersonalKey>& key,
                     const std::string& reason);
  /// What unlocking gives: the names, and who did where it was by her own passphrase.
  struct OpenedNames;
  /// Fails as Session::unlock. With every earlier key; what opens a key that was replaced goes from
  /// the file, once the newer one was used here.
  Result<OpenedNames> openNames(const crypto::Secret& secret,
                                const std::optional<crypto::Secret>& code,
                                const std::optional<base::MemberId>& who);
  /// As sealsWithNewest, and that what unlocked the logbook is its own present key: only that has
  /// its passphrase or code changed.
  Result<base::Done> opensPresentKey();
  /// Those that there were before this moment, or all.
  Result<std::vector<std::string>> copiesBefore(const std::optional<base::Stamp>& stamp);
  /// What was opened of it today is wiped.
  void forgetKey(base::MemberId who);
  /// `ruleSignature` unless each of the two gave what is asked of her.
  Result<base::Done> canSign(const roster::DayClosure& closure);
  /// `ruleSignature` where the author has a key that was not opened today, or neither confirmed by
  /// PIN nor showed herself.
  Result<base::Done> canSignErasure(const Admission& may);
  /// With the author's key, where she has one.
  void signErasure(roster::Erasure& erasure, base::By by, base::LocalInstant at);
  /// With both signatures, in the act of the closure.
  Result<roster::ClosureId> writeSigned(const Admission& may, const roster::DayClosure& closure,
                                        const reports::DayEquation& sums);

 private:
  struct Opening; // session_unlock.cpp
  /// Her key is open from then on, not shown for a signature.
  Result<base::Done> tryKey(const Recorded<roster::PersonalKey>& key, const crypto::Secret& secret);
  base::MemberId asEntered(base::MemberId who);
  store::KeyWrap wrapFor(const roster::PersonalKey& key, base::EntryId word,
                         const crypto::Key& opening, const vault::Vault& vault);
  /// Her passphrase, which was just right, opens the names from now on where it did not.
  void enrollAgain(const Recorded<roster::PersonalKey>& key);
  Result<vault::Vault> openByPerson(const Recorded<roster::PersonalKey>& key,
                                    const std::vector<store::KeyWrap>& wraps,
                                    const crypto::Secret& secret);
  Result<base::Done> learnEarlier(vault::Vault& vault);
  void leaveReplaced(const vault::Vault& vault);
  Result<base::Done> takeOther(vault::Vault& vault, std::string passphrase);
};

std::string newRecoveryCode(base::Random& random);

} // namespace gk::session
