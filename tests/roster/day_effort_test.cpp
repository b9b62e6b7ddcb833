#include "roster/days/day_effort.h"

#include <catch2/catch.hpp>

using namespace gk;
using namespace gk::roster;
using base::ErrorCode;

TEST_CASE("Hours are read as decimals or as hours and minutes, and written short") {
  CHECK(parseHours("5.5").value() == minutes(330));
  CHECK(parseHours(" 5:30 ").value() == minutes(330));
  CHECK(parseHours("6").value() == minutes(360));
  CHECK(parseHours("0.25").value() == minutes(15));
  for (const auto* wrong : {"", "-1", "5:75", "x", "5.5 h", "1001", "nan"})
    CHECK(parseHours(wrong).error().code == ErrorCode::numberMalformed);
  CHECK(hoursText(minutes(330)) == "5.5");
  CHECK(hoursText(minutes(360)) == "6");
  CHECK(hoursText(minutes(335)) == "5.58");
}

TEST_CASE("People's hours are read by role in any order and written in the order of the roles") {
  const auto people = parsePeople("Dental assistant 5.5, hygienist 6:15,coordinator 0");
  REQUIRE(people);
  CHECK(*people == std::vector<RoleTime>{{Role::hygienist, minutes(375)},
                                         {Role::dentalAssistant, minutes(330)}});
  CHECK(peopleText(*people) == "hygienist 6.25, dental assistant 5.5");
  CHECK(parsePeople("  ")->empty());
  CHECK_FALSE(parsePeople("hygienist"));
  CHECK_FALSE(parsePeople("plumber 6"));
  CHECK_FALSE(parsePeople("hygienist six"));
}

TEST_CASE("A day's effort that cannot be is refused") {
  const DayEffort day{.day = DayId(base::Uuid{}),
                      .chairs = 2,
                      .open = minutes(330),
                      .people = {{Role::hygienist, minutes(720)}},
                      .taught = 46};
  REQUIRE(checkEffort(day));
  CHECK(day.chairHours() == Approx(11));
  CHECK(day.staffTime() == minutes(720));
  const auto isRefused = [&](auto change) {
    auto changed = day;
    change(changed);
    const auto answer = checkEffort(changed);
    return !answer && answer.error().code == ErrorCode::numberMalformed;
  };
  CHECK(isRefused([](auto& one) { one.chairs = 51; }));
  CHECK(isRefused([](auto& one) { one.open = minutes(24 * 60 + 1); }));
  CHECK(isRefused([](auto& one) { one.chairs = 0; }));
  CHECK(isRefused([](auto& one) { one.open = minutes(0); }));
  CHECK(isRefused([](auto& one) { one.people.front().time = minutes(60 * 99); }));
  CHECK(isRefused([](auto& one) { one.taught = -1; }));
  CHECK(isRefused([](auto& one) { one.people.push_back(one.people.front()); }));
  CHECK(isRefused([](auto& one) { one.people.front().time = minutes(0); }));
}
