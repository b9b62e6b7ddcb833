#include "crypto/sealed.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <numeric>
#include <string>

using namespace gk;
using crypto::Bytes;
using crypto::Key;
using crypto::Secret;

namespace {

Bytes plainBytes(std::string_view text) {
  return {text.begin(), text.end()};
}

Bytes counting(std::uint8_t first, std::size_t count) {
  Bytes out(count);
  std::iota(out.begin(), out.end(), first);
  return out;
}

Bytes fromHex(std::string_view hex) {
  Bytes out;
  for (std::size_t i = 0; i + 1 < hex.size(); i += 2)
    out.push_back(static_cast<std::uint8_t>(std::stoi(std::string(hex.substr(i, 2)), nullptr, 16)));
  return out;
}

/// Gives 0x40, 0x41 and so on, the nonce of the published vector.
class CountingRandom final : public base::Random {
 public:
  void fill(std::span<std::uint8_t> bytes) override {
    std::iota(bytes.begin(), bytes.end(), std::uint8_t{0x40});
  }
};

Key keyOf(const Bytes& bytes) {
  auto key = Key::of(Secret::copyOf(bytes));
  REQUIRE(key.has_value());
  return *std::move(key);
}

Bytes plainOf(const base::Result<Secret>& opened) {
  REQUIRE(opened.has_value());
  return {opened->bytes().begin(), opened->bytes().end()};
}

bool isDamaged(const base::Result<Secret>& opened) {
  return !opened && opened.error().code == base::ErrorCode::vaultDamaged;
}

} // namespace

// draft-irtf-cfrg-xchacha-03, appendix A.3.1.
TEST_CASE("sealing gives the published box of XChaCha20-Poly1305") {
  const auto key = keyOf(counting(0x80, 32));
  const auto plain =
      plainBytes("Ladies and Gentlemen of the class of '99: If I could offer you only "
                 "one tip for the future, sunscreen would be it.");
  const auto associated = fromHex("50515253c0c1c2c3c4c5c6c7");
  const auto box = fromHex("bd6d179d3e83d43b9576579493c0e939572a1700252bfaccbed2902c21396cbb"
                           "731c7f1b0b4aa6440bf3a82f4eda7e39ae64c6708c54c216cb96b72e1213b452"
                           "2f8c9ba40db5d945b11b69b982c1bb9e3f3fac2bc369488f76b2383565d3fff9"
                           "21f9664c97637da9768812f615c68b13b52e"
                           "c0875924c1c7987947deafd8780acf49");

  CountingRandom random;
  const auto sealed = crypto::seal(key, plain, associated, random);
  CHECK(sealed.nonce == counting(0x40, 24));
  CHECK(sealed.box == box);
  CHECK(plainOf(crypto::open(key, sealed, associated)) == plain);
}

TEST_CASE("what was sealed opens again and the nonce is fresh each time") {
  base::SeededRandom random(7);
  const auto key = Key::random(random);
  const auto plain = plainBytes("room 6");
  const auto one = crypto::seal(key, plain, {}, random);
  const auto two = crypto::seal(key, plain, {}, random);
  CHECK(one.nonce != two.nonce);
  CHECK(one.box != two.box);
  CHECK(plainOf(crypto::open(key, one, {})) == plain);
  CHECK(plainOf(crypto::open(key, two, {})) == plain);
}

TEST_CASE("an empty content seals and opens") {
  base::SeededRandom random(7);
  const auto key = Key::random(random);
  const auto sealed = crypto::seal(key, {}, {}, random);
  CHECK(sealed.box.size() == crypto::tagSize);
  CHECK(plainOf(crypto::open(key, sealed, {})).empty());
}

TEST_CASE("a box does not open with another key or for another purpose") {
  base::SeededRandom random(7);
  const auto key = Key::random(random);
  const auto sealed = crypto::seal(key, plainBytes("room 6"), plainBytes("a"), random);
  CHECK(isDamaged(crypto::open(Key::random(random), sealed, plainBytes("a"))));
  CHECK(isDamaged(crypto::open(key, sealed, plainBytes("b"))));
  CHECK(isDamaged(crypto::open(key, sealed, {})));
}

TEST_CASE("a box with any one bit changed or any length cut does not open") {
  base::SeededRandom random(7);
  const auto key = Key::random(random);
  const auto sealed = crypto::seal(key, plainBytes("room 6"), {}, random);
  for (std::size_t i = 0; i < sealed.box.size(); ++i) {
    auto changed = sealed;
    changed.box[i] ^= static_cast<std::uint8_t>(1U << (i % 8));
    CHECK(isDamaged(crypto::open(key, changed, {})));
    auto cut = sealed;
    cut.box.resize(i);
    CHECK(isDamaged(crypto::open(key, cut, {})));
  }
  for (std::size_t i = 0; i < sealed.nonce.size(); ++i) {
    auto changed = sealed;
    changed.nonce[i] ^= 1U;
    CHECK(isDamaged(crypto::open(key, changed, {})));
    auto cut = sealed;
    cut.nonce.resize(i);
    CHECK(isDamaged(crypto::open(key, cut, {})));
  }
}
