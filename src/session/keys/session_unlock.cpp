#include "session/keys/opened_names.h"
#include "session/session_write.h"
#include "vault/signer.h"

#include <algorithm>
#include <map>

// What opens the names: the logbook's passphrase, its recovery code, a person's own passphrase.
namespace gk::session {

using base::Error;
using base::ErrorCode;
using roster::PersonalKey;
using store::Opener;

namespace {

// Each try costs a derivation of a tenth of a second or two, which a forged file must not make
// many: the newest are tried (own choice).
constexpr std::size_t mostOthers = 3;
constexpr std::size_t mostPeople = 8;

vault::KeyOwner ownerOf(store::Book& book, const PersonalKey& key) {
  return {book.enteredAs(key.member.uuid()), key.publicKey};
}

bool isWrong(const Result<vault::Vault>& opened) {
  return !opened && opened.error().code == ErrorCode::vaultWrongPassphrase;
}

/// Whether a guess at a passphrase costs at least what this program asks for now: whoever has the
/// file could have lowered it there.
bool isDear(const PersonalKey& key, crypto::KdfCost cost) {
  return key.passes >= cost.opsLimit && key.memoryBytes >= cost.memoryBytes;
}

} // namespace

Result<base::Done> sealsWithNewest(store::Book& book, const vault::Vault& vault) {
  const auto keys = book.current<roster::BookKey>(store::everything());
  if (!keys) return keys.error();
  for (const auto& key : *keys) {
    if (vault.holds(roster::uuidOf(key.value.name))) continue;
    const auto isOurs = [&](const auto& earlier) {
      return roster::uuidOf(earlier.name) == vault.name().key;
    };
    if (std::ranges::any_of(key.value.earlier, isOurs))
      return Error{ErrorCode::vaultReplaced,
                   "the key of the names was replaced on " + key.stamp.at.date().words() +
                       " on another laptop, and what unlocked this logbook is from before; nothing "
                       "is lost; lock, then unlock with the new passphrase"};
  }
  return base::Done{};
}

Result<base::Done> Door::sealsWithNewest() {
  return session::sealsWithNewest(book_, *vault_);
}

Result<base::Done> KeyVerbs::opensPresentKey() {
  if (auto newest = sealsWithNewest(); !newest) return newest;
  const auto present = book_.key();
  if (!present) return present.error();
  if (present->name == vault_->name().key) return base::Done{};
  return Error{ErrorCode::vaultReplaced,
               "this logbook was unlocked with the passphrase of a key that another laptop set "
               "while apart; nothing is lost; replace the key of the names, which asks for both "
               "passphrases"};
}

base::MemberId KeyVerbs::asEntered(base::MemberId who) {
  return base::MemberId(book_.enteredAs(who.uuid()));
}

store::KeyWrap KeyVerbs::wrapFor(const PersonalKey& key, base::EntryId word,
                                 const crypto::Key& opening, const vault::Vault& vault) {
  auto sealed = vault.wrapFor(opening, book_.identity(), ownerOf(book_, key), world_.random);
  return {Opener::ownPassphrase,
          {{}, 0, 0, std::move(sealed.nonce), std::move(sealed.box), vault.name().key},
          word};
}

void KeyVerbs::enrollAgain(const Recorded<PersonalKey>& key) {
  const auto open = held_->keys.find(key.value.member);
  if (!vault_ || open == held_->keys.end() || !isDear(key.value, costOf(kind_))) return;
  const auto wraps = book_.wraps();
  if (!wraps || !sealsWithNewest()) return;
  for (const auto& wrap : *wraps)
    if (wrap.personalKey == key.stamp.entry && wrap.key.name == vault_->name().key) return;
  // Where nothing can be written she enters it another time.
  (void)book_.keepOpeners([&](const store::Openers& openers) {
    openers.add(wrapFor(key.value, key.stamp.entry, open->second.opening, *vault_));
  });
}

Result<vault::Vault> KeyVerbs::openByPerson(const Recorded<PersonalKey>& key,
                                            const std::vector<store::KeyWrap>& wraps,
                                            const crypto::Secret& secret) {
  if (const auto right = tryKey(key, secret); !right) return right.error();
  const auto& opening = held_->keys.at(key.value.member).opening;
  Result<vault::Vault> opened =
      Error{ErrorCode::vaultWrongPassphrase,
            "this passphrase is right, but does not open the names yet; unlock with the logbook's "
            "passphrase and enter the own one once, as for signing"};
  for (const auto& wrap : wraps) {
    if (wrap.personalKey != key.stamp.entry) continue;
    auto vault = vault::Vault::openFor(opening, {book_.identity(), wrap.key.name},
                                       ownerOf(book_, key.value), {wrap.key.nonce, wrap.key.box});
    if (vault) opened = std::move(vault); // the newest that came
  }
  return opened;
}

Result<base::Done> KeyVerbs::learnEarlier(vault::Vault& vault) {
  const auto keys = book_.current<roster::BookKey>(store::everything());
  if (!keys) return keys.error();
  // A key has all those before it, and those are known by no other.
  for (const auto& key : *keys) {
    const vault::KeyName name{book_.identity(), roster::uuidOf(key.value.name)};
    if (name.key != vault.name().key) continue;
    for (const auto& earlier : key.value.earlier)
      vault.learn(name, {roster::uuidOf(earlier.name), {earlier.nonce, earlier.box}});
  }
  return base::Done{};
}

void KeyVerbs::leaveReplaced(const vault::Vault& vault) {
  const auto present = book_.key();
  const auto wraps = book_.wraps();
  const auto newest = vault.name().key;
  if (!present || !wraps || present->name == newest || !vault.holds(present->name)) return;
  std::optional<store::KeyRow> key;
  std::optional<store::KeyRow> recovery;
  for (const auto& wrap : *wraps) {
    if (wrap.key.name != newest) continue;
    if (wrap.opener == Opener::passphrase) key = wrap.key;
    if (wrap.opener == Opener::recoveryCode) recovery = wrap.key;
  }
  if (!key) return;
  // Where nothing can be written it is done another time.
  (void)book_.keepOpeners([&](const store::Openers& openers) { openers.present(*key, recovery); });
}

Result<KeyVerbs::OpenedNames> KeyVerbs::openNames(const crypto::Secret& secret,
                                                  const std::optional<crypto::Secret>& code,
                                                  const std::optional<base::MemberId>& who) {
  auto wraps = book_.wraps();
  if (!wraps) return wraps.error();
  const auto finished = [&](vault::Vault vault,
                            std::optional<base::MemberId> by) -> Result<OpenedNames> {
    if (const auto learned = learnEarlier(vault); !learned) return learned.error();
    leaveReplaced(vault);
    return OpenedNames{std::move(vault), by};
  };
  if (who) {
    const auto key = newestKey(*who);
    if (!key) return key.error();
    if (!*key || (*key)->value.revoked)
      return Error{ErrorCode::notFound, "this person has no passphrase; unlock with the logbook's"};
    auto opened = openByPerson(**key, *wraps, secret);
    if (!opened) return opened.error();
    return finished(std::move(*opened), who);
  }
  const auto present = book_.key();
  if (!present) return present.error();
  const auto recovery = book_.recovery();
  if (!recovery) return recovery.error();
  const auto open = [&](const store::KeyRow& row) {
    return vault::Vault::open(secret, wrappedOf(row), {book_.identity(), row.name});
  };
  auto opened = open(*present);
  if (opened || !isWrong(opened))
    return opened ? finished(std::move(*opened), {}) : Result<OpenedNames>(opened.error());
  const auto refusal = opened.error();
  std::ranges::reverse(*wraps); // the newest first
  std::size_t tries = 0;
  for (const auto& wrap : *wraps) {
    if (wrap.opener != Opener::passphrase || tries++ == mostOthers) continue;
    if (auto other = open(wrap.key)) return finished(std::move(*other), {});
  }
  if (code) {
    std::vector<store::KeyRow> codes;
    if (*recovery) codes.push_back(**recovery);
    for (const auto& wrap : *wraps)
      if (wrap.opener == Opener::recoveryCode && codes.size() < mostOthers)
        codes.push_back(wrap.key);
    Result<vault::Vault> byCode =
        Error{ErrorCode::vaultWrongPassphrase,
              "this logbook has no recovery code: it was withdrawn, or made on another laptop"};
    for (const auto& row : codes) {
      byCode = vault::Vault::recover(*code, wrappedOf(row), {book_.identity(), row.name});
      if (byCode) return finished(std::move(*byCode), {});
    }
    return byCode.error();
  }
  tries = 0;
  std::ranges::reverse(*wraps);
  const auto people = whoOpens();
  if (!people) return people.error();
  for (const auto& person : *people) {
    if (tries++ == mostPeople) break;
    const auto key = newestKey(person.id);
    if (!key) return key.error();
    if (!*key || (*key)->value.revoked) continue;
    if (auto vault = openByPerson(**key, *wraps, secret))
      return finished(std::move(*vault), person.id);
  }
  return refusal;
}

std::optional<base::MemberId> KeyVerbs::openedBy() const {
  return held_->openedBy;
}

Result<std::vector<Recorded<roster::Member>>> KeyVerbs::whoOpens() {
  auto team = members();
  if (!team) return team.error();
  const auto wraps = book_.wraps();
  if (!wraps) return wraps.error();
  std::vector<Recorded<roster::Member>> found;
  for (auto& member : *team) {
    const auto key = newestKey(member.id);
    if (!key) return key.error();
    const auto isHers = [&](const auto& wrap) { return wrap.personalKey == (*key)->stamp.entry; };
    if (*key && !(*key)->value.revoked && std::ranges::any_of(*wraps, isHers))
      found.push_back(std::move(member));
  }
  return found;
}

} // namespace gk::session
