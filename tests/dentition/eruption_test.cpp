#include "dentition/eruption.h"

#include <catch2/catch.hpp>

using namespace gk::dentition;

TEST_CASE("Eruption windows are those of the Danish cohort") {
  // methods.md 6: first molars girls 6.1 (5y3m-7y8m) boys 6.3 (5y2m-7y10m);
  // second molars girls 11.3 (8y11m-14y4m) boys 12.0 (9y11m-13y11m)
  const auto girls = eruptionWindow(toothAt(16), Sex::female).value();
  CHECK(girls.earliest == Approx(5.25));
  CHECK(girls.mean == 6.1);
  CHECK(girls.latest == Approx(7 + 8 / 12.0));
  const auto boys = eruptionWindow(toothAt(37), Sex::male).value();
  CHECK(boys.earliest == Approx(9 + 11 / 12.0));
  CHECK(boys.mean == 12.0);
  CHECK(boys.latest == Approx(13 + 11 / 12.0));
}

TEST_CASE("Where sex is not stated the wider window is used") {
  const auto sex = GENERATE(Sex::other, Sex::notStated);
  const auto window = eruptionWindow(toothAt(47), sex).value();
  CHECK(window.earliest == Approx(8 + 11 / 12.0));
  CHECK(window.latest == Approx(14 + 4 / 12.0));
}

TEST_CASE("Only first and second permanent molars have a window") {
  for (int iso : {11, 14, 18, 55, 85})
    CHECK_FALSE(eruptionWindow(toothAt(iso), Sex::female));
  CHECK(eruptionQuestion(toothAt(55), Sex::female, 4.0).empty());
}

TEST_CASE("A permanent molar up too early asks whether it is the tooth before it", "[case-28]") {
  const auto second = eruptionQuestion(toothAt(37), Sex::male, 5.9);
  CHECK(second.find("lower left second molar") != std::string::npos);
  CHECK(second.find("a first molar?") != std::string::npos);
  const auto first = eruptionQuestion(toothAt(16), Sex::female, 4.9);
  CHECK(first.find("upper right first molar") != std::string::npos);
  CHECK(first.find("a primary second molar?") != std::string::npos);
}

TEST_CASE("A permanent molar up at its age or later asks nothing", "[case-28]") {
  CHECK(eruptionQuestion(toothAt(16), Sex::female, 5.25).empty());
  CHECK(eruptionQuestion(toothAt(37), Sex::female, 9.0).empty());
  CHECK(eruptionQuestion(toothAt(37), Sex::male, 17.0).empty());
}
