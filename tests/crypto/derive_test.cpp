#include "crypto/derive.h"

#include <catch2/catch.hpp>

#include <numeric>
#include <string>
#include <vector>

using namespace gk;
using crypto::deriveKey;
using crypto::KdfCost;
using crypto::Secret;

namespace {

using Bytes = std::vector<std::uint8_t>;

Bytes bytesOf(std::string_view text) {
  return {text.begin(), text.end()};
}

std::string hexOf(std::span<const std::uint8_t> bytes) {
  constexpr std::string_view digits = "0123456789abcdef";
  std::string out;
  for (auto byte : bytes) {
    out += digits[byte >> 4U];
    out += digits[byte & 15U];
  }
  return out;
}

Bytes countingSalt() {
  Bytes salt(crypto::saltSize);
  std::iota(salt.begin(), salt.end(), std::uint8_t{0});
  return salt;
}

std::string derived(std::string_view passphrase, const Bytes& salt, KdfCost cost) {
  const auto key = deriveKey(Secret::copyOf(passphrase), salt, cost);
  REQUIRE(key.has_value());
  return hexOf(key->bytes());
}

} // namespace

// The vectors of RFC 9106 use four lanes and a secret, which the library does not offer. The values
// here are those of the reference implementation by the authors of Argon2, version 20171227, as
// packaged in Debian 12 (libargon2-1), function argon2id_hash_raw with one lane and 32 bytes.
TEST_CASE("a derived key is that of the Argon2 reference implementation") {
  CHECK(derived("123", bytesOf("ABCDEFGHIJKLMNOP"),
                {.opsLimit = 5, .memoryBytes = std::int64_t{1024} * 1024}) ==
        "3c5d010180ba0cf5b6b858cba23b318e42d33088983c404598599c3b029ecac6");
  CHECK(derived("larkmere autumn", countingSalt(), KdfCost::cheapest()) ==
        "f2e66a68dbf74d833394458eb96a7435f8e36eb93412a82e8e1ba1d76881e0ed");
}

TEST_CASE("the cost for real books is 64 MiB and three passes") {
  CHECK(KdfCost::interactive() == KdfCost{.opsLimit = 3, .memoryBytes = 67108864});
  CHECK(derived("larkmere autumn", countingSalt(), KdfCost::interactive()) ==
        "34f31df909c375f4c9e1a3ffa8ac8ffd1ef1dc85010bcc93820a948c6673f855");
}

TEST_CASE("another passphrase or salt or cost gives another key") {
  const auto salt = countingSalt();
  auto other = salt;
  other[0] ^= 1U;
  const auto cost = KdfCost::cheapest();
  const auto key = derived("larkmere autumn", salt, cost);
  CHECK(derived("larkmere autumn", salt, cost) == key);
  CHECK(derived("Larkmere autumn", salt, cost) != key);
  CHECK(derived("larkmere autumn", other, cost) != key);
  CHECK(derived("larkmere autumn", salt, {.opsLimit = 2, .memoryBytes = cost.memoryBytes}) != key);
}

TEST_CASE("a cost or salt that no book of ours has is refused without work") {
  const auto salt = countingSalt();
  const auto refused = [](const Bytes& bytes, KdfCost cost) {
    const auto key = deriveKey(Secret::copyOf("larkmere autumn"), bytes, cost);
    return !key && key.error().code == base::ErrorCode::vaultDamaged;
  };
  constexpr std::int64_t gibibyte = std::int64_t{1} << 30;
  CHECK(refused(salt, {.opsLimit = 0, .memoryBytes = 8192}));
  CHECK(refused(salt, {.opsLimit = -1, .memoryBytes = 8192}));
  CHECK(refused(salt, {.opsLimit = 17, .memoryBytes = 8192}));
  CHECK(refused(salt, {.opsLimit = 5, .memoryBytes = gibibyte / 4})); // each may be, not both
  CHECK(refused(salt, {.opsLimit = 1, .memoryBytes = 8191}));
  CHECK(refused(salt, {.opsLimit = 1, .memoryBytes = -1}));
  CHECK(refused(salt, {.opsLimit = 1, .memoryBytes = gibibyte / 4 + 1}));
  CHECK(refused({}, KdfCost::cheapest()));
  CHECK(refused(Bytes(15), KdfCost::cheapest()));
  CHECK(refused(Bytes(17), KdfCost::cheapest()));
}

// Against Python's hashlib (OpenSSL-free BLAKE2, RFC 7693):
// hashlib.blake2b(purpose, key=bytes(range(32)), digest_size=32).
TEST_CASE("a key for a purpose is keyed BLAKE2b, as another library has it", "[case-266]") {
  auto bytes = Secret::ofSize(crypto::Key::size);
  std::iota(bytes.bytes().begin(), bytes.bytes().end(), std::uint8_t{0});
  const auto root = crypto::Key::of(std::move(bytes));
  REQUIRE(root);
  CHECK(hexOf(crypto::keyFor(*root, "groovekeeper own passphrase: book key 1").bytes()) ==
        "29dc57695b10f171cc296d906f9cd843af1f592237d2d947e559594aba771091");
}
