#pragma once

#include "base/id.h"
#include "crypto/sign.h"
#include "vault/wrapping.h"

namespace gk::vault {

/// A member's signing key, sealed under the member's own passphrase. It opens for that member and
/// that public key alone. Fails as wrapKey.
base::Result<WrappedKey> wrapSigner(const crypto::SigningKey& key, base::MemberId member,
                                    const crypto::Secret& passphrase, crypto::KdfCost cost,
                                    base::Random& random);

/// Fails as unwrapKey, with `vaultDamaged` where the sealed key is not that of `publicKey`.
base::Result<crypto::SigningKey> unwrapSigner(const WrappedKey& wrapped, base::MemberId member,
                                              const crypto::Bytes& publicKey,
                                              const crypto::Secret& passphrase);

} // namespace gk::vault
