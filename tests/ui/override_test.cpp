#include "chair_fixture.h"

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
