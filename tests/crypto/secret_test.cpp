#include "crypto/secret.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <type_traits>

using namespace gk;
using crypto::Key;
using crypto::Secret;

static_assert(!std::is_copy_constructible_v<Secret> && !std::is_copy_assignable_v<Secret>);
static_assert(std::is_nothrow_move_constructible_v<Secret>);
static_assert(!std::is_copy_constructible_v<Key> && !std::is_copy_assignable_v<Key>);

namespace {

std::string textOf(const Secret& secret) {
  return {secret.bytes().begin(), secret.bytes().end()};
}

} // namespace

TEST_CASE("a secret holds the bytes it was given") {
  CHECK(textOf(Secret::copyOf("four plain words")) == "four plain words");
  CHECK(Secret::copyOf("").size() == 0);
  const auto blank = Secret::ofSize(5);
  CHECK(std::all_of(blank.bytes().begin(), blank.bytes().end(), [](auto b) { return b == 0; }));
}

TEST_CASE("taking a text wipes it where it stood") {
  std::string text = "a passphrase too long for the small buffer of a string";
  const char* const place = text.data();
  const auto size = text.size();
  const auto secret = Secret::taking(text);
  CHECK(textOf(secret) == "a passphrase too long for the small buffer of a string");
  CHECK(text.empty());
  text.resize(size); // same buffer, so that the old place may be read
  REQUIRE(text.data() == place);
  CHECK(std::all_of(text.begin(), text.end(), [](char c) { return c == '\0'; }));
}

TEST_CASE("a secret that was moved from is empty") {
  auto one = Secret::copyOf("four plain words");
  auto two = std::move(one);
  CHECK(one.size() == 0); // NOLINT(bugprone-use-after-move): the claim of the test
  CHECK(one.bytes().empty());
  auto three = Secret::copyOf("other");
  three = std::move(two);
  CHECK(textOf(three) == "four plain words");
}

TEST_CASE("a key is 32 bytes and drawn from the randomness it is handed") {
  base::SeededRandom one(3);
  base::SeededRandom same(3);
  const auto key = Key::random(one);
  const auto twin = Key::random(same);
  CHECK(std::ranges::equal(key.bytes(), twin.bytes()));
  CHECK_FALSE(std::ranges::equal(key.bytes(), Key::random(one).bytes()));
  CHECK(Key::of(Secret::ofSize(32)).has_value());
  for (std::size_t size : {0U, 31U, 33U}) {
    const auto refused = Key::of(Secret::ofSize(size));
    REQUIRE_FALSE(refused.has_value());
    CHECK(refused.error().code == base::ErrorCode::vaultDamaged);
  }
}
