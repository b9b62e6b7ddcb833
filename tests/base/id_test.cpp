#include "base/identity/id.h"

#include <catch2/catch.hpp>
#include <unordered_set>

using namespace gk::base;

TEST_CASE("An identifier reads back from its own text") {
  SeededRandom random(1);
  const Uuid made = makeUuid7({Milliseconds{1'800'000'000'000}}, random);
  CHECK(Uuid::parse(made.text()).value() == made);
}

TEST_CASE("A version 7 identifier has the layout of the standard's own example") {
  // RFC 9562, appendix A.6: 017F22E2-79B0-7CC3-98C4-DC0C0C07398F is 2022-02-22 19:22:22 UTC.
  const auto example = Uuid::parse("017F22E2-79B0-7CC3-98C4-DC0C0C07398F");
  REQUIRE(example);
  SeededRandom random(1);
  const Uuid made = makeUuid7({Milliseconds{1'645'557'742'000}}, random);
  CHECK(made.text().substr(0, 15) == "017f22e2-79b0-7");
  CHECK(made.text().substr(0, 15) == example->text().substr(0, 15));
  CHECK((made.bytes[8] >> 6U) == 2); // the variant bits
}

TEST_CASE("Identifiers made later sort later") {
  SeededRandom random(2);
  Uuid before = makeUuid7({Milliseconds{1}}, random);
  for (const int millis : {2, 255, 256, 65'536, 1'000'000'000}) {
    const Uuid next = makeUuid7({Milliseconds{millis}}, random);
    CHECK(before < next);
    before = next;
  }
}

TEST_CASE("A thousand identifiers of one millisecond differ") {
  SeededRandom random(3);
  std::unordered_set<EntryId> seen;
  for (int i = 0; i < 1000; ++i)
    seen.insert(EntryId(makeUuid7({Milliseconds{5}}, random)));
  CHECK(seen.size() == 1000);
}

TEST_CASE("Text that is no identifier is refused") {
  const auto* text =
      GENERATE("", "017f22e279b07cc398c4dc0c0c07398f", "017f22e2-79b0-7cc3-98c4",
               "017f22e2-79b0-7cc3-98c4-dc0c0c07398g", "017f22e2x79b0-7cc3-98c4-dc0c0c07398f",
               "017f22e2-79b0-7cc3-98c4-dc0c0c07398f0");
  const auto parsed = Uuid::parse(text);
  REQUIRE_FALSE(parsed);
  CHECK(parsed.error().code == ErrorCode::textMalformed);
}
