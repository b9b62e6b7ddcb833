#include "crypto/stream.h"

#include <catch2/catch.hpp>

using namespace gk;
using crypto::Bytes;

namespace {

struct Streams {
  base::SeededRandom random{11};
  crypto::Key key = crypto::Key::random(random);
  Bytes associated{1, 2, 3};

  Bytes plainOf(std::size_t size) {
    Bytes plain(size);
    random.fill(plain);
    return plain;
  }
  Bytes seal(const Bytes& plain) { return crypto::sealStream(key, plain, associated); }
  bool opens(const Bytes& sealed) {
    return crypto::openStream(key, sealed, associated).has_value();
  }
};

} // namespace

TEST_CASE("A sealed stream opens as it was, in whatever number of pieces") {
  Streams streams;
  for (const std::size_t size :
       {std::size_t{0}, std::size_t{1}, crypto::streamPiece - 1, crypto::streamPiece,
        crypto::streamPiece + 1, 3 * crypto::streamPiece}) {
    const auto plain = streams.plainOf(size);
    const auto opened = crypto::openStream(streams.key, streams.seal(plain), streams.associated);
    REQUIRE(opened.has_value());
    CHECK(*opened == plain);
  }
}

TEST_CASE("A sealed stream with any one byte changed, or cut off anywhere, does not open",
          "[case-295]") {
  Streams streams;
  const auto sealed = streams.seal(streams.plainOf(200));
  REQUIRE(streams.opens(sealed));
  for (std::size_t i = 0; i < sealed.size(); ++i) {
    auto changed = sealed;
    changed[i] ^= 0x40;
    CHECK_FALSE(streams.opens(changed));
    CHECK_FALSE(streams.opens(Bytes(sealed.begin(), sealed.begin() + static_cast<long>(i))));
  }
  auto longer = sealed;
  longer.push_back(0);
  CHECK_FALSE(streams.opens(longer));
}

TEST_CASE("Pieces of a sealed stream cannot be left out, repeated or changed about", "[case-295]") {
  Streams streams;
  constexpr auto piece = static_cast<long>(crypto::streamPiece + 17);
  const auto sealed = streams.seal(streams.plainOf(3 * crypto::streamPiece));
  const auto head = sealed.begin() + 24;
  REQUIRE(sealed.end() - head == 3 * piece);
  const auto with = [&](std::initializer_list<int> order) {
    Bytes made(sealed.begin(), head);
    for (const auto which : order)
      made.insert(made.end(), head + which * piece, head + (which + 1) * piece);
    return made;
  };
  CHECK(streams.opens(with({0, 1, 2})));
  for (const auto& order : {with({0, 2}), with({1, 2}), with({0, 1}), with({1, 0, 2}),
                            with({0, 1, 1, 2}), with({0, 1, 2, 2}), with({2})})
    CHECK_FALSE(streams.opens(order));
}

TEST_CASE("A sealed stream opens with its own key and what it was bound to alone") {
  Streams streams;
  const auto sealed = streams.seal(streams.plainOf(50));
  const auto other = crypto::Key::random(streams.random);
  CHECK(crypto::openStream(other, sealed, streams.associated).error().code ==
        base::ErrorCode::vaultDamaged);
  CHECK_FALSE(crypto::openStream(streams.key, sealed, Bytes{1, 2}).has_value());
}
