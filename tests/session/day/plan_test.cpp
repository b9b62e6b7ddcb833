#include "support/clinic.h"

using namespace gk;
using base::ErrorCode;
using session::Confirmed;
using test::Clinic;
using test::codeOf;
using test::must;

TEST_CASE("Planning asks about holidays, weekends, days outside the term, and a team in two places",
          "[case-298]") {
  Clinic clinic;
  auto& book = clinic.session;
  auto term = must(book.terms()).front().value;
  const auto today = clinic.clock.now().date(); // a Tuesday
  term.holidays.push_back(today.plusDays(9));
  must(book.correctTerm(clinic.by, clinic.term, term, "school is out"));
  const auto plan = [&](int days, int team = 1) {
    return roster::PlannedDay{.term = clinic.term,
                              .school = clinic.school,
                              .date = today.plusDays(days),
                              .team = team,
                              .chairs = 2};
  };
  must(book.planDay(clinic.by, plan(7)));
  CHECK(codeOf(book.planDay(clinic.by, plan(7))) == ErrorCode::ruleDate); // that team is taken
  must(book.planDay(clinic.by, plan(7, 2)));
  CHECK(codeOf(book.planDay(clinic.by, plan(9))) == ErrorCode::ruleDate);
  CHECK(must(book.planQuestion(plan(9))).find("holiday") != std::string::npos);
  CHECK(codeOf(book.planDay(clinic.by, plan(4))) == ErrorCode::ruleDate); // Saturday
  CHECK(codeOf(book.planDay(clinic.by, plan(3000))) == ErrorCode::ruleDate);
  must(book.planDay(clinic.by, plan(9), Confirmed::yes));
  auto many = plan(8);
  many.chairs = 21;
  CHECK(codeOf(book.planDay(clinic.by, many)) == ErrorCode::numberMalformed);
  CHECK(codeOf(book.planDay({}, plan(8))) == ErrorCode::ruleCredential);
  const auto plans = must(book.plannedDays(clinic.term));
  REQUIRE(plans.size() == 3);
  CHECK(plans.front().value.team == 1);
  CHECK(plans.back().value.date == today.plusDays(9));
  // Planning opens nothing.
  CHECK(must(book.days(clinic.term)).size() == 1);
}

TEST_CASE("A planned day is moved or canceled with a reason; canceled, it takes no team",
          "[case-298]") {
  Clinic clinic;
  auto& book = clinic.session;
  const auto today = clinic.clock.now().date();
  roster::PlannedDay plan{.term = clinic.term, .school = clinic.school, .date = today.plusDays(7)};
  const auto id = must(book.planDay(clinic.by, plan));
  plan.canceled = true;
  CHECK(codeOf(book.correctPlan(clinic.by, id, plan, "")) == ErrorCode::ruleReason);
  must(book.correctPlan(clinic.by, id, plan, "the gym is painted"));
  plan.canceled = false;
  must(book.planDay(clinic.by, plan));
}
