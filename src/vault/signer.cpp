#include "vault/signer.h"

#include <string>
#include <utility>

namespace gk::vault {

namespace {

constexpr std::string_view signingUse = "groovekeeper own passphrase: signing key 1";
constexpr std::string_view openingUse = "groovekeeper own passphrase: book key 1";

crypto::Bytes boundToSigner(base::MemberId member, const crypto::Bytes& publicKey) {
  constexpr std::string_view purpose = "groovekeeper signing key 2 ";
  crypto::Bytes bytes(purpose.begin(), purpose.end());
  bytes.reserve(bytes.size() + member.uuid().bytes.size() + publicKey.size());
  bytes.insert(bytes.end(), member.uuid().bytes.begin(), member.uuid().bytes.end());
  bytes.insert(bytes.end(), publicKey.begin(), publicKey.end());
  return bytes;
}

base::Error isDamaged(const char* what) {
  return {base::ErrorCode::vaultDamaged, std::string(what) + "; restore the logbook from a backup"};
}

} // namespace

base::Result<WrappedSigner> wrapSigner(const crypto::SigningKey& key, base::MemberId member,
                                       const crypto::Secret& passphrase, crypto::KdfCost cost,
                                       base::Random& random) {
  if (const auto sound = checkPassphrase(passphrase); !sound) return sound.error();
  crypto::Bytes salt(crypto::saltSize);
  random.fill(salt);
  const auto root = crypto::deriveKey(passphrase, salt, cost);
  if (!root) return root.error();
  auto sealed = crypto::seal(crypto::keyFor(*root, signingUse), key.seed().bytes(),
                             boundToSigner(member, key.publicKey()), random);
  return WrappedSigner{.wrapped = {.salt = std::move(salt),
                                   .opsLimit = cost.opsLimit,
                                   .memoryBytes = cost.memoryBytes,
                                   .nonce = std::move(sealed.nonce),
                                   .box = std::move(sealed.box)},
                       .opening = crypto::keyFor(*root, openingUse)};
}

base::Result<OpenedSigner> unwrapSigner(const WrappedKey& wrapped, base::MemberId member,
                                        const crypto::Bytes& publicKey,
                                        const crypto::Secret& passphrase) {
  if (wrapped.nonce.size() != crypto::nonceSize ||
      wrapped.box.size() != crypto::Key::size + crypto::tagSize)
    return isDamaged("a signing key has parts of the wrong length");
  const auto root = crypto::deriveKey(
      passphrase, wrapped.salt, {.opsLimit = wrapped.opsLimit, .memoryBytes = wrapped.memoryBytes});
  if (!root) return root.error();
  auto opened =
      crypto::open(crypto::keyFor(*root, signingUse), {.nonce = wrapped.nonce, .box = wrapped.box},
                   boundToSigner(member, publicKey));
  if (!opened)
    return base::Error{base::ErrorCode::vaultWrongPassphrase,
                       "the passphrase does not open this; check capital letters and keyboard "
                       "language and type it again"};
  auto seed = crypto::Key::of(*std::move(opened));
  if (!seed) return seed.error();
  crypto::SigningKey key(*std::move(seed));
  if (key.publicKey() != publicKey)
    return isDamaged("a signing key does not match its public half");
  return OpenedSigner{std::move(key), crypto::keyFor(*root, openingUse)};
}

} // namespace gk::vault
