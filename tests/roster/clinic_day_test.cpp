#include "roster/days/clinic_day.h"

#include <catch2/catch.hpp>

using namespace gk;
using namespace gk::roster;

namespace {

base::Date dayOf2026(unsigned month, unsigned dayOfMonth) {
  return base::Date::of(2026, month, dayOfMonth).value();
}

/// Term and holidays of workflow.md section 8.
Term autumn() {
  return {.name = "Fall 2026",
          .start = dayOf2026(9, 8),
          .end = dayOf2026(12, 18),
          .holidays = {dayOf2026(10, 12), dayOf2026(11, 11), dayOf2026(11, 25), dayOf2026(11, 26),
                       dayOf2026(11, 27)}};
}

} // namespace

TEST_CASE("A school dayOf2026 of the term opens without a question", "[case-22]") {
  CHECK(dateQuestion(autumn(), dayOf2026(11, 17)).empty());
  CHECK(dateQuestion(autumn(), dayOf2026(9, 8)).empty());
  CHECK(dateQuestion(autumn(), dayOf2026(12, 18)).empty());
}

TEST_CASE("A holiday or weekend or a dayOf2026 outside the term asks in words", "[case-22]") {
  CHECK(dateQuestion(autumn(), dayOf2026(11, 11)) == "November 11, 2026 is a school holiday");
  CHECK(dateQuestion(autumn(), dayOf2026(11, 14)) == "November 14, 2026 is a Saturday");
  CHECK(dateQuestion(autumn(), dayOf2026(11, 15)) == "November 15, 2026 is a Sunday");
  CHECK(dateQuestion(autumn(), dayOf2026(9, 7)) ==
        "September 7, 2026 is outside the term Fall 2026");
  CHECK(dateQuestion(autumn(), dayOf2026(12, 19)) ==
        "December 19, 2026 is outside the term Fall 2026");
}
