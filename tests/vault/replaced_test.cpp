#include "identities.h"
#include "vault/signer.h"
#include "vault/vault.h"

#include <catch2/catch.hpp>

using namespace gk;
using base::ErrorCode;
using crypto::KdfCost;
using crypto::Secret;
using vault::KeyName;
using vault::Vault;

namespace {

struct Replacing {
  base::SeededRandom random{266};
  base::Uuid book = base::makeUuid7({}, random);
  base::Uuid child = base::makeUuid7({}, random);
  KeyName second{book, base::makeUuid7({}, random)};
  Vault old = made();
  vault::Replaced next = old.replaced(second, random);

  Vault made() {
    auto created = Vault::create(Secret::copyOf("fern slate thistle"), KdfCost::cheapest(), random);
    REQUIRE(created);
    return std::move(created->vault);
  }
  vault::WrappedKey wrapped(const Vault& vault, std::string_view passphrase) {
    const auto made = vault.rewrap(Secret::copyOf(passphrase), KdfCost::cheapest(), random);
    REQUIRE(made);
    return *made;
  }
};

/// A member with a passphrase of her own.
struct Person {
  vault::KeyOwner owner;
  crypto::Key opening;
  Person(std::string_view passphrase, base::Random& random)
      : owner{base::makeUuid7({}, random), {}}, opening(crypto::Key::random(random)) {
    const auto key = crypto::SigningKey::random(random);
    auto wrapped = vault::wrapSigner(key, base::MemberId(owner.member), Secret::copyOf(passphrase),
                                     KdfCost::cheapest(), random);
    REQUIRE(wrapped);
    owner.publicKey = key.publicKey();
    opening = std::move(wrapped->opening);
  }
};

} // namespace

TEST_CASE("What a replaced key sealed opens with the new one, and nothing new with the old one",
          "[case-267]") {
  Replacing one;
  const auto before = one.old.seal(one.child, test::mina(), one.random);
  const auto after = one.next.vault.seal(one.child, test::mina(), one.random);
  CHECK(one.next.vault.reveal(one.child, before).value() == test::mina());
  CHECK(one.next.vault.reveal(one.child, after).value() == test::mina());
  CHECK(one.old.reveal(one.child, after).error().code == ErrorCode::vaultDamaged);
  // Opened in another sitting, by what the book keeps.
  const auto wrapped = one.wrapped(one.next.vault, "seven brass buttons");
  auto later = Vault::open(Secret::copyOf("seven brass buttons"), wrapped, one.second);
  REQUIRE(later);
  CHECK_FALSE(later->reveal(one.child, before));
  REQUIRE(one.next.earlier.size() == 1);
  CHECK(later->learn(one.second, one.next.earlier.front()));
  CHECK(later->reveal(one.child, before).value() == test::mina());
  CHECK(later->twin().reveal(one.child, before).value() == test::mina());
  later->sleep();
  later->awaken();
  CHECK(later->reveal(one.child, after).value() == test::mina());
}

TEST_CASE("A PIN of before the replacement is still known after it", "[case-267]") {
  Replacing one;
  const auto member = base::makeUuid7({}, one.random);
  const auto pin = Secret::copyOf("2580");
  const auto sealed = one.old.sealPin(member, pin, KdfCost::cheapest(), one.random);
  REQUIRE(sealed);
  CHECK(one.next.vault.isPin(member, pin, *sealed).value());
}

TEST_CASE("A key under a passphrase or code is of its name alone: an earlier one put back under "
          "the newer name does not open",
          "[case-269]") {
  Replacing one;
  const std::string_view words = "fern slate thistle";
  const auto old = one.wrapped(one.old, words);
  const auto next = one.wrapped(one.next.vault, words);
  CHECK(Vault::open(Secret::copyOf(words), old));
  CHECK_FALSE(Vault::open(Secret::copyOf(words), old, one.second));
  CHECK(Vault::open(Secret::copyOf(words), next, one.second));
  CHECK_FALSE(Vault::open(Secret::copyOf(words), next));
  CHECK_FALSE(Vault::open(Secret::copyOf(words), next,
                          {base::makeUuid7({}, one.random), one.second.key})); // another book
  const auto code = one.next.vault.wrapForRecovery(Secret::copyOf("a printed code"),
                                                   KdfCost::cheapest(), one.random);
  REQUIRE(code);
  CHECK(Vault::recover(Secret::copyOf("a printed code"), *code, one.second));
  CHECK_FALSE(Vault::recover(Secret::copyOf("a printed code"), *code));
}

TEST_CASE("An earlier key is learned only from the key that it was sealed under, for that book and "
          "that name",
          "[case-269]") {
  Replacing one;
  const auto& earlier = one.next.earlier.front();
  const auto fresh = [&] {
    auto vault = Vault::open(Secret::copyOf("seven brass buttons"),
                             one.wrapped(one.next.vault, "seven brass buttons"), one.second);
    REQUIRE(vault);
    return std::move(*vault);
  };
  CHECK(fresh().learn(one.second, earlier));
  auto renamed = earlier;
  renamed.name = base::makeUuid7({}, one.random);
  CHECK_FALSE(fresh().learn(one.second, renamed));
  CHECK_FALSE(fresh().learn({base::makeUuid7({}, one.random), one.second.key}, earlier));
  CHECK_FALSE(fresh().learn({one.book, renamed.name}, earlier));
  auto changed = earlier;
  changed.sealed.box.front() ^= 1U;
  CHECK_FALSE(fresh().learn(one.second, changed));
  auto cut = earlier;
  cut.sealed.box.pop_back();
  CHECK_FALSE(fresh().learn(one.second, cut));
}

TEST_CASE("A person's own passphrase opens the names for her, this book and this key alone, and "
          "is not the key that opens her signing key",
          "[case-266][case-269]") {
  Replacing one;
  const Person rosa("heron over the weir", one.random);
  const Person otto("a third set of words", one.random);
  const auto box = one.next.vault.wrapFor(rosa.opening, one.book, rosa.owner, one.random);
  const auto opens = [&](const crypto::Key& opening, const KeyName& name,
                         const vault::KeyOwner& owner, const crypto::Sealed& sealed) {
    return Vault::openFor(opening, name, owner, sealed).has_value();
  };
  CHECK(opens(rosa.opening, one.second, rosa.owner, box));
  CHECK_FALSE(opens(otto.opening, one.second, otto.owner, box)); // pasted onto another
  CHECK_FALSE(opens(rosa.opening, one.second, otto.owner, box));
  CHECK_FALSE(opens(rosa.opening, {one.book, {}}, rosa.owner, box)); // said to be the earlier key
  CHECK_FALSE(opens(rosa.opening, {base::makeUuid7({}, one.random), one.second.key}, rosa.owner,
                    box)); // another book's
  auto newKey = rosa.owner;
  newKey.publicKey.front() ^= 1U;
  CHECK_FALSE(opens(rosa.opening, one.second, newKey, box));
  for (std::size_t i = 0; i < box.box.size(); ++i) {
    auto changed = box;
    changed.box[i] ^= 1U;
    CHECK_FALSE(opens(rosa.opening, one.second, rosa.owner, changed));
  }
  auto cut = box;
  cut.box.resize(20);
  CHECK_FALSE(opens(rosa.opening, one.second, rosa.owner, cut));
}

TEST_CASE("Of one derivation each purpose has a key of its own", "[case-266]") {
  base::SeededRandom random(4);
  const auto root = crypto::Key::random(random);
  const auto one = crypto::keyFor(root, "one");
  const auto same = crypto::keyFor(root, "one");
  const auto two = crypto::keyFor(root, "two");
  CHECK(crypto::isSame(one.bytes(), same.bytes()));
  CHECK_FALSE(crypto::isSame(one.bytes(), two.bytes()));
  CHECK_FALSE(crypto::isSame(one.bytes(), root.bytes()));
}

TEST_CASE("A signing key whose cost was changed out of bounds is refused before anything is "
          "computed",
          "[case-269]") {
  base::SeededRandom random(5);
  const auto key = crypto::SigningKey::random(random);
  const base::MemberId who(base::makeUuid7({}, random));
  auto made = vault::wrapSigner(key, who, Secret::copyOf("heron over the weir"),
                                KdfCost::cheapest(), random);
  REQUIRE(made);
  const auto code = [&](const vault::WrappedKey& wrapped) {
    return vault::unwrapSigner(wrapped, who, key.publicKey(), Secret::copyOf("heron over the weir"))
        .error()
        .code;
  };
  auto dear = made->wrapped;
  dear.opsLimit = 1'000'000;
  CHECK(code(dear) == ErrorCode::vaultDamaged);
  dear = made->wrapped;
  dear.memoryBytes = std::int64_t{1} << 40;
  CHECK(code(dear) == ErrorCode::vaultDamaged);
  auto cut = made->wrapped;
  cut.salt.pop_back();
  CHECK(code(cut) == ErrorCode::vaultDamaged);
}
