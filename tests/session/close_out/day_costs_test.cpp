#include "reports/day/close_out.h"
#include "support/clinic.h"

using namespace gk;
using base::ErrorCode;
using roster::minutes;
using roster::Role;
using test::codeOf;
using test::must;

namespace {

reports::CloseOut costSheetOf(test::Clinic& clinic) {
  return reports::closeOut(must(clinic.session.dayRecords(clinic.day)));
}

roster::DayEffort effortOf(const test::Clinic& clinic, int chairs) {
  return {.day = clinic.day,
          .chairs = chairs,
          .open = minutes(330),
          .people = {{Role::hygienist, minutes(720)}, {Role::coordinator, minutes(360)}},
          .taught = 46};
}

const reports::SupplyLine& supply(const reports::CloseOut& sheet, kit::LotId lot) {
  for (const auto& line : sheet.supplies)
    if (line.lot == lot) return line;
  FAIL("no such supply");
  return sheet.supplies.front();
}

reports::TermRecords termOf(test::Clinic& clinic) {
  return must(clinic.session.termRecords(clinic.term, clinic.clock.now().date()));
}

} // namespace

TEST_CASE("What a day took is said, said again, and kept as the last word of it") {
  test::Clinic clinic;
  CHECK_FALSE(must(clinic.session.lastEffort()));
  CHECK_FALSE(costSheetOf(clinic).effort);
  must(clinic.session.enterEffort(clinic.by, effortOf(clinic, 3)));
  must(clinic.session.enterEffort(clinic.by, effortOf(clinic, 2)));
  const auto records = must(clinic.session.dayRecords(clinic.day));
  REQUIRE(records.efforts.size() == 1);
  CHECK(records.efforts[0].value == effortOf(clinic, 2));
  CHECK(costSheetOf(clinic).effort == effortOf(clinic, 2));
  CHECK(must(clinic.session.lastEffort()) == effortOf(clinic, 2));
  CHECK(codeOf(clinic.session.enterEffort({}, effortOf(clinic, 2))) == ErrorCode::ruleCredential);
  CHECK(codeOf(clinic.session.enterEffort(clinic.by, effortOf(clinic, 99))) ==
        ErrorCode::numberMalformed);
}

TEST_CASE("A lot of which nothing is left is closed, and counting some opens it again") {
  test::Clinic clinic;
  const auto child = clinic.child("Mina");
  clinic.standardVisit(child);
  must(clinic.session.countLot(clinic.by, {clinic.day, clinic.resin, 2, 6}));
  CHECK(supply(costSheetOf(clinic), clinic.resin).left == 6);
  must(clinic.session.countLot(clinic.by, {clinic.day, clinic.resin, 3, 0}));
  const auto line = supply(costSheetOf(clinic), clinic.resin);
  CHECK(line.opened == 3);
  CHECK(line.left == 0);
  CHECK(line.teeth == 4);
  CHECK(line.expiry == must(clinic.session.lots()).front().value.expiry);

  clinic.clock.advance(std::chrono::hours(24));
  const auto tomorrow = must(clinic.session.openDay(clinic.by, {.term = clinic.term,
                                                                .school = clinic.school,
                                                                .date = clinic.clock.now().date(),
                                                                .reason = ""}));
  clinic.day = tomorrow;
  const auto other = clinic.child("Lupe");
  clinic.seat(other);
  clinic.screenFour(other);
  CHECK(codeOf(clinic.session.isolate(clinic.by, clinic.field(other, {16}))) ==
        ErrorCode::ruleMaterial);
  must(clinic.session.countLot(clinic.by, {tomorrow, clinic.resin, 0, 1}));
  CHECK(clinic.session.isolate(clinic.by, clinic.field(other, {16})).has_value());
}

TEST_CASE("A count of packages below zero, or of no lot, is refused") {
  test::Clinic clinic;
  CHECK(codeOf(clinic.session.countLot(clinic.by, {clinic.day, clinic.resin, -1, {}})) ==
        ErrorCode::numberMalformed);
  CHECK(codeOf(clinic.session.countLot(clinic.by, {clinic.day, kit::LotId(base::Uuid{}), 1, {}})) ==
        ErrorCode::notFound);
}

TEST_CASE("A school's meal eligibility is replaced, not doubled") {
  test::Clinic clinic;
  must(clinic.session.enterEligibility(clinic.by, {clinic.term, clinic.school, 80, "2025 list"}));
  must(clinic.session.enterEligibility(clinic.by, {clinic.term, clinic.school, 82, "2026 list"}));
  const auto records = termOf(clinic);
  REQUIRE(records.eligibility.size() == 1);
  CHECK(records.eligibility[0].value.percent == 82);
  CHECK(codeOf(clinic.session.enterEligibility(
            clinic.by, {clinic.term, clinic.school, 101, "a list"})) == ErrorCode::numberMalformed);
  CHECK(codeOf(clinic.session.enterEligibility(clinic.by, {clinic.term, clinic.school, 50, ""})) ==
        ErrorCode::textMalformed);
}

TEST_CASE("What a form says of a child's background is replaced by a later form's") {
  test::Clinic clinic;
  const auto child = clinic.child("Mina");
  must(clinic.session.enterBackground(clinic.by, {child, {}, roster::Payer::chip}));
  const roster::Background later{
      child, {roster::Ethnicity::white, roster::Ethnicity::asian}, roster::Payer::medicaid};
  must(clinic.session.enterBackground(clinic.by, later));
  const auto records = termOf(clinic);
  REQUIRE(records.backgrounds.size() == 1);
  CHECK(records.backgrounds[0].value == later);
}

TEST_CASE("A laptop counts as backed up only while nothing was written on it since") {
  test::Clinic clinic;
  clinic.standardVisit(clinic.child("Mina"));
  const auto line = [&] {
    const auto sheet = costSheetOf(clinic);
    REQUIRE(sheet.laptops.size() == 1);
    return sheet.laptops.front();
  };
  CHECK_FALSE(line().isBackedUp());
  CHECK(line().entries > 10);
  must(clinic.session.noteBackup(clinic.by, {clinic.day, "logbook.gkbook"}));
  CHECK(line().isBackedUp());
  CHECK(line().file == "logbook.gkbook");
  clinic.clock.advance(std::chrono::minutes(5));
  clinic.standardVisit(clinic.child("Lupe"));
  CHECK_FALSE(line().isBackedUp());
  CHECK(codeOf(clinic.session.noteBackup(clinic.by, {clinic.day, ""})) == ErrorCode::textMalformed);
}
