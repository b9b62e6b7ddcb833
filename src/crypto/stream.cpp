#include "crypto/stream.h"

#include "crypto/ready.h"

#include <algorithm>
#include <sodium.h>

namespace gk::crypto {

namespace {

constexpr std::size_t streamHeader = crypto_secretstream_xchacha20poly1305_HEADERBYTES;
constexpr std::size_t pieceMore = crypto_secretstream_xchacha20poly1305_ABYTES;
static_assert(Key::size == crypto_secretstream_xchacha20poly1305_KEYBYTES);

base::Error notOpening() {
  return {base::ErrorCode::vaultDamaged,
          "the sealed file does not open: it was cut off, changed, or sealed with another "
          "passphrase"};
}

/// The state holds the key: it is wiped with its place.
struct StreamState {
  crypto_secretstream_xchacha20poly1305_state state{};
  StreamState() = default;
  StreamState(const StreamState&) = delete;
  StreamState& operator=(const StreamState&) = delete;
  ~StreamState() { sodium_memzero(&state, sizeof state); }
};

} // namespace

Bytes sealStream(const Key& key, std::span<const std::uint8_t> plain,
                 std::span<const std::uint8_t> associated) {
  makeReady();
  Bytes sealed(streamHeader);
  StreamState stream;
  const int failed = crypto_secretstream_xchacha20poly1305_init_push(&stream.state, sealed.data(),
                                                                     key.bytes().data());
  base::require(failed == 0, "a stream could not be begun");
  std::size_t from = 0;
  while (true) {
    const auto size = std::min(streamPiece, plain.size() - from);
    const bool isLast = from + size == plain.size();
    const auto at = sealed.size();
    sealed.resize(at + size + pieceMore);
    unsigned long long written = 0;
    const int wrong = crypto_secretstream_xchacha20poly1305_push(
        &stream.state, sealed.data() + at, &written, plain.data() + from, size, associated.data(),
        associated.size(),
        isLast ? crypto_secretstream_xchacha20poly1305_TAG_FINAL
               : crypto_secretstream_xchacha20poly1305_TAG_MESSAGE);
    base::require(wrong == 0 && written == size + pieceMore, "sealing gave another length");
    from += size;
    if (isLast) return sealed;
  }
}

base::Result<Bytes> openStream(const Key& key, std::span<const std::uint8_t> sealed,
                               std::span<const std::uint8_t> associated) {
  makeReady();
  if (sealed.size() < streamHeader + pieceMore) return notOpening();
  StreamState stream;
  if (crypto_secretstream_xchacha20poly1305_init_pull(&stream.state, sealed.data(),
                                                      key.bytes().data()) != 0)
    return notOpening();
  Bytes plain(sealed.size());
  std::size_t from = streamHeader;
  std::size_t into = 0;
  while (true) {
    const auto size = std::min(streamPiece + pieceMore, sealed.size() - from);
    if (size < pieceMore) return notOpening();
    unsigned long long written = 0;
    unsigned char tag = 0;
    if (crypto_secretstream_xchacha20poly1305_pull(&stream.state, plain.data() + into, &written,
                                                   &tag, sealed.data() + from, size,
                                                   associated.data(), associated.size()) != 0)
      return notOpening();
    from += size;
    into += written;
    const bool isLast = tag == crypto_secretstream_xchacha20poly1305_TAG_FINAL;
    if (isLast != (from == sealed.size())) return notOpening();
    if (isLast) break;
  }
  plain.resize(into);
  return plain;
}

} // namespace gk::crypto
