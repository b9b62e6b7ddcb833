#include "journeys/told.h"

#include <algorithm>

using namespace gk;

TEST_CASE("the part of a day leaves children waiting at an open day") {
  test::Told told(demo::Until::partDay);
  const auto day = test::must(told.book().openDayNow());
  CHECK(day.value.date.iso() == "2026-11-17");
  const auto board = test::must(told.book().board(day.id));
  const auto placeOf = [&](const std::string& digits) {
    const auto child = told.child(digits);
    const auto at = std::ranges::find(board, child, &session::BoardLine::child);
    REQUIRE(at != board.end());
    return at->place;
  };
  using session::Place;
  for (const auto* seen : {"1043", "1044", "1045", "1051"})
    CHECK(placeOf(seen) == Place::done);
  for (const auto* waiting : {"1046", "1047", "1048", "1049", "1050", "1052", "1053", "1054"})
    CHECK(placeOf(waiting) == Place::waiting);
  CHECK_FALSE(test::must(told.book().childInChair(day.id)));
  const auto osei = std::ranges::count(board, "Osei Brackwater", &session::BoardLine::name);
  CHECK(osei == 2);
}

TEST_CASE("a file that is no demo logbook is not replaced unless that is asked for") {
  const test::Scratch folder;
  const auto file = folder / "demo.gkbook";
  REQUIRE(base::replaceFile(file, "a letter to somebody"));
  const auto refused = demo::buildDemo(folder.path(), demo::Until::partDay);
  REQUIRE_FALSE(refused);
  CHECK(refused.error().code == base::ErrorCode::fileUnwritable);
  CHECK(refused.error().detail.find("--fresh") != std::string::npos);
  CHECK(*base::readFile(file) == "a letter to somebody");
}
