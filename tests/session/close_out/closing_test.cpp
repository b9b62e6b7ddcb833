#include "reports/day/close_out.h"
#include "support/clinic.h"

#include <algorithm>

using namespace gk;
using base::ErrorCode;
using followup::LetterState;
using followup::Paper;
using reports::BlockerKind;
using reports::ExceptionKind;
using test::codeOf;
using test::must;

namespace {

reports::CloseOut closeOutOf(test::Clinic& clinic) {
  return reports::closeOut(must(clinic.session.dayRecords(clinic.day)));
}

std::vector<std::string> blocking(test::Clinic& clinic, BlockerKind kind) {
  std::vector<std::string> found;
  for (const auto& one : closeOutOf(clinic).blockers)
    if (one.kind == kind) found.push_back(one.shown + ": " + one.what);
  return found;
}

bool isException(test::Clinic& clinic, ExceptionKind kind, const std::string& reason) {
  const auto sheet = closeOutOf(clinic);
  return std::ranges::any_of(
      sheet.exceptions, [&](const auto& one) { return one.kind == kind && one.reason == reason; });
}

followup::Letter letterAbout(const test::Clinic& clinic, roster::ChildId child) {
  return {.child = child,
          .day = clinic.day,
          .language = "en",
          .facts = "checked",
          .templateDigest = std::string(64, 'a'),
          .textDigest = std::string(64, 'b'),
          .written = *base::Date::parse("2026-11-17")};
}

kit::MeterReading readingOf(kit::LightId light, int value) {
  return {light, *base::Date::parse("2026-11-17"), {value}, true, "M-1", true};
}

/// One tooth cured with this light.
void cureWith(test::Clinic& clinic, roster::ChildId child, int iso, kit::LightId light) {
  const auto field = must(clinic.session.isolate(clinic.by, clinic.field(child, {iso})));
  clinic.etchToFlow(field, {iso});
  auto cure = clinic.run(field, chairside::Step::cure, {iso}, 20);
  cure.light = light;
  must(clinic.session.enterStep(clinic.by, cure));
  must(clinic.session.enterStep(clinic.by, clinic.run(field, chairside::Step::check, {iso})));
}

} // namespace

TEST_CASE("Sheets that were printed are counted in before the day is signed") {
  test::Clinic clinic;
  must(clinic.session.countOut(clinic.by, clinic.day, Paper::runnersList, 1));
  must(clinic.session.countOut(clinic.by, clinic.day, Paper::runnersList, 1));
  const std::vector<std::string> missing{
      "runner's list: 2 out, 2 unaccounted for; count them in, or say where they are"};
  CHECK(blocking(clinic, BlockerKind::paperMissing) == missing);
  CHECK(codeOf(clinic.session.signDay(clinic.by, {clinic.day, clinic.hygienist,
                                                  clinic.coordinator})) == ErrorCode::ruleDayOpen);
  must(clinic.session.countPaper(
      clinic.by,
      {.day = clinic.day, .paper = Paper::runnersList, .out = 2, .back = 1, .shredded = 1}));
  CHECK(blocking(clinic, BlockerKind::paperMissing).empty());
  must(clinic.session.signDay(clinic.by, {clinic.day, clinic.hygienist, clinic.coordinator}));
}

TEST_CASE("A sheet that is missing needs a reason, which then is an exception") {
  test::Clinic clinic;
  followup::PaperCount count{.day = clinic.day, .paper = Paper::other, .out = 3, .back = 2};
  must(clinic.session.countPaper(clinic.by, count));
  CHECK(blocking(clinic, BlockerKind::paperMissing).size() == 1);
  count.reason = "torn up by a teacher, pieces seen";
  must(clinic.session.countPaper(clinic.by, count));
  CHECK(blocking(clinic, BlockerKind::paperMissing).empty());
  CHECK(isException(clinic, ExceptionKind::paperMissing, count.reason));
  // One more print is one more sheet to account for.
  must(clinic.session.countOut(clinic.by, clinic.day, Paper::other, 1));
  CHECK(blocking(clinic, BlockerKind::paperMissing).size() == 1);
}

TEST_CASE("A count below zero is refused") {
  test::Clinic clinic;
  CHECK(codeOf(clinic.session.countPaper(clinic.by,
                                         {.day = clinic.day, .paper = Paper::other, .out = -1})) ==
        ErrorCode::numberMalformed);
}

TEST_CASE("Letters that were printed are counted by their own records") {
  test::Clinic clinic;
  const auto mina = clinic.child("Mina");
  const auto wren = clinic.child("Wren");
  must(clinic.session.enterLetters(clinic.by,
                                   {letterAbout(clinic, mina), letterAbout(clinic, wren)}));
  CHECK(blocking(clinic, BlockerKind::paperMissing).size() == 1);
  const auto letters = must(clinic.session.dayRecords(clinic.day)).letters;
  must(clinic.session.moveLetters(clinic.by, {letters[0]}, LetterState::handed));
  const auto line = closeOutOf(clinic).papers.front();
  CHECK(line.count.out == 2);
  CHECK(line.count.handed == 1);
  CHECK(line.known == 1);
  must(clinic.session.countPaper(
      clinic.by, {.day = clinic.day, .paper = Paper::letters, .out = 2, .back = 1}));
  CHECK(blocking(clinic, BlockerKind::paperMissing).empty());
  // It was handed over after all: now one more came in than went out.
  must(clinic.session.moveLetters(clinic.by, {letters[1]}, LetterState::handed));
  CHECK(blocking(clinic, BlockerKind::paperMissing).size() == 1);
}

TEST_CASE("A letter that is only queued is no paper yet") {
  test::Clinic clinic;
  auto letter = letterAbout(clinic, clinic.child("Mina"));
  letter.state = LetterState::queued;
  must(clinic.session.enterLetters(clinic.by, {letter}));
  CHECK(closeOutOf(clinic).papers.empty());
}

TEST_CASE("Until someone says what else went out the close-out lists that no one did") {
  test::Clinic clinic;
  CHECK(isException(clinic, ExceptionKind::paperNotCounted, ""));
  must(clinic.session.countPaper(clinic.by, {.day = clinic.day, .paper = Paper::other}));
  CHECK_FALSE(isException(clinic, ExceptionKind::paperNotCounted, ""));
  CHECK(closeOutOf(clinic).papers.empty());
}

TEST_CASE("A light that was amber in the morning is read again after its last cure") {
  test::Clinic clinic;
  const auto child = clinic.child("Mina");
  clinic.seat(child);
  clinic.screenFour(child);
  const auto amber = must(clinic.session.enterLight(
      clinic.by, {"L-5", kit::LightType::led, {500}, {1000}, true, "M-1"}));
  must(clinic.session.enterReading(clinic.by, readingOf(amber, 880)));
  CHECK(blocking(clinic, BlockerKind::lightNotRead).empty()); // nothing was cured with it
  cureWith(clinic, child, 16, amber);
  const std::vector<std::string> wanted{"L-5: amber this morning; read it now, or say why not"};
  CHECK(blocking(clinic, BlockerKind::lightNotRead) == wanted);
  must(clinic.session.enterReading(clinic.by, readingOf(amber, 870)));
  CHECK(blocking(clinic, BlockerKind::lightNotRead).empty());
  cureWith(clinic, child, 26, amber);
  CHECK(blocking(clinic, BlockerKind::lightNotRead).size() == 1);
  CHECK(codeOf(clinic.session.passOverLight(clinic.by, {clinic.day, amber, ""})) ==
        ErrorCode::ruleReason);
  must(clinic.session.passOverLight(clinic.by, {clinic.day, amber, "the meter went ahead"}));
  CHECK(blocking(clinic, BlockerKind::lightNotRead).empty());
  CHECK(isException(clinic, ExceptionKind::lightPassedOver, "the meter went ahead"));
}

TEST_CASE("When the light was changed both are read before leaving, and one weak is told") {
  test::Clinic clinic;
  const auto child = clinic.child("Mina");
  clinic.seat(child);
  clinic.screenFour(child);
  cureWith(clinic, child, 16, clinic.light);
  CHECK(blocking(clinic, BlockerKind::lightNotRead).empty()); // green, and the only one
  cureWith(clinic, child, 26, clinic.spare);
  CHECK(blocking(clinic, BlockerKind::lightNotRead).size() == 2);
  must(clinic.session.enterReading(clinic.by, readingOf(clinic.light, 860)));
  must(clinic.session.enterReading(clinic.by, readingOf(clinic.spare, 900)));
  CHECK(blocking(clinic, BlockerKind::lightNotRead).empty());
  // 860 of 1080 is red: what it cured today is looked at.
  const auto sheet = closeOutOf(clinic);
  CHECK(std::ranges::any_of(sheet.exceptions, [](const auto& one) {
    return one.kind == ExceptionKind::redLight && one.what.starts_with("L-1 read 860");
  }));
}
