#include "reports/records/inputs.h"
#include "session/second_laptop.h"

#include <algorithm>

using namespace gk;
using base::ErrorCode;
using followup::MergeVerdict;
using test::codeOf;
using test::enrollAda;
using test::must;
using test::seatOn;
using test::Second;
using test::seenTwice;
using test::sheetOf;

namespace {

void keep(test::Clinic& clinic, std::size_t side) {
  const auto question = sheetOf(clinic).questions.at(0);
  must(clinic.session.answerMerge(clinic.by, {.day = clinic.day,
                                              .child = *question.child,
                                              .kept = question.sides.at(side).laptop,
                                              .verdict = MergeVerdict::keptOne}));
}

base::Recorded<followup::MergeAnswer> theAnswer(test::Clinic& clinic) {
  const auto sheet = sheetOf(clinic);
  REQUIRE(sheet.answered.size() == 1);
  return sheet.answered.front().answer;
}

void reopen(test::Clinic& clinic) {
  must(clinic.session.reopenMerge(clinic.by, theAnswer(clinic), "the wrong one was kept"));
}

/// What stands of a child's day, without whose word it is now.
struct Standing {
  std::vector<chairside::Screening> screenings;
  std::vector<chairside::Placement> placements;
  std::vector<chairside::StepRun> steps;
  std::vector<chairside::DayOutcome> outcomes;
  std::vector<chairside::FieldId> fields;
  bool operator==(const Standing&) const = default;
};

template <class T>
std::vector<T> valuesOf(const reports::Rows<T>& rows) {
  std::vector<T> values;
  for (const auto& row : rows)
    values.push_back(row.value);
  return values;
}

Standing standingOf(test::Clinic& clinic) {
  const auto records = must(clinic.session.dayRecords(clinic.day));
  Standing out{valuesOf(records.screenings),
               valuesOf(records.placements),
               valuesOf(records.steps),
               valuesOf(records.outcomes),
               {}};
  for (const auto& row : records.fields)
    out.fields.push_back(row.id);
  return out;
}

} // namespace

TEST_CASE("What was answered is shown with who said it and can be asked again", "[case-65]") {
  test::Clinic clinic;
  const auto mina = seenTwice(clinic);
  keep(clinic, 0);
  const auto sheet = sheetOf(clinic);
  CHECK(sheet.questions.empty());
  REQUIRE(sheet.answered.size() == 1);
  CHECK(sheet.answered.front().shown == "Mina Hollowell");
  CHECK(sheet.answered.front().what == "two visits");
  CHECK(
      sheet.answered.front().words ==
      "kept: 9:00 AM OF: screened, 4 teeth sealed, varnish, sealed, complete; the other is in the "
      "history");
  CHECK(sheet.answered.front().who == "OF");

  reopen(clinic);
  const auto again = sheetOf(clinic);
  CHECK(again.answered.empty());
  REQUIRE(again.questions.size() == 1);
  CHECK(again.questions.front().what == "screened on both");
  REQUIRE(again.questions.front().sides.size() == 2);
  CHECK(again.questions.front().sides[1].words == "9:05 AM OF: screened"); // as it was first said
  CHECK_FALSE(again.mayClose());
  CHECK(must(clinic.session.screenings(mina)).size() == 2);
  CHECK(must(clinic.session.findings()).empty());
}

TEST_CASE("A visit that was dropped comes back whole, and the other may be kept instead",
          "[case-65]") {
  test::Clinic clinic;
  seenTwice(clinic);
  const auto before = standingOf(clinic);
  keep(clinic, 1); // the one without sealants
  CHECK(sheetOf(clinic).counts.firstMolars == 0);
  reopen(clinic);
  const auto after = standingOf(clinic);
  CHECK(after.steps == before.steps); // in their order
  CHECK(after.fields == before.fields);
  CHECK(after.outcomes == before.outcomes);
  CHECK(after.screenings.size() == 2);
  CHECK(after.placements.size() == before.placements.size());
  // Whose visit a row is of is not changed by its being said again.
  const auto sheet = sheetOf(clinic);
  REQUIRE(sheet.questions.size() == 1);
  std::vector<std::optional<base::LaptopId>> laptops;
  for (const auto& side : sheet.questions.front().sides)
    laptops.push_back(side.laptop);
  CHECK(std::ranges::count(laptops, std::optional(clinic.laptop)) == 1);
  const bool isFirst = laptops.front() == clinic.laptop;
  keep(clinic, isFirst ? 0 : 1);
  CHECK(sheetOf(clinic).counts.firstMolars == 4);
  CHECK(sheetOf(clinic).mayClose());
  reopen(clinic);
  CHECK(sheetOf(clinic).questions.size() == 1); // as often as need be
  CHECK(must(clinic.session.findings()).empty());
}

TEST_CASE("Both happened can be answered again as well", "[case-65]") {
  test::Clinic clinic;
  const auto mina = seenTwice(clinic);
  must(clinic.session.answerMerge(clinic.by,
                                  {.day = clinic.day, .child = mina, .note = "after lunch"}));
  CHECK(sheetOf(clinic).answered.front().words == "both happened, after lunch");
  CHECK(sheetOf(clinic).mayClose());
  reopen(clinic);
  CHECK_FALSE(sheetOf(clinic).mayClose());
  keep(clinic, 0);
  CHECK(sheetOf(clinic).mayClose());
}

TEST_CASE("Two cards that were made one become two again with what was said of each", "[case-65]") {
  test::Clinic clinic;
  Second second(clinic, "second.gkbook", 2);
  const auto here = enrollAda(clinic.session, clinic, "4001");
  const auto there = enrollAda(second.session, clinic, "4002");
  seatOn(second.session, clinic, there);
  must(clinic.session.absorb(second.handOver()));
  must(clinic.session.answerMerge(
      clinic.by,
      {.day = clinic.day, .child = here, .other = there, .verdict = MergeVerdict::keptOne}));
  CHECK(sheetOf(clinic).answered.front().words == "one student: the other card is in the history");
  CHECK(must(clinic.session.consents(here)).size() == 2);

  reopen(clinic);
  CHECK(sheetOf(clinic).questions.size() == 1);
  CHECK(must(clinic.session.identity(there)).shownName() == "Ada Quill");
  CHECK(must(clinic.session.findChildren("Quill")).size() == 2);
  CHECK(must(clinic.session.consents(here)).size() == 1);
  CHECK(must(clinic.session.consents(there)).size() == 1);
  const auto records = must(clinic.session.dayRecords(clinic.day));
  REQUIRE(records.seatings.size() == 1);
  CHECK(records.seatings.front().value.child == there);
  CHECK(must(clinic.session.findings()).empty());
}

TEST_CASE("Asking again wants a person, a reason and a day that is open") {
  test::Clinic clinic;
  seenTwice(clinic);
  keep(clinic, 0);
  const auto answer = theAnswer(clinic);
  CHECK(codeOf(clinic.session.reopenMerge(clinic.by, answer, " ")) == ErrorCode::ruleReason);
  CHECK(codeOf(clinic.session.reopenMerge({}, answer, "wrong")) == ErrorCode::ruleCredential);
  must(clinic.session.signDay(clinic.by, {clinic.day, clinic.hygienist, clinic.coordinator}));
  CHECK(codeOf(clinic.session.reopenMerge(clinic.by, answer, "wrong")) == ErrorCode::ruleDayOpen);
  CHECK(sheetOf(clinic).answered.size() == 1);
}

TEST_CASE("An answer taken back on one laptop is taken back on the other", "[case-65]") {
  test::Clinic clinic;
  seenTwice(clinic);
  Second third(clinic, "third.gkbook", 5);
  keep(clinic, 1);
  const auto path = *clinic.folder / "answered";
  must(clinic.session.backUp(path));
  must(third.session.absorb(path));
  const auto records = must(third.session.dayRecords(clinic.day));
  const auto sheet = reports::closeOut(records);
  REQUIRE(sheet.answered.size() == 1);
  must(third.session.reopenMerge(clinic.by, sheet.answered.front().answer, "the wrong one"));
  must(clinic.session.absorb(third.handOver()));
  CHECK(sheetOf(clinic).questions.size() == 1);
  keep(clinic, 0);
  CHECK(sheetOf(clinic).counts.firstMolars == 4);
}
