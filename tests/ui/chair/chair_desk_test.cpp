#include "reports/records/inputs.h"
#include "ui/fixtures/chair_fixture.h"

using namespace gk;
using namespace gk::test;
using namespace Qt::Literals::StringLiterals;

namespace {

/// A cavity and nothing to seal, varnish on; what is left is the end of the visit.
void chartCavity(Chair& chair, roster::ChildId child) {
  chair.seat(child);
  chair.press("ZCFKG55"); // the cavity answers "untreated decay"
  chair.press(Qt::Key_Return);
  REQUIRE(chair.shows("finishPanel"));
  chair.press("V");
}

} // namespace

TEST_CASE("A charted cavity is referred at the chair once, and is in the letter and the close-out",
          "[case-300]") {
  Chair chair;
  const auto mina = chair.clinic.child("Mina");
  chartCavity(chair, mina);
  CHECK(chair.text("finishState")
            .contains(u"Referral: not decided (untreated decay: "
                      "upper right first molar)"_s));
  chair.press(Qt::Key_Return);
  CHECK(chair.text("askQuestion").contains(u"See a dentist by"_s));
  CHECK(chair.page->isOccupied());
  chair.press("2"); // community clinic
  CHECK_FALSE(chair.page->isOccupied());
  const auto referrals = must(chair.clinic.session.referrals(mina));
  REQUIRE(referrals.size() == 1);
  CHECK(referrals.front().value.to == followup::ReferredTo::communityClinic);
  CHECK(referrals.front().value.due == chair.clinic.clock.now().date().plusDays(42));
  const auto records = must(chair.clinic.session.dayRecords(chair.clinic.day));
  CHECK(records.referrals.size() == 1);
  // Decided once: a child who comes back is not asked again.
  chair.seat(mina);
  CHECK(chair.text("finishState").contains(u"Referral: community clinic, by Dec 29, 2026"_s));
  chair.press(Qt::Key_Return);
  CHECK_FALSE(chair.page->isOccupied());
  CHECK(must(chair.clinic.session.referrals(mina)).size() == 1);
}

TEST_CASE("A referral may be left to the close-out, made before the end by its key, and undone",
          "[case-300]") {
  Chair chair;
  const auto mina = chair.clinic.child("Mina");
  chartCavity(chair, mina);
  chair.press("D1");
  CHECK(chair.text("finishState").contains(u"Referral: own dentist"_s));
  chair.press("U");
  CHECK(chair.message().contains(u"Referral"_s));
  CHECK(must(chair.clinic.session.referrals(mina)).empty());
  chair.press(Qt::Key_Return);
  chair.press("6"); // decide at close-out
  CHECK_FALSE(chair.page->isOccupied());
  CHECK(must(chair.clinic.session.referrals(mina)).empty());
}

TEST_CASE("A lot that no one has entered is scanned into use at the chair in six keys",
          "[case-303]") {
  Chair chair;
  const auto mina = chair.clinic.child("Mina");
  chair.seat(mina);
  chair.screenFour();
  chair.keys = 0;
  chair.page->scanned(u"RF-2706"_s); // the scanner's own
  CHECK(chair.text("askQuestion").contains(u"RF-2706 is no lot in this logbook yet"_s));
  chair.press("1");
  auto* line = chair.page->findChild<QLineEdit*>(u"askLine"_s);
  REQUIRE(line->isVisible());
  QTest::keyClicks(line, u"0627"_s);
  chair.keys += 4;
  chair.press(Qt::Key_Return);
  CHECK(chair.keys <= 8);
  const auto lots = must(chair.clinic.session.lots());
  const auto& made = lots.back();
  CHECK(made.value.lot == "RF-2706");
  CHECK(made.value.expiry == base::parseExpiry("2027-06").value());
  CHECK(chair.acting.now().sealant == made.id);
  CHECK(chair.message().contains(u"RF-2706 is added and in use"_s));
  // Undo at the chair goes on to be of the child.
  chair.press("U");
  CHECK(must(chair.clinic.session.screenings(mina)).empty());
}

TEST_CASE("A new lot is typed as it is printed, in its own characters and three keys besides",
          "[case-303]") {
  Chair chair;
  chair.seat(chair.clinic.child("Mina"));
  chair.screenFour();
  chair.keys = 0;
  chair.press("L");
  QTest::keyClick(chair.page.get(), 'R'); // no option's key, so it begins the number
  auto* line = chair.page->findChild<QLineEdit*>(u"askLine"_s);
  REQUIRE(line->isVisible());
  QTest::keyClicks(line, u"F-2706 0627"_s);
  const int characters = 12;
  chair.keys += characters;
  CHECK(line->text() == u"RF-2706 0627"_s);
  chair.press(Qt::Key_Return);
  CHECK(chair.text("askQuestion").startsWith(u"RF-2706, expires Jun 30, 2027, is no lot"_s));
  const auto* first = chair.page->findChild<QPushButton*>(u"askOption1"_s);
  CHECK(first->text().contains(u"Resin Fern"_s)); // the material in use
  chair.press(Qt::Key_Return);
  CHECK(chair.keys == characters + 3);
  const auto made = must(chair.clinic.session.lots()).back();
  CHECK(made.value.lot == "RF-2706");
  CHECK(made.value.material == "Resin Fern");
  CHECK(made.value.expiry == base::parseExpiry("2027-06").value());
  CHECK(chair.acting.now().sealant == made.id);
}

TEST_CASE("A new lot's number without an expiry is asked for the rest, and a known one is offered",
          "[case-303]") {
  Chair chair;
  chair.seat(chair.clinic.child("Mina"));
  chair.screenFour();
  chair.press("L");
  QTest::keyClick(chair.page.get(), 'X');
  chair.type(u"XF 12"_s); // a space does not make an expiry
  CHECK(chair.text("askQuestion").startsWith(u"XF 12 is no lot"_s));
  chair.press(Qt::Key_Return);
  CHECK(chair.text("askQuestion").contains(u"new lot XF 12: expires when?"_s));
  chair.press(Qt::Key_Escape);
  chair.press("L");
  QTest::keyClick(chair.page.get(), 'R');
  chair.type(ui::toQt(must(chair.clinic.session.lots()).front().value.lot));
  CHECK(chair.text("askQuestion").startsWith(u"Switch to "_s));
}

TEST_CASE("A package's own code says lot and expiry, so that one key is left", "[case-303]") {
  Chair chair;
  chair.seat(chair.clinic.child("Mina"));
  chair.screenFour();
  chair.page->scanned(u"01095060001343521727063010RF2706"_s);
  chair.press("1");
  const auto made = must(chair.clinic.session.lots()).back();
  CHECK(made.value.lot == "RF2706");
  CHECK(made.value.expiry == base::parseExpiry("2027-06").value());
  CHECK(chair.acting.now().sealant == made.id);
  chair.page->scanned(u"(01)09506000134352(10)RF2706"_s); // known by now
  CHECK(chair.text("askQuestion").contains(u"Switch to"_s));
}

TEST_CASE("A new lot that has expired or that the child may not have is kept and not used",
          "[case-303]") {
  Chair chair;
  const auto mina = chair.clinic.child("Mina");
  chair.seat(mina);
  chair.screenFour();
  const auto before = chair.acting.now().sealant;
  chair.page->scanned(u"RF-2501"_s);
  chair.press("1");
  chair.type(u"13/25"_s); // no month
  CHECK(chair.message().contains(u"no month and year"_s));
  chair.type(u"01/25"_s);
  CHECK(chair.acting.now().sealant == before);
  CHECK(chair.message().contains(u"not in use"_s));
  CHECK(must(chair.clinic.session.lots()).back().value.lot == "RF-2501");
  chair.page->scanned(u"RF-9999"_s);
  chair.press(Qt::Key_Escape);
  CHECK(must(chair.clinic.session.lots()).back().value.lot == "RF-2501");
}

TEST_CASE("A new light is typed into use at the chair within eight keys", "[case-303]") {
  Chair chair;
  chair.seat(chair.clinic.child("Mina"));
  chair.screenFour();
  chair.keys = 0;
  chair.press("K");
  // The last option is the new one.
  const auto last = static_cast<Qt::Key>(Qt::Key_1 + must(chair.clinic.session.lights()).size());
  chair.press(last);
  auto* line = chair.page->findChild<QLineEdit*>(u"askLine"_s);
  REQUIRE(line->isVisible());
  QTest::keyClicks(line, u"L-9"_s);
  chair.keys += 3;
  chair.press(Qt::Key_Return);
  CHECK(chair.keys <= 8);
  const auto made = must(chair.clinic.session.lights()).back();
  CHECK(made.value.tag == "L-9");
  CHECK(chair.acting.now().light == made.id);
}
