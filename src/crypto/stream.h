#pragma once

#include "base/random.h"
#include "base/result.h"
#include "crypto/sealed.h"
#include "crypto/secret.h"

#include <span>

namespace gk::crypto {

/// A file sealed as libsodium's secretstream (XChaCha20-Poly1305, in pieces that cannot be cut out,
/// put in, repeated or moved, with a mark on the last). libsodium draws the header of each, from
/// which its own subkey comes. `associated` is not stored, but must be the same
/// again to open.
Bytes sealStream(const Key& key, std::span<const std::uint8_t> plain,
                 std::span<const std::uint8_t> associated);

/// All of it is authenticated before any of it is given: fails with `vaultDamaged` where a byte was
/// changed, where the end is missing, where anything follows it, and under another key or
/// `associated`.
base::Result<Bytes> openStream(const Key& key, std::span<const std::uint8_t> sealed,
                               std::span<const std::uint8_t> associated);

/// Of the plain text in one piece.
constexpr std::size_t streamPiece = std::size_t{64} * 1024;

} // namespace gk::crypto
