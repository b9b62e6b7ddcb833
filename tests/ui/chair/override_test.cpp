#include "reports/records/inputs.h"
#include "ui/fixtures/chair_fixture.h"

using namespace gk;

TEST_CASE("Without consent the chair opens only when a clinician gives her name and a reason") {
  test::Chair chair;
  const auto nils = chair.clinic.childWithoutForm("Nils", "Farrowgate");
  chair.seat(nils);
  CHECK(test::must(chair.clinic.session.dayRecords(chair.clinic.day)).seatings.empty());
  REQUIRE(chair.shows("overrideButton"));
  chair.press("V");
  chair.type(QStringLiteral("mother said yes on the phone at 10:05"));
  CHECK_FALSE(chair.shows("overrideButton"));
  chair.press(Qt::Key_Return);
  const auto records = test::must(chair.clinic.session.dayRecords(chair.clinic.day));
  REQUIRE(records.overrides.size() == 1);
  CHECK(records.overrides[0].value.clinician == chair.clinic.hygienist);
  CHECK(records.seatings.size() == 1);
  chair.screenFour();
  CHECK(test::must(chair.clinic.session.screenings(nils)).size() == 1);
}

TEST_CASE("After the dentist's agreement ended the chair asks the clinician for a reason, once",
          "[case-114]") {
  test::Chair chair;
  auto program = test::must(chair.clinic.session.program()).value;
  program.agreementUntil = test::must(base::Date::parse("2026-11-01"));
  test::must(chair.clinic.session.correctProgram(chair.clinic.by, program, "from the letter"));
  chair.seat(chair.clinic.child("Mina"));
  chair.screenFour();
  chair.press(Qt::Key_Return);
  CHECK(test::must(chair.clinic.session.dayRecords(chair.clinic.day)).fields.empty());
  CHECK(chair.text("askQuestion").contains(QStringLiteral("agreement ended")));
  chair.press(Qt::Key_Escape);
  CHECK(test::must(chair.clinic.session.dayRecords(chair.clinic.day)).agreementOverrides.empty());
  chair.press(Qt::Key_Return);
  chair.type(QStringLiteral("Dr. Hartgrove renewed it by phone"));
  auto records = test::must(chair.clinic.session.dayRecords(chair.clinic.day));
  CHECK(records.fields.size() == 1);
  REQUIRE(records.agreementOverrides.size() == 1);
  CHECK(records.agreementOverrides[0].value.clinician == chair.clinic.hygienist);
  chair.etchToFrosty();
  for (int exposure = 0; exposure < 4; ++exposure)
    chair.cure();
  chair.press("55");
  chair.sealHalf(); // the other side is not asked about
  records = test::must(chair.clinic.session.dayRecords(chair.clinic.day));
  CHECK(records.fields.size() == 2);
  CHECK(records.agreementOverrides.size() == 1);
}
