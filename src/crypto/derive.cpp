#include "crypto/derive.h"

#include "crypto/ready.h"

#include <sodium.h>

#include <string>
#include <utility>

namespace gk::crypto {

namespace {

constexpr std::int64_t kibibyte = 1024;
constexpr std::int64_t mebibyte = 1024 * kibibyte;
constexpr std::int64_t leastOps = 1;
constexpr std::int64_t mostOps = 16;
constexpr std::int64_t leastMemory = 8 * kibibyte;
constexpr std::int64_t mostMemory = 256 * mebibyte;
// Five times what the program asks for: a second or so on a slow laptop.
constexpr std::int64_t mostWork = 1024 * mebibyte;

static_assert(leastOps == crypto_pwhash_argon2id_OPSLIMIT_MIN);
static_assert(leastMemory == crypto_pwhash_argon2id_MEMLIMIT_MIN);
static_assert(saltSize == crypto_pwhash_argon2id_SALTBYTES);

} // namespace

KdfCost KdfCost::interactive() {
  return {.opsLimit = 3, .memoryBytes = 64 * mebibyte};
}

KdfCost KdfCost::cheapest() {
  return {.opsLimit = leastOps, .memoryBytes = leastMemory};
}

bool KdfCost::isAllowed() const {
  return opsLimit >= leastOps && opsLimit <= mostOps && memoryBytes >= leastMemory &&
         memoryBytes <= mostMemory && opsLimit * memoryBytes <= mostWork;
}

base::Result<Key> deriveKey(const Secret& passphrase, std::span<const std::uint8_t> salt,
                            KdfCost cost) {
  if (salt.size() != saltSize)
    return base::Error{base::ErrorCode::vaultDamaged,
                       "the salt of the book key has " + std::to_string(salt.size()) +
                           " bytes where 16 belong; restore the book from a backup"};
  if (!cost.isAllowed())
    return base::Error{base::ErrorCode::vaultDamaged,
                       "the cost of the book key is " + std::to_string(cost.opsLimit) +
                           " passes over " + std::to_string(cost.memoryBytes) +
                           " bytes, outside what this program writes; restore the book from a "
                           "backup"};
  makeReady();
  Secret derived = Secret::ofSize(Key::size);
  const auto text = passphrase.bytes();
  const int failed = crypto_pwhash_argon2id(
      derived.bytes().data(), derived.size(), reinterpret_cast<const char*>(text.data()),
      text.size(), salt.data(), static_cast<unsigned long long>(cost.opsLimit),
      static_cast<std::size_t>(cost.memoryBytes), crypto_pwhash_argon2id_ALG_ARGON2ID13);
  if (failed != 0)
    return base::Error{base::ErrorCode::vaultLocked,
                       "the passphrase could not be checked because " +
                           std::to_string(cost.memoryBytes / kibibyte) +
                           " KiB of memory were not free; close other programs and try again"};
  return Key::of(std::move(derived));
}

Key keyFor(const Key& from, std::string_view purpose) {
  makeReady();
  Secret derived = Secret::ofSize(Key::size);
  crypto_generichash(derived.bytes().data(), derived.size(),
                     reinterpret_cast<const unsigned char*>(purpose.data()), purpose.size(),
                     from.bytes().data(), from.bytes().size());
  auto key = Key::of(std::move(derived));
  base::require(key.has_value(), "a key of the size of a key");
  return std::move(*key);
}

} // namespace gk::crypto
