#include "dentition/surfaces.h"
#include "dentition/tooth.h"

#include "base/enum_names.h"

#include <catch2/catch.hpp>

#include <set>

using namespace gk::dentition;
using gk::base::ErrorCode;

namespace {

std::vector<Tooth> allTeeth(Dentition dentition) {
  std::vector<Tooth> teeth;
  const int last = dentition == Dentition::permanent ? 8 : 5;
  for (auto quadrant :
       {Quadrant::upperRight, Quadrant::upperLeft, Quadrant::lowerLeft, Quadrant::lowerRight})
    for (int position = 1; position <= last; ++position)
      teeth.push_back(*Tooth::of(dentition, quadrant, position));
  return teeth;
}

} // namespace

TEST_CASE("Both notations name each of the 52 teeth once and read back as the same tooth") {
  const auto [dentition, count] = GENERATE(std::pair{Dentition::permanent, std::size_t{32}},
                                           std::pair{Dentition::primary, std::size_t{20}});
  std::set<int> iso;
  std::set<std::string> universal;
  std::set<std::string> words;
  for (const auto& tooth : allTeeth(dentition)) {
    INFO(tooth.words());
    iso.insert(tooth.iso());
    universal.insert(tooth.universal());
    words.insert(tooth.words());
    REQUIRE(Tooth::fromIso(tooth.iso()).value() == tooth);
    REQUIRE(Tooth::parse(tooth.universal(), Notation::universal).value() == tooth);
    REQUIRE(Tooth::parse(std::to_string(tooth.iso()), Notation::iso3950).value() == tooth);
  }
  CHECK(iso.size() == count);
  CHECK(universal.size() == count);
  CHECK(words.size() == count);
}

TEST_CASE("Permanent teeth follow the published rule of each quadrant") {
  // methods.md 6: quadrant 1: U = 9-d; 2: 8+d; 3: 25-d; 4: 24+d
  for (int d = 1; d <= 8; ++d) {
    CHECK(toothAt(10 + d).universal() == std::to_string(9 - d));
    CHECK(toothAt(20 + d).universal() == std::to_string(8 + d));
    CHECK(toothAt(30 + d).universal() == std::to_string(25 - d));
    CHECK(toothAt(40 + d).universal() == std::to_string(24 + d));
  }
}

TEST_CASE("The molars have their published pairs of numbers") {
  // methods.md 6
  const auto [iso, universal, words] = GENERATE(table<int, std::string, std::string>({
      {16, "3", "upper right first molar"},
      {26, "14", "upper left first molar"},
      {36, "19", "lower left first molar"},
      {46, "30", "lower right first molar"},
      {17, "2", "upper right second molar"},
      {27, "15", "upper left second molar"},
      {37, "18", "lower left second molar"},
      {47, "31", "lower right second molar"},
  }));
  const auto tooth = toothAt(iso);
  CHECK(tooth.universal() == universal);
  CHECK(tooth.words() == words);
  CHECK(tooth.shown(Notation::universal) == words + ", " + universal);
  CHECK(tooth.shown(Notation::iso3950) == words + ", " + std::to_string(iso));
}

TEST_CASE("Primary teeth run from E to A and on to T") {
  // methods.md 6: 51-55, 61-65, 71-75, 81-85 <-> E-A, F-J, O-K, P-T
  const auto [first, letters] = GENERATE(
      table<int, std::string>({{51, "EDCBA"}, {61, "FGHIJ"}, {71, "ONMLK"}, {81, "PQRST"}}));
  for (std::size_t i = 0; i < letters.size(); ++i) {
    const auto tooth = toothAt(first + static_cast<int>(i));
    CHECK(tooth.universal() == letters.substr(i, 1));
    CHECK(tooth.isPrimary());
  }
  CHECK(toothAt(55).words() == "upper right primary second molar");
}

TEST_CASE("What is no tooth is refused and the range is named") {
  const auto iso = GENERATE(0, 8, 10, 19, 49, 50, 56, 86, 90, 100, -16);
  const auto tooth = Tooth::fromIso(iso);
  REQUIRE_FALSE(tooth);
  CHECK(tooth.error().code == ErrorCode::toothMalformed);
  CHECK(tooth.error().detail.find("11 to 48") != std::string::npos);
}

TEST_CASE("Text that is no tooth in its notation is refused") {
  for (auto text : {"", "0", "33", "U", "a", "AA", "-3", "3a", "16.0"})
    CHECK_FALSE(Tooth::parse(text, Notation::universal));
  for (auto text : {"", "3", "A", "19", "99", "1e1", "16 17"})
    CHECK_FALSE(Tooth::parse(text, Notation::iso3950));
  CHECK(Tooth::parse(" 16 ", Notation::iso3950).value() == toothAt(16));
}

TEST_CASE("Positions outside a quadrant are refused") {
  CHECK_FALSE(Tooth::of(Dentition::permanent, Quadrant::upperLeft, 0));
  CHECK_FALSE(Tooth::of(Dentition::permanent, Quadrant::upperLeft, 9));
  CHECK_FALSE(Tooth::of(Dentition::primary, Quadrant::upperLeft, 6));
}

TEST_CASE("A number that means another tooth in the other notation says which", "[case-25]") {
  const auto [number, universal, iso] = GENERATE(table<std::string, std::string, std::string>({
      {"14", "upper left first molar", "upper right first premolar"},
      {"15", "upper left second molar", "upper right second premolar"},
      {"16", "upper left third molar", "upper right first molar"},
      {"17", "lower left third molar", "upper right second molar"},
      {"18", "lower left second molar", "upper right third molar"},
      {"26", "lower right lateral incisor", "upper left first molar"},
      {"27", "lower right canine", "upper left second molar"},
      {"28", "lower right first premolar", "upper left third molar"},
  }));
  CHECK(clashWords(number, Notation::universal) == iso);
  CHECK(clashWords(number, Notation::iso3950) == universal);
  CHECK(Tooth::parse(number, Notation::universal).value().words() == universal);
  CHECK(Tooth::parse(number, Notation::iso3950).value().words() == iso);
}

TEST_CASE("A number that only one notation knows does not clash", "[case-25]") {
  CHECK(clashWords("3", Notation::universal).empty());
  CHECK(clashWords("A", Notation::universal).empty());
  CHECK(clashWords("46", Notation::iso3950).empty());
  CHECK(clashWords("tooth", Notation::universal).empty());
}

TEST_CASE("Teeth know their arch and side and kind") {
  CHECK(toothAt(16).isUpper());
  CHECK(toothAt(16).isRight());
  CHECK_FALSE(toothAt(36).isUpper());
  CHECK_FALSE(toothAt(36).isRight());
  CHECK(toothAt(46).isRight());
  CHECK(toothAt(26).isFirstPermanentMolar());
  CHECK(toothAt(27).isSecondPermanentMolar());
  CHECK(toothAt(54).isMolar());
  CHECK_FALSE(toothAt(53).isMolar());
  CHECK_FALSE(toothAt(55).isSecondPermanentMolar());
  CHECK(toothAt(14).isPremolar());
  CHECK_FALSE(toothAt(54).isPremolar());
  for (const auto& tooth : firstMolars())
    CHECK(tooth.isFirstPermanentMolar());
  CHECK(std::set<Tooth>(permanentMolars().begin(), permanentMolars().end()).size() == 8);
}
