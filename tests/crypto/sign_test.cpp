#include "crypto/sign.h"

#include <catch2/catch.hpp>

#include <string_view>

using namespace gk;
using crypto::Bytes;

namespace {

Bytes ofHex(std::string_view hex) {
  const auto digit = [](char c) {
    return static_cast<unsigned>(c <= '9' ? c - '0' : c - 'a' + 10);
  };
  Bytes bytes;
  for (std::size_t i = 0; i + 1 < hex.size(); i += 2)
    bytes.push_back(static_cast<std::uint8_t>(digit(hex[i]) << 4U | digit(hex[i + 1])));
  return bytes;
}

crypto::SigningKey keyOfSeed(std::string_view hex) {
  auto seed = crypto::Key::of(crypto::Secret::copyOf(std::span<const std::uint8_t>(ofHex(hex))));
  REQUIRE(seed);
  return crypto::SigningKey(std::move(*seed));
}

struct Vector {
  const char* seed;
  const char* publicKey;
  const char* message;
  const char* signature;
};

} // namespace

TEST_CASE("A signature is that of RFC 8032, section 7.1, tests 1 to 3", "[case-229]") {
  // IETF RFC 8032 (2017), section 7.1, "TEST 1", "TEST 2" and "TEST 3", from memory; that a key of
  // 32 bytes gives just this public key and this signature of 64 bytes cannot come out by chance.
  for (const auto& vector :
       {Vector{
            "9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60",
            "d75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a", "",
            "e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e065224901555fb8821590a33bacc61e3"
            "9701cf9b46bd25bf5f0595bbe24655141438e7a100b"},
        Vector{
            "4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb",
            "3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c", "72",
            "92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da085ac1e43e15996e458f3"
            "613d0f11d8c387b2eaeb4302aeeb00d291612bb0c00"},
        Vector{
            "c5aa8df43f9f837bedb7442f31dcb7b166d38535076f094b85ce3a2e0b4458f7",
            "fc51cd8e6218a1a38da47ed00230f0580816ed13ba3303ac5deb911548908025", "af82",
            "6291d657deec24024827e69c3abe01a30ce548a284743a445e3680d7db5ac3ac18ff9b538d16f290ae67f"
            "760984dc6594a7c15e9716ed28dc027beceea1ec40a"}}) {
    const auto key = keyOfSeed(vector.seed);
    CHECK(key.publicKey() == ofHex(vector.publicKey));
    CHECK(key.sign(ofHex(vector.message)) == ofHex(vector.signature));
    CHECK(crypto::isSignedBy(key.publicKey(), ofHex(vector.message), ofHex(vector.signature)));
  }
}

TEST_CASE("A signature of other bytes, of another key, or of another length is none",
          "[case-229]") {
  base::SeededRandom random(3);
  const auto key = crypto::SigningKey::random(random);
  const auto other = crypto::SigningKey::random(random);
  const Bytes message{1, 2, 3};
  const auto signature = key.sign(message);
  CHECK(crypto::isSignedBy(key.publicKey(), message, signature));
  CHECK_FALSE(crypto::isSignedBy(other.publicKey(), message, signature));
  CHECK_FALSE(crypto::isSignedBy(key.publicKey(), Bytes{1, 2, 4}, signature));
  for (std::size_t i = 0; i < signature.size(); ++i) {
    auto changed = signature;
    changed[i] ^= 1U;
    CHECK_FALSE(crypto::isSignedBy(key.publicKey(), message, changed));
  }
  CHECK_FALSE(crypto::isSignedBy(key.publicKey(), message, Bytes{}));
  CHECK_FALSE(crypto::isSignedBy(Bytes{}, message, signature));
}
