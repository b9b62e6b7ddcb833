#include "vault/signer.h"

#include <string>
#include <utility>

namespace gk::vault {

namespace {

std::string signerPurpose(base::MemberId member, const crypto::Bytes& publicKey) {
  std::string purpose = "groovekeeper signing key 1 ";
  purpose.append(member.uuid().bytes.begin(), member.uuid().bytes.end());
  purpose.append(publicKey.begin(), publicKey.end());
  return purpose;
}

} // namespace

base::Result<WrappedKey> wrapSigner(const crypto::SigningKey& key, base::MemberId member,
                                    const crypto::Secret& passphrase, crypto::KdfCost cost,
                                    base::Random& random) {
  return wrapKey(key.seed(), passphrase, signerPurpose(member, key.publicKey()), cost, random);
}

base::Result<crypto::SigningKey> unwrapSigner(const WrappedKey& wrapped, base::MemberId member,
                                              const crypto::Bytes& publicKey,
                                              const crypto::Secret& passphrase) {
  auto seed = unwrapKey(wrapped, passphrase, signerPurpose(member, publicKey));
  if (!seed) return seed.error();
  crypto::SigningKey key(std::move(*seed));
  if (key.publicKey() != publicKey)
    return base::Error{base::ErrorCode::vaultDamaged,
                       "a signing key does not match its public half; restore the logbook from a "
                       "backup"};
  return key;
}

} // namespace gk::vault
