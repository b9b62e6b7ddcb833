#include "vault/vault.h"

#include "vault/identity_bytes.h"

#include <algorithm>
#include <iterator>
#include <string>
#include <string_view>

namespace gk::vault {

namespace {

/// Mixed in as associated data, so that a box made for one purpose never opens for the other.
constexpr std::string_view keyPurpose = "groovekeeper book key 1";
constexpr std::string_view recoveryPurpose = "groovekeeper book key by recovery code 1";
constexpr std::string_view ownerPurpose = "groovekeeper book key by own passphrase 1 ";
constexpr std::string_view earlierPurpose = "groovekeeper earlier book key 1 ";
constexpr std::string_view filePurpose = "groovekeeper file 1 ";
constexpr std::string_view childPurpose = "groovekeeper child 1 ";

template <class... Each>
crypto::Bytes bytesOf(std::string_view purpose, const Each&... parts) {
  crypto::Bytes bytes(purpose.begin(), purpose.end());
  (std::ranges::copy(parts, std::back_inserter(bytes)), ...);
  return bytes;
}

crypto::Bytes boundTo(const base::Uuid& child) {
  return bytesOf(childPurpose, child.bytes);
}

crypto::Bytes boundToOwner(const KeyName& name, const KeyOwner& owner) {
  return bytesOf(ownerPurpose, name.book.bytes, name.key.bytes, owner.member.bytes,
                 owner.publicKey);
}

/// The key that a book begins with is made before the book has an id.
std::string purposeFor(std::string_view purpose, const KeyName& name) {
  std::string text(purpose);
  if (name.key == base::Uuid{}) return text;
  text += ' ';
  text.append(name.book.bytes.begin(), name.book.bytes.end());
  text.append(name.key.bytes.begin(), name.key.bytes.end());
  return text;
}

crypto::Key copyOf(const crypto::Key& key) {
  auto copy = crypto::Key::of(crypto::Secret::copyOf(key.bytes()));
  base::require(copy.has_value(), "a key of the size of a key");
  return std::move(*copy);
}

} // namespace

Vault::Vault(KeyName name, crypto::Key key) {
  keys_.push_back({name, std::move(key)});
}

base::Result<Created> Vault::create(const crypto::Secret& passphrase, crypto::KdfCost cost,
                                    base::Random& random) {
  Vault vault({}, crypto::Key::random(random));
  auto wrapped = vault.rewrap(passphrase, cost, random);
  if (!wrapped) return wrapped.error();
  return Created{.vault = std::move(vault), .wrapped = *std::move(wrapped)};
}

base::Result<Vault> Vault::open(const crypto::Secret& passphrase, const WrappedKey& wrapped,
                                const KeyName& name) {
  auto bookKey = unwrapKey(wrapped, passphrase, purposeFor(keyPurpose, name));
  if (bookKey) return Vault(name, *std::move(bookKey));
  if (bookKey.error().code != base::ErrorCode::vaultWrongPassphrase) return bookKey.error();
  return base::Error{base::ErrorCode::vaultWrongPassphrase,
                     "the passphrase does not open this book's names; check capital letters and "
                     "keyboard language and type it again"};
}

Vault Vault::twin() const {
  Vault twin(name(), copyOf(seals()));
  twin.take(*this);
  return twin;
}

base::Result<WrappedKey> Vault::rewrap(const crypto::Secret& passphrase, crypto::KdfCost cost,
                                       base::Random& random) const {
  return wrapKey(seals(), passphrase, purposeFor(keyPurpose, name()), cost, random);
}

base::Result<WrappedKey> Vault::wrapForRecovery(const crypto::Secret& code, crypto::KdfCost cost,
                                                base::Random& random) const {
  return wrapKey(seals(), code, purposeFor(recoveryPurpose, name()), cost, random);
}

base::Result<Vault> Vault::recover(const crypto::Secret& code, const WrappedKey& wrapped,
                                   const KeyName& name) {
  auto bookKey = unwrapKey(wrapped, code, purposeFor(recoveryPurpose, name));
  if (bookKey) return Vault(name, *std::move(bookKey));
  if (bookKey.error().code != base::ErrorCode::vaultWrongPassphrase) return bookKey.error();
  return base::Error{base::ErrorCode::vaultWrongPassphrase,
                     "this recovery code does not open this logbook: it is for another one, or was "
                     "withdrawn or replaced; look for the newest sheet"};
}

crypto::Sealed Vault::wrapFor(const crypto::Key& opening, const base::Uuid& book,
                              const KeyOwner& owner, base::Random& random) const {
  return crypto::seal(opening, seals().bytes(), boundToOwner({book, name().key}, owner), random);
}

base::Result<Vault> Vault::openFor(const crypto::Key& opening, const KeyName& name,
                                   const KeyOwner& owner, const crypto::Sealed& sealed) {
  auto opened = crypto::open(opening, sealed, boundToOwner(name, owner));
  if (!opened) return opened.error();
  auto key = crypto::Key::of(*std::move(opened));
  if (!key) return key.error();
  return Vault(name, *std::move(key));
}

Replaced Vault::replaced(const KeyName& next, base::Random& random) const {
  Replaced made{Vault(next, crypto::Key::random(random)), {}};
  for (const auto& [name, key] : keys_)
    made.earlier.push_back({name.key, crypto::seal(made.vault.seals(), key.bytes(),
                                                   bytesOf(earlierPurpose, next.book.bytes,
                                                           next.key.bytes, name.key.bytes),
                                                   random)});
  made.vault.take(*this);
  return made;
}

bool Vault::learn(const KeyName& by, const SealedEarlier& earlier) {
  if (holds(earlier.name)) return true;
  const auto known = std::ranges::find(keys_, by.key, [](const auto& one) { return one.name.key; });
  if (known == keys_.end()) return false;
  auto opened =
      crypto::open(known->key, earlier.sealed,
                   bytesOf(earlierPurpose, by.book.bytes, by.key.bytes, earlier.name.bytes));
  if (!opened) return false;
  auto key = crypto::Key::of(*std::move(opened));
  if (!key) return false;
  keys_.push_back({{by.book, earlier.name}, std::move(*key)});
  return true;
}

void Vault::take(const Vault& other) {
  for (const auto& [name, key] : other.keys_)
    if (!holds(name.key)) keys_.push_back({name, copyOf(key)});
}

bool Vault::holds(const base::Uuid& key) const {
  return std::ranges::any_of(keys_, [&](const auto& one) { return one.name.key == key; });
}

void Vault::sleep() {
  for (auto& one : keys_)
    one.key.forbid();
}

void Vault::awaken() {
  for (auto& one : keys_)
    one.key.expose();
}

base::Result<crypto::Secret> Vault::openBox(const Sealed& sealed,
                                            const crypto::Bytes& bound) const {
  auto opened = crypto::open(seals(), sealed, bound);
  for (std::size_t i = 1; !opened && i < keys_.size(); ++i)
    opened = crypto::open(keys_[i].key, sealed, bound);
  return opened;
}

crypto::Sealed Vault::sealFile(std::string_view head, std::string_view plain,
                               base::Random& random) const {
  return crypto::seal(seals(), {reinterpret_cast<const std::uint8_t*>(plain.data()), plain.size()},
                      bytesOf(filePurpose, head), random);
}

base::Result<crypto::Secret> Vault::openFile(std::string_view head,
                                             const crypto::Sealed& sealed) const {
  return openBox(sealed, bytesOf(filePurpose, head));
}

Sealed Vault::seal(const base::Uuid& child, const Identity& identity, base::Random& random) const {
  auto plain = encode(identity);
  auto sealed = crypto::seal(seals(), plain, boundTo(child), random);
  crypto::wipe(plain);
  return sealed;
}

base::Result<Identity> Vault::reveal(const base::Uuid& child, const Sealed& sealed) const {
  const auto plain = openBox(sealed, boundTo(child));
  if (!plain) return plain.error();
  return decode(plain->bytes());
}

} // namespace gk::vault
