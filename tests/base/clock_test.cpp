#include "base/time/clock.h"

#include <catch2/catch.hpp>

using namespace gk::base;
using std::chrono::hours;
using std::chrono::minutes;

namespace {

LocalInstant local(std::string_view iso, minutes time, minutes offset) {
  return atLocal(Date::parse(iso).value(), time, offset);
}

} // namespace

TEST_CASE("A moment keeps the date and time of the wall where it was noted") {
  const auto noted = local("2026-11-17", hours{10} + minutes{42}, -hours{5});
  CHECK(noted.date().iso() == "2026-11-17");
  CHECK(noted.timeOfDay() == minutes{642});
  CHECK(noted.text() == "2026-11-17 10:42");
  CHECK(noted.at.utc == Milliseconds{1'794'930'120'000}); // 2026-11-17 15:42 UTC
}

TEST_CASE("A late evening is still today though it is tomorrow in UTC") {
  const auto noted = local("2026-11-17", hours{23} + minutes{30}, -hours{6});
  CHECK(noted.date().iso() == "2026-11-17");
  CHECK(LocalInstant{noted.at, minutes{0}}.date().iso() == "2026-11-18");
}

TEST_CASE("When summer time ends the repeated hour keeps its order") {
  const auto summer = local("2026-11-01", hours{1} + minutes{30}, -hours{4});
  const auto winter = local("2026-11-01", hours{1} + minutes{30}, -hours{5});
  CHECK(summer.text() == winter.text());
  CHECK(summer.at < winter.at);
}

TEST_CASE("A clock that is told to go on moves wall and steady time together") {
  ManualClock clock(local("2026-11-17", hours{8}, -hours{5}));
  clock.advance(Seconds{90});
  CHECK(clock.now().timeOfDay() == hours{8} + minutes{1});
  CHECK(clock.steady() == Seconds{90});
}

TEST_CASE("Setting the wall clock back leaves durations alone") {
  ManualClock clock(local("2026-11-17", hours{8}, -hours{5}));
  clock.advance(Seconds{10});
  const auto before = clock.steady();
  clock.setWall(local("2026-11-16", hours{8}, -hours{5}));
  CHECK(clock.steady() == before);
  CHECK(clock.now().date().iso() == "2026-11-16");
}

TEST_CASE("The system clock tells a date of this century and never runs back") {
  SystemClock clock;
  const auto now = clock.now();
  CHECK(now.date().year() >= 2024);
  CHECK(now.offset >= -hours{14});
  CHECK(now.offset <= hours{14});
  const auto first = clock.steady();
  CHECK(clock.steady() >= first);
}

TEST_CASE("The time awake stands still while the laptop sleeps") {
  ManualClock clock(local("2026-11-17", hours{8}, -hours{5}));
  clock.advance(Seconds{5});
  CHECK(clock.steady() == clock.awake());
  clock.sleep(Seconds{60});
  CHECK(clock.steady() - clock.awake() == Seconds{60});
  SystemClock real;
  CHECK(real.awake() <= real.steady());
}
