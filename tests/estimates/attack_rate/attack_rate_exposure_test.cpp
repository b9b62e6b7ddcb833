#include "estimates/attack_rate/attack_rate_exposure.h"

#include <catch2/catch.hpp>

#include <limits>

using namespace gk;
using namespace gk::estimates;

TEST_CASE("Time in the mouth is the age less that at eruption for the sex and arch") {
  const EruptionAges ages{.girlsUpper = 6.2, .girlsLower = 6.0, .boysUpper = 6.4, .boysLower = 6.1};
  const std::vector<ScreenedMolar> molars{
      {8.0, MolarSex::female, MolarArch::upper, false, 1},
      {8.0, MolarSex::female, MolarArch::lower, true, 1},
      {8.0, MolarSex::female, MolarArch::upper, true, 1},
      {9.0, MolarSex::male, MolarArch::lower, false, 2},
      {9.0, MolarSex::notStated, MolarArch::upper, false, 3},
  };
  const auto rows = exposures(molars, ages).value();
  REQUIRE(rows.size() == 4);
  CHECK(rows[0].years == Approx(1.8));
  CHECK(rows[0].examined == 2);
  CHECK(rows[0].affected == 1);
  CHECK(rows[1].years == Approx(2.0));
  CHECK(rows[1].affected == 1);
  CHECK(rows[2].years == Approx(2.9));
  CHECK(rows[3].years == Approx(9 - 6.3));
  CHECK(rows[3].child == 3);
}

TEST_CASE("The default eruption ages are those of the Danish cohort") {
  // Ekstrand 2003, Caries Res 37:303-9 (abstract): first molars, girls 6.1, boys 6.3 years
  const EruptionAges ages;
  for (const auto arch : {MolarArch::upper, MolarArch::lower}) {
    CHECK(ages.of(MolarSex::female, arch) == 6.1);
    CHECK(ages.of(MolarSex::male, arch) == 6.3);
    CHECK(ages.of(MolarSex::notStated, arch) == Approx(defaultEruptionAge));
  }
}

TEST_CASE("Joined rows give the rate of rows apart") {
  std::vector<ScreenedMolar> molars;
  std::vector<Exposure> apart;
  for (std::size_t child = 0; child < 20; ++child)
    for (int tooth = 0; tooth < 4; ++tooth) {
      const double age = 7 + .2 * static_cast<double>(child);
      const bool isAffected = child % 5 == 0 && tooth < 2;
      molars.push_back({age, MolarSex::male, MolarArch::upper, isAffected, child});
      apart.push_back({age - 6.3, 1, isAffected ? 1.0 : 0.0, child});
    }
  const auto joined = exposures(molars).value();
  CHECK(joined.size() == 20);
  CHECK(attackRate(joined)->annual == Approx(attackRate(apart)->annual));
  CHECK(attackRate(joined)->robustVariance.value() ==
        Approx(attackRate(apart)->robustVariance.value()));
}

TEST_CASE("Ages that cannot be are refused") {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  for (const double age : {nan, -1.0, 121.0}) {
    const auto found =
        exposures(std::vector<ScreenedMolar>{{8, MolarSex::male, MolarArch::upper, false, 1},
                                             {age, MolarSex::male, MolarArch::upper, false, 1}});
    REQUIRE(!found);
    CHECK_THAT(found.error().detail, Catch::StartsWith("Molar 2: "));
  }
  CHECK(!exposures({}, {.girlsUpper = nan}));
  CHECK(!exposures({}, {.boysLower = 3}));
  CHECK(exposures({})->empty());
}
