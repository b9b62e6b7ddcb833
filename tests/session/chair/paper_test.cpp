#include "support/clinic.h"

using namespace gk;
using base::ErrorCode;
using test::codeOf;
using test::must;

TEST_CASE(
    "A visit written on paper is typed later under its own day, with number, typist and checker",
    "[case-69]") {
  test::Clinic clinic;
  const auto mina = clinic.child("Mina");
  const auto careOn = clinic.clock.now().date();
  clinic.clock.advance(std::chrono::hours(26)); // the laptop is back the day after
  clinic.standardVisit(mina);
  must(clinic.session.enterPaper(clinic.by, {mina, clinic.day, "P-017", clinic.coordinator}));
  const auto sheets = must(clinic.session.paperSheets(clinic.day));
  REQUIRE(sheets.size() == 1);
  CHECK(sheets.front().value.number == "P-017");
  CHECK(sheets.front().value.checker == clinic.coordinator);
  CHECK(sheets.front().stamp.by.recorder == clinic.assistant);
  CHECK(must(clinic.session.day(sheets.front().value.day)).value.date == careOn);
  CHECK(sheets.front().stamp.at.date() == careOn.plusDays(1));
  CHECK(must(clinic.session.board(clinic.day)).front().paper == "P-017");
  CHECK(must(clinic.session.undo(clinic.by, {base::Station::board, clinic.day})) ==
        "Paper sheet, Mina H.");
  CHECK(must(clinic.session.board(clinic.day)).front().paper.empty());
}

TEST_CASE("A paper sheet has a number, one child, and a checker who did not type it", "[case-69]") {
  test::Clinic clinic;
  const auto mina = clinic.child("Mina");
  const auto wren = clinic.child("Wren");
  const auto enter = [&](roster::ChildId child, const char* number, base::MemberId checker) {
    return clinic.session.enterPaper(clinic.by, {child, clinic.day, number, checker});
  };
  CHECK(codeOf(enter(mina, "", clinic.coordinator)) == ErrorCode::rulePaper);
  CHECK(codeOf(enter(mina, "P-017", clinic.assistant)) == ErrorCode::rulePaper);
  must(enter(mina, "P-017", clinic.coordinator));
  CHECK(codeOf(enter(wren, "P-017", clinic.coordinator)) == ErrorCode::rulePaper);
  CHECK(codeOf(enter(mina, "P-018", clinic.coordinator)) == ErrorCode::rulePaper);
  must(enter(wren, "P-018", clinic.coordinator));
}
