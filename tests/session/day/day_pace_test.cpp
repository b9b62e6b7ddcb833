#include "session/day/day_pace.h"

#include "support/clinic.h"

using namespace gk;
using namespace gk::session;
using namespace gk::test;
using namespace std::chrono_literals;

namespace {

base::LocalInstant at(std::chrono::minutes time) {
  return base::atLocal(*base::Date::parse("2026-11-17"), time, -5h);
}

BoardLine seen(std::chrono::minutes from, std::chrono::minutes to) {
  BoardLine line{roster::ChildId(base::Uuid{}), "1001", "Mina", "4", "2", Place::done};
  line.seatedAt = at(from);
  line.endedAt = at(to);
  return line;
}

BoardLine in(Place place) {
  return {roster::ChildId(base::Uuid{}), "1002", "Lupe", "4", "2", place};
}

} // namespace

TEST_CASE("The day's pace is what was seen from the first seating to the last outcome",
          "[case-304]") {
  // Worked by hand: 3 from 9:00 to 10:00 are 20 minutes each; 4 are left, so 11:20.
  const std::vector<BoardLine> board{
      seen(9h, 9h + 15min), seen(9h + 5min, 9h + 40min), seen(9h + 40min, 10h), in(Place::inChair),
      in(Place::parked),    in(Place::waiting),          in(Place::waiting),    in(Place::absent)};
  const auto pace = paceOf(board, at(10h + 5min));
  CHECK(pace.seen == 3);
  CHECK(pace.left == 4);
  REQUIRE(pace.each);
  CHECK(pace.each->count() == 20);
  REQUIRE(pace.ends);
  CHECK(pace.ends->clockWords() == "11:20 AM");
  // A pause that was longer than all that is left: not before now.
  CHECK(paceOf(board, at(12h)).ends->clockWords() == "12:00 PM");
}

TEST_CASE("Of two students, of another day and of a day that is over no end is told",
          "[case-304]") {
  const std::vector<BoardLine> two{seen(9h, 9h + 15min), seen(9h + 15min, 9h + 40min),
                                   in(Place::waiting)};
  CHECK_FALSE(paceOf(two, at(10h)).each);
  CHECK(paceOf(two, at(10h)).left == 1);
  const std::vector<BoardLine> all{seen(9h, 9h + 15min), seen(9h + 15min, 9h + 40min),
                                   seen(9h + 40min, 10h)};
  CHECK(paceOf(all, at(10h)).each);
  CHECK_FALSE(paceOf(all, at(10h)).ends);
  CHECK_FALSE(paceOf(all, base::atLocal(*base::Date::parse("2026-11-18"), 10h, -5h)).each);
  CHECK(paceOf({}, at(10h)).seen == 0);
}
