#include "roster/days/day_cost.h"

#include <catch2/catch.hpp>

using namespace gk::roster;
using gk::base::ErrorCode;

namespace {

const std::vector<RoleTime> costedHours{{Role::hygienist, minutes(390)},
                                        {Role::coordinator, minutes(120)}};

std::string costsRead(const std::string& text) {
  const auto lines = parseCosts(text, costedHours);
  return lines ? costsText(*lines) : std::string(gk::base::errorName(lines.error().code));
}

} // namespace

TEST_CASE("Costs are read as they are typed, in any order, and rates take the day's hours") {
  CHECK(costsRead("supplies 60, staff 412.50") == "staff 412.50, supplies 60.00");
  CHECK(costsRead("Travel $25") == "travel 25.00");
  CHECK(costsRead("hygienist 42/h, coordinator 31/h") == "staff 335.00"); // 6.5 x 42 + 2 x 31
  CHECK(costsRead("staff 100, hygienist 10/h") == "staff 165.00");
  CHECK(costsRead("supplies 0").empty());
  CHECK(costsRead("").empty());
}

TEST_CASE("A cost that cannot be read is refused, and nothing is guessed") {
  for (const auto* text : {"supplies", "supplies x", "supplies -3", "supplies 1.005",
                           "supplies 9999999", "dentist 90/h"})
    CHECK(costsRead(text) == "input.number");
  CHECK(costsRead("gifts 5") == costsRead("wizard 5/h")); // no such word
}

TEST_CASE("A day's costs are each kind once, above zero") {
  const DayId day{gk::base::Uuid{}};
  const DayCost sound{day, {{CostKind::staff, 41250}, {CostKind::travel, 2500}}};
  CHECK(checkCosts(sound));
  CHECK(sound.total() == 43750);
  CHECK(sound.of(CostKind::travel) == 2500);
  CHECK(sound.of(CostKind::other) == 0);
  CHECK(checkCosts({day, {}}));
  CHECK_FALSE(checkCosts({day, {{CostKind::staff, 1}, {CostKind::staff, 1}}}));
  CHECK_FALSE(checkCosts({day, {{CostKind::staff, 0}}}));
  CHECK_FALSE(checkCosts({day, {{CostKind::staff, 100'000'001}}}));
}

TEST_CASE("An amount is written with its cents and thousands apart") {
  CHECK(centsText(0) == "0.00");
  CHECK(centsText(5) == "0.05");
  CHECK(centsText(120450) == "1,204.50");
  CHECK(centsText(123456789) == "1,234,567.89");
  CHECK(centsText(99999) == "999.99");
}
