#include "ui/fixtures/chair_fixture.h"
#include "ui/fixtures/pictures.h"

using namespace gk;
using test::must;

// Pictures for the guide and for looking at: test_ui "[.pictures]"; fixtures/pictures.h says where.
TEST_CASE("The stages of a visit as pictures", "[.pictures]") {
  test::Chair chair;
  const auto picture = [&](const char* name) {
    test::savePicture(*chair.page, QStringLiteral("chair-") + QString::fromLatin1(name));
  };
  picture("0-empty");
  const auto mina = chair.clinic.child("Mina", "Tolliver-Reed");
  chair.clinic.child("Mina", "Tolliver-Reed");
  must(chair.clinic.session.enterFlag(chair.clinic.by,
                                      {mina, roster::FlagKind::latexAllergy,
                                       roster::FlagAction::stop, "rash from gloves", false, ""}));
  must(chair.clinic.session.enterFlag(chair.clinic.by,
                                      {mina, roster::FlagKind::asthma, roster::FlagAction::ask,
                                       "inhaler in school bag", false, ""}));
  REQUIRE(chair.page->take(mina, chair.clinic.day));
  picture("1-identity");
  chair.press(Qt::Key_PageDown); // the alert is read first
  chair.press(Qt::Key_Left);
  picture("1-identity-known");
  chair.press(Qt::Key_Return);
  picture("2-screening-empty");
  chair.press("ZSEC");
  picture("3-screening-half");
  chair.press("AS55");
  picture("4-screening-done");
  chair.press(Qt::Key_Return);
  picture("5-isolation");
  chair.press(Qt::Key_Return);
  picture("6-etch-ready");
  chair.press(Qt::Key_Space);
  chair.run(11);
  picture("7-etching");
  chair.run(10);
  chair.press(Qt::Key_Space);
  chair.run(4);
  picture("8-rinsing");
  chair.run(6);
  picture("8-frosty");
  chair.press("5W");
  picture("9-wet-question");
  chair.press(Qt::Key_Return);
  picture("10-wet");
  chair.etchToFrosty();
  chair.press(Qt::Key_Space);
  chair.run(11);
  picture("11-curing");
  chair.press(Qt::Key_Escape);
  picture("12-light-stopped");
  chair.press(Qt::Key_Return);
  for (int exposure = 0; exposure < 4; ++exposure)
    chair.cure();
  picture("13-check");
  chair.press("I");
  picture("14-who");
  chair.press("I55");
  chair.press("X");
  picture("15-stop");
  chair.press(Qt::Key_Return);
  picture("16-finish");
  chair.press("5"); // wiped, bite fine
  chair.press(Qt::Key_Return);
  picture("17-referral");
  REQUIRE(chair.shows("askBar"));
}
