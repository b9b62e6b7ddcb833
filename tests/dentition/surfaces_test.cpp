#include "dentition/surfaces.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace gk::dentition;
using gk::base::ErrorCode;

TEST_CASE("The companion surface is lingual above and buccal below") {
  for (const auto& tooth : permanentMolars()) {
    INFO(tooth.words());
    const auto companion = tooth.isUpper() ? Surface::lingualGroove : Surface::buccalPit;
    const auto other = tooth.isUpper() ? Surface::buccalPit : Surface::lingualGroove;
    CHECK(usualSurfaces(tooth) == SurfaceSet{Surface::occlusal, companion});
    CHECK(isUsual(tooth, companion));
    CHECK_FALSE(isUsual(tooth, other));
  }
}

TEST_CASE("Premolars and primary molars are sealed on the occlusal surface alone") {
  CHECK(usualSurfaces(toothAt(14)) == SurfaceSet{Surface::occlusal});
  CHECK(usualSurfaces(toothAt(75)) == SurfaceSet{Surface::occlusal});
}

TEST_CASE("Every set of surfaces is read back from its letters in any order") {
  for (std::int64_t bits = 1; bits < 8; ++bits) {
    const auto set = *SurfaceSet::fromBits(bits);
    auto text = letters(set);
    CHECK(parseSurfaces(text).value() == set);
    std::reverse(text.begin(), text.end());
    CHECK(parseSurfaces(" " + text + " ").value() == set);
  }
  CHECK(letters({Surface::buccalPit, Surface::occlusal}) == "OB");
  CHECK(words({Surface::occlusal, Surface::lingualGroove}) == "occlusal and lingual groove");
}

TEST_CASE("Letters that are no surfaces are refused") {
  const auto text = GENERATE("", " ", "o", "OX", "XO", "M", "O,B", "occlusal");
  const auto set = parseSurfaces(text);
  REQUIRE_FALSE(set);
  CHECK(set.error().code == ErrorCode::surfaceMalformed);
}

TEST_CASE("A list of teeth is read in the program's notation, with or without surfaces") {
  const auto teeth = parseTeeth(" 3 14:O  30:BO", Notation::universal).value();
  REQUIRE(teeth.size() == 3);
  CHECK(teeth[0] == ToothSurfaces{toothAt(16), usualSurfaces(toothAt(16))});
  CHECK(teeth[1] == ToothSurfaces{toothAt(26), {Surface::occlusal}});
  CHECK(
      shown(teeth, Notation::universal) ==
      "upper right first molar, 3; upper left first molar, 14 (occlusal); lower right first molar, "
      "30");
  CHECK(parseTeeth("", Notation::universal).value().empty());
  CHECK(parseTeeth("33", Notation::universal).error().code == ErrorCode::toothMalformed);
  CHECK(parseTeeth("3:X", Notation::universal).error().code == ErrorCode::surfaceMalformed);
  const auto left = without(teeth, std::vector{ToothSurfaces{toothAt(16), {Surface::occlusal}},
                                               ToothSurfaces{toothAt(26), {Surface::occlusal}}});
  REQUIRE(left.size() == 2);
  CHECK(left[0] == ToothSurfaces{toothAt(16), {Surface::lingualGroove}});
}
