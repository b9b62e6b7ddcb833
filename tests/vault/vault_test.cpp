#include "base/random.h"
#include "identities.h"
#include "vault/vault.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <type_traits>

using namespace gk;
using base::ErrorCode;
using crypto::KdfCost;
using crypto::Secret;
using vault::Vault;
using vault::WrappedKey;

static_assert(!std::is_copy_constructible_v<Vault>);

namespace {

constexpr std::string_view passphrase = "fern slate thistle";

vault::Created created(base::Random& random) {
  auto made = Vault::create(Secret::copyOf(passphrase), KdfCost::cheapest(), random);
  REQUIRE(made.has_value());
  return *std::move(made);
}

base::Uuid childId(base::Random& random) {
  return base::makeUuid7(base::Instant{}, random);
}

ErrorCode openingCode(std::string_view text, const WrappedKey& wrapped) {
  const auto opened = Vault::open(Secret::copyOf(text), wrapped);
  REQUIRE_FALSE(opened.has_value());
  return opened.error().code;
}

bool isDamaged(const base::Result<vault::Identity>& revealed) {
  return !revealed && revealed.error().code == ErrorCode::vaultDamaged;
}

} // namespace

TEST_CASE("a name sealed in one sitting is revealed in the next") {
  base::SeededRandom random(1);
  const auto made = created(random);
  const auto child = childId(random);
  const auto sealed = made.vault.seal(child, test::mina(), random);

  const auto later = Vault::open(Secret::copyOf(passphrase), made.wrapped);
  REQUIRE(later.has_value());
  const auto revealed = later->reveal(child, sealed);
  REQUIRE(revealed.has_value());
  CHECK(*revealed == test::mina());
}

TEST_CASE("a sealed box shows no part of a name") {
  base::SeededRandom random(1);
  const auto made = created(random);
  const auto sealed = made.vault.seal(childId(random), test::mina(), random);
  for (std::string_view part : {"Mina", "Tolliver", "0142"})
    CHECK(std::search(sealed.box.begin(), sealed.box.end(), part.begin(), part.end()) ==
          sealed.box.end());
}

TEST_CASE("a box moved to another child does not open") {
  base::SeededRandom random(1);
  const auto made = created(random);
  const auto child = childId(random);
  const auto sealed = made.vault.seal(child, test::mina(), random);
  CHECK(made.vault.reveal(child, sealed).has_value());
  CHECK(isDamaged(made.vault.reveal(childId(random), sealed)));
}

TEST_CASE("a box of another book or one changed in any byte does not open") {
  base::SeededRandom random(1);
  const auto made = created(random);
  const auto other = created(random);
  const auto child = childId(random);
  const auto sealed = made.vault.seal(child, test::mina(), random);
  CHECK(isDamaged(other.vault.reveal(child, sealed)));
  for (std::size_t i = 0; i < sealed.box.size(); ++i) {
    auto changed = sealed;
    changed.box[i] ^= 0x20U;
    CHECK(isDamaged(made.vault.reveal(child, changed)));
  }
  CHECK(isDamaged(made.vault.reveal(child, {})));
}

TEST_CASE("a wrong passphrase is told from a damaged key") {
  base::SeededRandom random(1);
  const auto wrapped = created(random).wrapped;
  CHECK(openingCode("Fern slate thistle", wrapped) == ErrorCode::vaultWrongPassphrase);
  CHECK(openingCode("", wrapped) == ErrorCode::vaultWrongPassphrase);

  const auto damagedBy = [&](auto change) {
    auto changed = wrapped;
    change(changed);
    return openingCode(passphrase, changed) == ErrorCode::vaultDamaged;
  };
  CHECK(damagedBy([](WrappedKey& w) { w.salt.pop_back(); }));
  CHECK(damagedBy([](WrappedKey& w) { w.nonce.push_back(0); }));
  CHECK(damagedBy([](WrappedKey& w) { w.box.pop_back(); }));
  CHECK(damagedBy([](WrappedKey& w) { w.box.clear(); }));
  CHECK(damagedBy([](WrappedKey& w) { w.opsLimit = 0; }));
  CHECK(damagedBy([](WrappedKey& w) { w.memoryBytes = std::int64_t{1} << 50; }));
}

TEST_CASE("a wrapped key with any changed byte never opens") {
  base::SeededRandom random(1);
  const auto wrapped = created(random).wrapped;
  for (auto part : {&WrappedKey::salt, &WrappedKey::nonce, &WrappedKey::box})
    for (std::size_t i = 0; i < (wrapped.*part).size(); ++i) {
      auto changed = wrapped;
      (changed.*part)[i] ^= 1U;
      CHECK(openingCode(passphrase, changed) == ErrorCode::vaultWrongPassphrase);
    }
}

TEST_CASE("a new passphrase opens the names sealed before it") {
  base::SeededRandom random(1);
  const auto made = created(random);
  const auto child = childId(random);
  const auto sealed = made.vault.seal(child, test::mina(), random);
  const auto again =
      made.vault.rewrap(Secret::copyOf("cobble lantern"), KdfCost::cheapest(), random);
  REQUIRE(again.has_value());
  CHECK(again->salt != made.wrapped.salt);
  CHECK(openingCode(passphrase, *again) == ErrorCode::vaultWrongPassphrase);
  const auto opened = Vault::open(Secret::copyOf("cobble lantern"), *again);
  REQUIRE(opened.has_value());
  CHECK(opened->reveal(child, sealed).has_value());
}

TEST_CASE("a passphrase shorter than eight characters is refused with a sentence") {
  base::SeededRandom random(1);
  const auto create = [&](std::string_view text) {
    return Vault::create(Secret::copyOf(text), KdfCost::cheapest(), random);
  };
  for (std::string_view text : {"", "7 chars", "\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9"}) {
    const auto refused = create(text);
    REQUIRE_FALSE(refused.has_value());
    CHECK(refused.error().code == ErrorCode::callMalformed);
    CHECK(refused.error().detail.find("shorter than 8 characters") != std::string::npos);
  }
  const auto eight = create("8 charac");
  REQUIRE(eight.has_value());
  const auto rewrapped = eight->vault.rewrap(Secret::copyOf("short"), KdfCost::cheapest(), random);
  REQUIRE_FALSE(rewrapped.has_value());
  CHECK(rewrapped.error().code == ErrorCode::callMalformed);
}

TEST_CASE("two books with the same passphrase share nothing") {
  base::SeededRandom random(1);
  const auto one = created(random).wrapped;
  const auto two = created(random).wrapped;
  CHECK(one.salt != two.salt);
  CHECK(one.nonce != two.nonce);
  CHECK(one.box != two.box);
}
