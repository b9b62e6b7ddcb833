#include "crypto/digest.h"

#include <catch2/catch.hpp>

#include <vector>

using namespace gk;

// RFC 7693 prints a vector for 512 bits only; these are from another implementation, that of
// Python 3.11: hashlib.blake2b(text, digest_size=32).hexdigest().
TEST_CASE("a digest is BLAKE2b with 256 bits in lower-case hexadecimal") {
  CHECK(crypto::digest("") == "0e5751c026e543b2e8ab2eb06099daa1d1e5df47778f7787faab45cdf12fe3a8");
  CHECK(crypto::digest("abc") ==
        "bddd813c634239723171ef3fee98579b94964e3bb1cb3e427262c8c068d52319");
}

TEST_CASE("bytes and text of the same content have the same digest") {
  CHECK(crypto::digest(std::vector<std::uint8_t>{'a', 'b', 'c'}) == crypto::digest("abc"));
  CHECK(crypto::digest("abc") != crypto::digest("abd"));
}
