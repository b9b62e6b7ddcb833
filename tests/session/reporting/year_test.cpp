#include "session/reporting/year_records.h"

#include "reports/day/close_out.h"
#include "reports/publish/release_lines.h"
#include "session/reporting/issues.h"
#include "support/clinic.h"

#include <algorithm>

using namespace gk;
using base::ErrorCode;
using test::codeOf;
using test::must;

namespace {

base::Date onDate(const char* iso) {
  return *base::Date::parse(iso);
}

roster::ProgramYear schoolYear(const std::string& name = "2026-27") {
  return {name, roster::YearKind::school, onDate("2026-08-01"), onDate("2027-07-31")};
}

} // namespace

TEST_CASE("A year is entered, corrected with a reason and kept with its history") {
  test::Clinic clinic;
  auto& book = clinic.session;
  const auto id = must(book.enterYear(clinic.by, schoolYear()));
  CHECK(codeOf(book.enterYear(clinic.by, schoolYear(" 2026-27 "))) == ErrorCode::textMalformed);
  auto later = schoolYear();
  later.start = onDate("2026-07-01");
  later.end = onDate("2027-06-30");
  CHECK(codeOf(book.correctYear(clinic.by, id, later, "")) == ErrorCode::ruleReason);
  must(book.correctYear(clinic.by, id, later, "the state counts from July"));
  CHECK(must(book.years()).front().value == later);
  CHECK(must(book.revisions<roster::ProgramYear>(id)).size() == 2);
  CHECK(codeOf(book.correctYear(clinic.by, roster::YearId(base::Uuid{}), schoolYear("x"),
                                "typo")) == ErrorCode::notFound);
  later.end = onDate("2026-07-01");
  CHECK(codeOf(book.correctYear(clinic.by, id, later, "typo")) == ErrorCode::ruleDate);
}

TEST_CASE("A year takes its name, else the newest that has begun") {
  test::Clinic clinic;
  auto& book = clinic.session;
  const auto today = onDate("2026-11-17");
  CHECK(codeOf(session::yearCalled(book, {}, today)) == ErrorCode::notFound);
  auto next = schoolYear("2027-28");
  next.start = onDate("2027-08-01");
  next.end = onDate("2028-07-31");
  must(book.enterYear(clinic.by, next));
  CHECK(must(session::yearCalled(book, {}, today)).value.name == "2027-28"); // the first to begin
  must(book.enterYear(clinic.by, schoolYear()));
  CHECK(must(session::yearCalled(book, {}, today)).value.name == "2026-27");
  CHECK(must(session::yearCalled(book, "2027-28", today)).value.name == "2027-28");
  CHECK(codeOf(session::yearCalled(book, "1999", today)) == ErrorCode::notFound);
  CHECK(codeOf(session::readYear(book, next, today)) == ErrorCode::notFound); // no term in it
}

TEST_CASE("A child seen in two terms of the book counts once in the year") {
  test::Clinic clinic;
  auto& book = clinic.session;
  const auto mina = clinic.child("Mina");
  clinic.standardVisit(mina);
  clinic.clock.setWall(
      base::atLocal(onDate("2027-03-09"), std::chrono::hours(9), std::chrono::hours(-5)));
  book.confirmClock();
  clinic.term = must(
      book.enterTerm(clinic.by, {"Spring 2027", onDate("2027-01-11"), onDate("2027-06-11"), {}}));
  clinic.day = must(
      book.openDay(clinic.by, {clinic.term, clinic.school, onDate("2027-03-09"), 1, "", false}));
  must(book.enterConsent(clinic.by, clinic.form(mina)));
  clinic.seat(mina);
  clinic.screenFour(mina);
  const auto spring = must(book.termRecords(clinic.term, onDate("2027-03-10")));
  CHECK(reports::termTotals(spring).total.screened == 1);
  const auto read = must(session::readYear(book, schoolYear(), onDate("2027-03-10")));
  CHECK(reports::termTotals(read.records).total.screened == 1);
  CHECK(reports::termTotals(read.records).total.sealed == 1);
  CHECK(reports::termTotals(read.records).total.days == 2);
  CHECK(read.records.term.name == "School year 2026-27");
}

TEST_CASE("A state report that went out is known to the terms of its year, and to no other") {
  test::Clinic clinic;
  auto& book = clinic.session;
  clinic.standardVisit(clinic.child("Mina"));
  must(book.enterYear(clinic.by, schoolYear()));
  const auto today = onDate("2026-11-17");
  const auto read = must(session::readYear(book, schoolYear(), today));
  const auto made = reports::makeReport(reports::ReportKind::state, read.records, read.options);
  CHECK(must(session::releases(book, clinic.term)).empty());
  const auto issue = must(session::readyIssue(
      book, read.first, "state",
      reports::choiceOf(reports::ReportKind::state, read.records, read.options), made, today));
  CHECK(issue.words == "Version 1");
  must(book.enterIssue(clinic.by, issue.record));
  CHECK(must(session::releases(book, clinic.term)).size() == 1);
  const auto other = must(
      book.enterTerm(clinic.by, {"Autumn 2027", onDate("2027-09-07"), onDate("2027-12-17"), {}}));
  CHECK(reports::ofSameTerm(must(session::releases(book, other))).empty());
  const auto spring = must(
      book.enterTerm(clinic.by, {"Spring 2027", onDate("2027-01-11"), onDate("2027-06-11"), {}}));
  CHECK(must(session::releases(book, spring)).size() == 1);
  const auto again = must(session::readYear(book, schoolYear(), today));
  CHECK(again.options.earlier.size() == 1);
  CHECK_FALSE(again.options.earlier.front().indicators.empty());
}

TEST_CASE("What a day cost is entered, entered again also after it is signed, and read back") {
  test::Clinic clinic;
  auto& book = clinic.session;
  CHECK_FALSE(must(book.lastCosts()));
  using roster::CostKind;
  must(book.enterCosts(clinic.by, {clinic.day, {{CostKind::staff, 41250}}}));
  const roster::DayCost cost{clinic.day, {{CostKind::staff, 41250}, {CostKind::supplies, 6000}}};
  must(book.enterCosts(clinic.by, cost));
  const auto records = must(book.termRecords(clinic.term, onDate("2026-11-17")));
  REQUIRE(records.costs.size() == 1);
  CHECK(records.costs.front().value == cost);
  CHECK(must(book.lastCosts()) == cost);
  CHECK(reports::closeOut(must(book.dayRecords(clinic.day))).cost == cost);
  CHECK(codeOf(book.enterCosts(clinic.by, {clinic.day, {{CostKind::staff, -5}}})) ==
        ErrorCode::numberMalformed);
  CHECK(codeOf(book.enterCosts({}, cost)) == ErrorCode::ruleCredential);
  CHECK(codeOf(book.enterCosts(clinic.by, {roster::DayId(base::Uuid{}), {}})) ==
        ErrorCode::notFound);
}
