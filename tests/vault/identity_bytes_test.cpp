#include "base/random.h"
#include "identities.h"
#include "vault/identity_bytes.h"

#include <catch2/catch.hpp>

using namespace gk;
using vault::decode;
using vault::encode;
using Bytes = std::vector<std::uint8_t>;

namespace {

bool isRefused(const Bytes& bytes) {
  const auto decoded = decode(bytes);
  return !decoded && decoded.error().code == base::ErrorCode::vaultDamaged;
}

/// Malformed bytes are refused; if some happen to be well formed, they are what encode writes.
bool isRefusedOrCanonical(const Bytes& bytes) {
  const auto decoded = decode(bytes);
  if (!decoded) return decoded.error().code == base::ErrorCode::vaultDamaged;
  return encode(*decoded) == bytes;
}

} // namespace

TEST_CASE("an identity comes back from its bytes as it was") {
  const auto same = [](const vault::Identity& identity) {
    const auto decoded = decode(encode(identity));
    return decoded.has_value() && *decoded == identity;
  };
  CHECK(same(test::mina()));
  CHECK(same({.last = "Castlebury", .birth = test::day(2018, 2, 28)}));
  auto full = test::mina();
  full.note = std::string(vault::maxTextBytes, 'n');
  full.guardians.resize(vault::maxGuardians, full.guardians[0]);
  CHECK(same(full));
}

TEST_CASE("the bytes of version 1 do not change") {
  Bytes expected{1, 0xE3, 0x07, 4,   3,              // 2019-04-03
                 4, 0,    'W',  'r', 'e', 'n', 0, 0, // first, middle
                 0, 0,    0,    0,                   // last, name used
                 1, 0,    '7',  0,   0,   0,   0,    // room, teacher, note
                 1,                                  // one guardian
                 2, 0,    'E',  'd', 0,   0,   0, 0, // name, relation, phone
                 2, 0,    'e',  'n'};
  expected.resize(128);
  CHECK(encode({.first = "Wren",
                .birth = test::day(2019, 4, 3),
                .room = "7",
                .guardians = {{.name = "Ed", .language = "en"}}}) == expected);
}

TEST_CASE("names of usual lengths give the same number of bytes") {
  const auto birth = test::day(2019, 4, 3);
  CHECK(encode({.first = "Pia", .birth = birth}).size() == 128);
  CHECK(encode({.first = "Pia", .last = "Lindenholt", .birth = birth}).size() == 128);
}

TEST_CASE("bytes cut anywhere are refused") {
  const auto whole = encode(test::mina());
  for (std::size_t size = 0; size < whole.size(); ++size) {
    Bytes cut(whole.begin(), whole.begin() + static_cast<std::ptrdiff_t>(size));
    CHECK(isRefused(cut));
    cut.resize(whole.size()); // the tail as zeros, as a torn write would leave it
    CHECK(isRefusedOrCanonical(cut));
  }
}

TEST_CASE("what follows the end and versions to come are refused") {
  auto bytes = encode(test::mina());
  CHECK(isRefused({}));
  auto longer = bytes;
  longer.resize(longer.size() + 128);
  CHECK(isRefused(longer));
  auto trailing = bytes;
  trailing.back() = 1;
  CHECK(isRefused(trailing));
  bytes[0] = 2;
  CHECK(isRefused(bytes));
}

TEST_CASE("random bytes and random changes never do worse than a refusal") {
  base::SeededRandom random(20261117);
  for (int round = 0; round < 20000; ++round) {
    Bytes noise(128 * (1 + random.below(4)));
    random.fill(noise);
    noise[0] = 1;
    if (round % 2 == 0) { // a date that exists, so that the texts are reached
      noise[1] = 0xE3;
      noise[2] = 0x07;
      noise[3] = 4;
      noise[4] = 3;
      for (auto& byte : noise)
        if (random.below(4) != 0) byte = static_cast<std::uint8_t>(byte % 8);
      noise[0] = 1;
    }
    REQUIRE(isRefusedOrCanonical(noise));
  }
  const auto whole = encode(test::mina());
  for (int round = 0; round < 20000; ++round) {
    auto changed = whole;
    for (auto left = 1 + random.below(3); left > 0; --left)
      changed[random.below(changed.size())] = static_cast<std::uint8_t>(random.below(256));
    REQUIRE(isRefusedOrCanonical(changed));
  }
}
