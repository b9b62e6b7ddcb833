#include "reports/day/close_out.h"
#include "support/clinic.h"

#include <algorithm>

using namespace gk;
using kit::ReadinessAnswer;
using kit::ReadinessItem;
using test::codeOf;
using test::must;

TEST_CASE("The morning's readiness is written item by item and read back") {
  test::Clinic clinic;
  CHECK(must(clinic.session.readiness(clinic.day)).empty());
  must(clinic.session.answerReadiness(clinic.by,
                                      {clinic.day, ReadinessItem::sterilizer, ReadinessAnswer::done,
                                       "", "spore test of 2026-11-13 passed"}));
  const auto answers = must(clinic.session.readiness(clinic.day));
  REQUIRE(answers.size() == 1);
  CHECK(answers[0].value.detail == "spore test of 2026-11-13 passed");
  CHECK(answers[0].stamp.by.author == clinic.hygienist);
}

TEST_CASE("An item that is answered again keeps its first answer in the history") {
  test::Clinic clinic;
  const auto first = must(clinic.session.answerReadiness(
      clinic.by, {clinic.day, ReadinessItem::airLine, ReadinessAnswer::failed, "wet", ""}));
  const auto second = must(clinic.session.answerReadiness(
      clinic.by, {clinic.day, ReadinessItem::airLine, ReadinessAnswer::done, "", "drained"}));
  CHECK(first == second);
  const auto answers = must(clinic.session.readiness(clinic.day));
  REQUIRE(answers.size() == 1);
  CHECK(answers[0].value.answer == ReadinessAnswer::done);
  CHECK(answers[0].stamp.supersedes.has_value());
}

TEST_CASE("Nothing is passed over without a reason, a name and an open day") {
  test::Clinic clinic;
  const kit::ReadinessCheck over{clinic.day, ReadinessItem::eyes, ReadinessAnswer::passedOver, "",
                                 ""};
  CHECK(codeOf(clinic.session.answerReadiness(clinic.by, over)) == base::ErrorCode::ruleReason);
  auto said = over;
  said.reason = "the bag comes at ten";
  CHECK(codeOf(clinic.session.answerReadiness({}, said)) == base::ErrorCode::ruleCredential);
  must(clinic.session.cancelDay(clinic.by, clinic.day, "snow"));
  CHECK(codeOf(clinic.session.answerReadiness(clinic.by, said)) == base::ErrorCode::ruleDayOpen);
}

TEST_CASE("Care goes on without readiness and the close-out lists what failed or was passed over") {
  test::Clinic clinic;
  const auto child = clinic.child("Mina");
  clinic.seat(child); // no one has answered anything
  const auto answer = [&](ReadinessItem item, ReadinessAnswer how, const char* why) {
    must(clinic.session.answerReadiness(clinic.by, {clinic.day, item, how, why, ""}));
  };
  answer(ReadinessItem::airLine, ReadinessAnswer::failed, "drops on the mirror");
  answer(ReadinessItem::eyes, ReadinessAnswer::passedOver, "the bag comes at ten");
  answer(ReadinessItem::suctionAndWater, ReadinessAnswer::notApplicable, "hand suction");
  answer(ReadinessItem::clock, ReadinessAnswer::done, "");
  const auto sheet = reports::closeOut(must(clinic.session.dayRecords(clinic.day)));
  std::vector<std::string> lines;
  for (const auto& line : sheet.exceptions)
    if (line.kind == reports::ExceptionKind::notReady)
      lines.push_back(line.what + ": " + line.reason);
  REQUIRE(lines.size() == 2);
  CHECK(lines[0] == "equipment check, air line: failed: drops on the mirror");
  CHECK(lines[1] == "equipment check, eye protection: skipped: the bag comes at ten");
}

TEST_CASE("An answer of the morning can be taken back") {
  test::Clinic clinic;
  must(clinic.session.answerReadiness(
      clinic.by, {clinic.day, ReadinessItem::clock, ReadinessAnswer::done, "", ""}));
  CHECK(must(clinic.session.undo(clinic.by, {base::Station::equipment, clinic.day})) ==
        "Equipment check");
  CHECK(must(clinic.session.readiness(clinic.day)).empty());
}
