#include "reports/records/inputs.h"
#include "support/clinic.h"

using namespace gk;
using test::must;

namespace {

const roster::Child& childIn(const reports::TermRecords& records, roster::ChildId id) {
  for (const auto& row : records.children)
    if (row.id == id) return row.value;
  FAIL("not in the records");
  return records.children.front().value;
}

std::string gradeIn(test::Clinic& clinic, roster::TermId term, base::Date asOf,
                    roster::ChildId child) {
  return childIn(must(clinic.session.termRecords(term, asOf)), child).grade;
}

} // namespace

TEST_CASE("In a room of several grades each child keeps its own", "[case-73]") {
  test::Clinic clinic;
  const auto younger = clinic.child("Nell", "Farrowgate");
  const auto older = clinic.child("Nils", "Farrowgate");
  must(clinic.session.moveChild(clinic.by, younger, clinic.school, "K", "K/1", "combined class"));
  must(clinic.session.moveChild(clinic.by, older, clinic.school, "1", "K/1", "combined class"));
  const auto board = must(clinic.session.board(clinic.day));
  REQUIRE(board.size() == 2);
  for (const auto& line : board) {
    CHECK(line.room == "K/1");
    CHECK(line.grade == (line.child == younger ? "K" : "1"));
  }
  const auto today = clinic.clock.now().date();
  CHECK(gradeIn(clinic, clinic.term, today, younger) == "K");
  CHECK(gradeIn(clinic, clinic.term, today, older) == "1");
}

TEST_CASE("A child who was kept back or skipped a grade is told of by school year", "[case-74]") {
  test::Clinic clinic;
  const auto kept = clinic.child("Nell", "Farrowgate");
  const auto skipped = clinic.child("Nils", "Farrowgate");
  const auto first = clinic.clock.now().date();
  clinic.clock.advance(std::chrono::hours(24 * 300));
  clinic.session.confirmClock();
  const auto next = clinic.clock.now().date();
  const auto nextTerm = must(
      clinic.session.enterTerm(clinic.by, {"Fall 2027", next.plusDays(-7), next.plusDays(60), {}}));
  must(clinic.session.moveChild(clinic.by, kept, clinic.school, "2", "8", "kept back"));
  must(clinic.session.moveChild(clinic.by, skipped, clinic.school, "4", "9", "skipped a grade"));
  CHECK(gradeIn(clinic, nextTerm, next, kept) == "2");
  CHECK(gradeIn(clinic, nextTerm, next, skipped) == "4");
  const auto then = must(clinic.session.termRecords(clinic.term, first));
  CHECK(childIn(then, kept).grade == "2");
  CHECK(childIn(then, kept).room == "6");
  CHECK(childIn(then, skipped).grade == "2");
  // A finished term is asked about later, up to its own last day.
  CHECK(gradeIn(clinic, clinic.term, next, skipped) == "2");
}
