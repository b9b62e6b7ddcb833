#include "reports/sheets/planned_children.h"

#include "reports/sheets/plan_table.h"

#include <catch2/catch.hpp>

using namespace gk;
using reports::childrenAhead;

TEST_CASE("Who is expected at a school are those with a yes who were not seen, once forms are back",
          "[case-452]") {
  const reports::PastCare past{.consented = 110, .enrolled = 200, .consentedOfEnrolled = 110};
  const auto ahead = childrenAhead({.yes = 42, .back = 60, .students = 120, .seen = 10}, past);
  CHECK(ahead.children == 42);
  CHECK_FALSE(ahead.consentShare.has_value());
  CHECK_FALSE(ahead.isUnknown);
}

TEST_CASE("Before forms are back a school is counted on as earlier terms consented, and says so",
          "[case-452]") {
  const reports::PastCare past{.consented = 130, .enrolled = 200, .consentedOfEnrolled = 110};
  const auto none = childrenAhead({.students = 120}, past);
  CHECK(none.children == 66); // 120 x 110 / 200
  REQUIRE(none.consentShare.has_value());
  CHECK(*none.consentShare == Approx(0.55));
  // The first few forms of a stack tell nothing yet, and those seen are seen.
  CHECK(childrenAhead({.yes = 5, .back = 11, .students = 120, .seen = 4}, past).children == 62);
  CHECK(childrenAhead({.yes = 5, .back = 12, .students = 120}, past).children == 5);
  // Never fewer than have said yes.
  CHECK(childrenAhead({.yes = 9, .back = 9, .students = 120, .seen = 60}, past).children == 9);
  const auto unknown = childrenAhead({.students = 120}, {});
  CHECK(unknown.children == 0);
  CHECK(unknown.isUnknown);
  CHECK_FALSE(unknown.consentShare.has_value());
}

TEST_CASE("What is shared over the days of a school adds up to all", "[case-452]") {
  for (const int children : {0, 1, 2, 7, 100, 101})
    for (const int days : {1, 2, 3, 7}) {
      int sum = 0;
      for (int place = 0; place < days; ++place) {
        const auto share = reports::shareOfDay(children, days, place);
        CHECK(share >= children / days);
        CHECK(share <= children / days + 1);
        sum += share;
      }
      CHECK(sum == children);
    }
}

TEST_CASE("The packing list has the days that are still ahead, and names no student",
          "[case-299]") {
  const base::Date day = base::Date::parse("2026-11-24").value();
  const auto table = reports::packingTable(
      "Fall 2026", {{.day = day, .school = "Cobble Lantern", .children = 12, .supplies = "one box"},
                    {.day = day.plusDays(1), .school = "Heron Bend", .canceled = true}});
  REQUIRE(table.rows.size() == 1);
  CHECK(table.rows[0].at(1).text() == "Cobble Lantern");
  CHECK(table.rows[0].at(2).text() == "12");
  CHECK(table.rows[0].at(3).text() == "one box");
  CHECK(reports::packingTable("Fall 2026", {}).rows.empty());
}
