#pragma once

#include "base/identity/id.h"
#include "crypto/sign.h"
#include "vault/wrapping.h"

namespace gk::vault {

/// A member's signing key, sealed under the member's own passphrase, and what else that passphrase
/// is the key of. Of one derivation there is a key for each purpose, none used for two.
struct WrappedSigner {
  WrappedKey wrapped;
  crypto::Key opening; ///< what the book key is sealed under for her (Vault::wrapFor)
};

/// It opens for that member and that public key alone. Fails as wrapKey.
base::Result<WrappedSigner> wrapSigner(const crypto::SigningKey& key, base::MemberId member,
                                       const crypto::Secret& passphrase, crypto::KdfCost cost,
                                       base::Random& random);

struct OpenedSigner {
  crypto::SigningKey key;
  crypto::Key opening;
};

/// Fails as unwrapKey, with `vaultDamaged` where the sealed key is not that of `publicKey`.
base::Result<OpenedSigner> unwrapSigner(const WrappedKey& wrapped, base::MemberId member,
                                        const crypto::Bytes& publicKey,
                                        const crypto::Secret& passphrase);

} // namespace gk::vault
