#include "reports/records/inputs.h"
#include "ui/fixtures/chair_fixture.h"

using namespace gk;
using chairside::Attempt;
using test::must;

namespace {

/// The last field's first tooth as the book has it.
const chairside::ToothProgress& progress(const std::vector<session::FieldState>& fields, int iso) {
  const auto* tooth = fields.back().protocol.find(dentition::toothAt(iso));
  REQUIRE(tooth != nullptr);
  return *tooth;
}

} // namespace

TEST_CASE("Saliva on one tooth sends that tooth alone back to etch", "[case-46]") {
  test::Chair chair;
  const auto child = chair.clinic.child("Mina");
  chair.seat(child);
  chair.screenFour();
  chair.press(Qt::Key_Return);
  chair.etchToFrosty();
  const int before = chair.keys;
  chair.press("W");
  CHECK(chair.text("askQuestion").contains(QStringLiteral("adjacent teeth")));
  chair.press(Qt::Key_Return); // the tooth under the cursor, upper right
  auto fields = must(chair.clinic.session.fields(child, chair.clinic.day));
  CHECK(progress(fields, 16).wet);
  CHECK(progress(fields, 16).next == chairside::Next::etch);
  CHECK_FALSE(progress(fields, 46).wet);
  CHECK(progress(fields, 46).next == chairside::Next::flow);
  chair.etchToFrosty();
  CHECK(chair.keys - before <= 3); // the pedal is not a key
  for (int exposure = 0; exposure < 4; ++exposure)
    chair.cure();
  chair.press("55");
  const auto placements = must(chair.clinic.session.placements(child));
  REQUIRE(placements.size() == 2);
  CHECK(placements[0].value.wetEvents == 1);
  CHECK(placements[0].value.etches == 2);
  CHECK(placements[1].value.wetEvents == 0);
}

TEST_CASE("A wet key with all of the half marks every tooth of it") {
  test::Chair chair;
  const auto child = chair.clinic.child("Mina");
  chair.seat(child);
  chair.screenFour();
  chair.press(Qt::Key_Return);
  chair.etchToFrosty();
  chair.press("W3");
  const auto fields = must(chair.clinic.session.fields(child, chair.clinic.day));
  CHECK(progress(fields, 16).wet);
  CHECK(progress(fields, 46).wet);
}

TEST_CASE("A refusal after two teeth adds three keys and leaves an unfinished child", "[case-42]") {
  test::Chair chair;
  const auto teodor = chair.clinic.child("Teodor", "Finch-Abbey");
  chair.seat(teodor);
  chair.screenFour();
  chair.sealHalf();
  chair.press(Qt::Key_Return);
  chair.press(Qt::Key_Space);
  chair.run(20);
  chair.press(Qt::Key_Space);
  const int before = chair.keys;
  chair.press("X1");
  CHECK(chair.text("askQuestion").startsWith(QStringLiteral("RINSE NOW")));
  chair.press("1"); // rinsed
  CHECK(chair.keys - before <= 3);
  REQUIRE(chair.shows("finishPanel"));
  CHECK(chair.text("finishState").contains(QStringLiteral("SEALED, UNFINISHED")));
  CHECK(chair.text("finishState").contains(QStringLiteral("child refuses")));
  chair.press("5");
  chair.press(Qt::Key_Return);
  const auto placements = must(chair.clinic.session.placements(teodor));
  REQUIRE(placements.size() == 4);
  CHECK(std::count_if(placements.begin(), placements.end(),
                      [](const auto& one) { return one.value.attempt == Attempt::complete; }) == 2);
  const auto records = must(chair.clinic.session.dayRecords(chair.clinic.day));
  REQUIRE(records.outcomes.size() == 1);
  CHECK(records.outcomes.front().value.end == chairside::DayEnd::sealedUnfinished);
}

TEST_CASE("Teeth that were not begun when the child refuses are decided as declined") {
  test::Chair chair;
  const auto child = chair.clinic.child("Teodor", "Finch-Abbey");
  chair.seat(child);
  chair.screenFour();
  chair.sealHalf();
  chair.press("X1");
  REQUIRE(chair.shows("finishPanel"));
  const auto screenings = must(chair.clinic.session.screenings(child));
  int declined = 0;
  for (const auto& finding : screenings.back().value.teeth)
    declined += finding.decision == chairside::Decision::childDeclined ? 1 : 0;
  CHECK(declined == 2);
  chair.press("U"); // a slip of the key: the child goes on
  CHECK(chair.message() ==
        QStringLiteral("Undone: Change of the findings, Teodor F. (Shift+U: redo)"));
  REQUIRE(chair.shows("fieldPanel"));
  chair.sealHalf();
  CHECK(must(chair.clinic.session.placements(child)).size() == 4);
}

TEST_CASE("Sealant that is on can be cured before the child is let go") {
  test::Chair chair;
  const auto child = chair.clinic.child("Mina");
  chair.seat(child);
  chair.screenFour();
  chair.press(Qt::Key_Return);
  chair.etchToFrosty();
  chair.press("5"); // both teeth flowed, no cure yet
  chair.press("X11");
  REQUIRE(chair.shows("fieldPanel"));
  for (int exposure = 0; exposure < 4; ++exposure)
    chair.cure();
  chair.press("55");
  CHECK(must(chair.clinic.session.placements(child)).size() == 2);
  CHECK(chair.shows("finishPanel"));
}

TEST_CASE("A light that dies at 11 of 20 seconds leaves an interrupted cure and a full one after",
          "[case-44]") {
  test::Chair chair;
  const auto child = chair.clinic.child("Mina");
  chair.seat(child);
  chair.screenFour();
  chair.press(Qt::Key_Return);
  chair.etchToFrosty();
  chair.press(Qt::Key_Space);
  chair.run(11);
  chair.press(Qt::Key_Escape);
  CHECK(chair.text("askQuestion").startsWith(QStringLiteral("The cure stopped at 11.0 s of 20 s")));
  const auto answer = GENERATE(Qt::Key_Return, Qt::Key_Escape); // left unanswered it was no less so
  chair.press(answer);
  CHECK(chair.shows("fieldPanel"));
  for (int exposure = 0; exposure < 4; ++exposure)
    chair.cure();
  chair.press("55");
  const auto placements = must(chair.clinic.session.placements(child));
  REQUIRE(placements.size() == 2);
  CHECK(placements[0].value.interruptedCures == 1);
  CHECK(placements[0].value.cures == 2);
  CHECK(placements[0].value.cured == base::Seconds(20));
}

TEST_CASE("A cure that was running when the program stopped is shown as interrupted and not cured",
          "[case-68]") {
  test::Chair chair;
  const auto child = chair.clinic.child("Mina");
  chair.seat(child);
  chair.screenFour();
  chair.press(Qt::Key_Return);
  chair.etchToFrosty();
  chair.press(Qt::Key_Space);
  chair.run(19);
  chair.open(); // the page is gone and comes back on the same book
  REQUIRE(chair.page->resume(chair.clinic.day));
  REQUIRE(chair.shows("fieldPanel"));
  CHECK_FALSE(chair.page->isTiming());
  CHECK(chair.text("fieldGuide").contains(QStringLiteral("INTERRUPTED, NOT CURED")));
  chair.press(Qt::Key_Return);
  CHECK(chair.message().toStdString() == "");
  const auto fields = must(chair.clinic.session.fields(child, chair.clinic.day));
  CHECK_FALSE(fields.back().running.has_value());
  CHECK(progress(fields, 16).interruptedCures == 1);
  CHECK(progress(fields, 16).cures == 0);
  for (int exposure = 0; exposure < 4; ++exposure)
    chair.cure();
  chair.press("55");
  CHECK(must(chair.clinic.session.placements(child)).size() == 2);
}

TEST_CASE("A laptop that slept during a cure has interrupted it") {
  test::Chair chair;
  const auto child = chair.clinic.child("Mina");
  chair.seat(child);
  chair.screenFour();
  chair.press(Qt::Key_Return);
  chair.etchToFrosty();
  chair.press(Qt::Key_Space);
  chair.run(3);
  chair.clinic.clock.advance(std::chrono::minutes(2));
  chair.page->findChild<ui::TimerView*>()->tick();
  CHECK_FALSE(chair.page->isTiming());
  const auto fields = must(chair.clinic.session.fields(child, chair.clinic.day));
  CHECK(progress(fields, 16).interruptedCures == 1);
  CHECK(progress(fields, 16).cured.isEmpty());
}

TEST_CASE("A second press of the pedal during a cure changes nothing") {
  test::Chair chair;
  const auto child = chair.clinic.child("Mina");
  chair.seat(child);
  chair.screenFour();
  chair.press(Qt::Key_Return);
  chair.etchToFrosty();
  chair.press(Qt::Key_Space);
  chair.run(10);
  chair.press(Qt::Key_Space);
  CHECK(chair.page->isTiming());
  chair.run(10);
  const auto fields = must(chair.clinic.session.fields(child, chair.clinic.day));
  CHECK(progress(fields, 16).cures == 1);
  CHECK(progress(fields, 16).interruptedCures == 0);
}

TEST_CASE("An acrylate stop is seen at identity and in the header and no resin is taken",
          "[case-48]") {
  test::Chair chair;
  const auto child = chair.clinic.child("Mina");
  must(chair.clinic.session.enterFlag(
      chair.clinic.by,
      {child, roster::FlagKind::acrylateAllergy, roster::FlagAction::stop, "swelling", false, ""}));
  REQUIRE(chair.page->take(child, chair.clinic.day));
  CHECK(chair.shows("identityStop"));
  CHECK(chair.text("identityStop") == QStringLiteral("ALLERGY: acrylate, swelling"));
  chair.press(Qt::Key_Left);
  chair.press(Qt::Key_Return);
  REQUIRE(chair.shows("identityPanel")); // the alert is not read yet
  chair.press(Qt::Key_PageDown);
  chair.press(Qt::Key_Return);
  CHECK(chair.shows("chairStop"));
  chair.screenFour();
  chair.press(Qt::Key_Return);
  CHECK(chair.shows("chairStop"));
  CHECK(must(chair.clinic.session.fields(child, chair.clinic.day)).empty());
  CHECK(chair.message().contains(QStringLiteral("ALLERGY.")));
  CHECK(chair.shows("fieldPanel")); // the entry stays
}

TEST_CASE("No one is seated before two identifiers agree", "[case-14]") {
  test::Chair chair;
  const auto child = chair.clinic.child("Osei", "Brackwater");
  REQUIRE(chair.page->take(child, chair.clinic.day));
  chair.press(Qt::Key_Return);
  CHECK(chair.shows("identityPanel"));
  chair.press(Qt::Key_Delete);
  CHECK_FALSE(chair.page->isOccupied());
  CHECK(must(chair.clinic.session.dayRecords(chair.clinic.day)).seatings.empty());
}

TEST_CASE("Two children of one name are told apart on the identity screen", "[case-4]") {
  test::Chair chair;
  const auto one = chair.clinic.child("Osei", "Brackwater");
  chair.clinic.child("Osei", "Brackwater");
  REQUIRE(chair.page->take(one, chair.clinic.day));
  CHECK(chair.shows("identitySameName"));
  CHECK(chair.text("identitySameName").startsWith(QStringLiteral("SAME NAME")));
}

TEST_CASE("Undo takes back the last key of a screening and then the last act in the book",
          "[case-56]") {
  test::Chair chair;
  const auto child = chair.clinic.child("Mina");
  chair.seat(child);
  chair.press("C"); // a slip: the tooth is sound
  CHECK(chair.page->findChild<QWidget*>(QStringLiteral("tile16"))
            ->accessibleName()
            .contains(QStringLiteral("refer")));
  chair.press("U");
  CHECK_FALSE(chair.page->findChild<QWidget*>(QStringLiteral("tile16"))
                  ->accessibleName()
                  .contains(QStringLiteral("REFER")));
  chair.screenFour();
  CHECK(must(chair.clinic.session.screenings(child)).size() == 1);
  chair.press("U");
  CHECK(must(chair.clinic.session.screenings(child)).empty());
  CHECK(chair.shows("screeningPanel"));
}

TEST_CASE("Hiding the screen leaves no name on it and the same step behind it") {
  test::Chair chair;
  chair.seat(chair.clinic.child("Mina"));
  chair.press("H");
  CHECK_FALSE(chair.shows("chairHeader"));
  CHECK_FALSE(chair.shows("screeningPanel"));
  chair.press("S"); // keys do nothing behind the curtain
  chair.press("H");
  CHECK(chair.shows("chairHeader"));
  CHECK(chair.shows("screeningPanel"));
  CHECK(chair.page->findChild<QWidget*>(QStringLiteral("tile16"))
            ->accessibleName()
            .contains(QStringLiteral("not charted yet")));
}

TEST_CASE("Not frosty etches the tooth again and says why") {
  test::Chair chair;
  const auto child = chair.clinic.child("Mina");
  chair.seat(child);
  chair.screenFour();
  chair.press(Qt::Key_Return);
  chair.press(Qt::Key_Space);
  chair.run(20);
  chair.press(Qt::Key_Space);
  chair.run(10);
  chair.press("42"); // not frosty: the upper right one
  const auto fields = must(chair.clinic.session.fields(child, chair.clinic.day));
  CHECK(progress(fields, 16).next == chairside::Next::etch);
  CHECK(progress(fields, 16).etchReason == chairside::EtchReason::notFrosty);
  CHECK(progress(fields, 46).next == chairside::Next::flow);
}

TEST_CASE("An etch that is rinsed too early is asked about while its clock runs on") {
  test::Chair chair;
  const auto child = chair.clinic.child("Mina");
  chair.seat(child);
  chair.screenFour();
  chair.press(Qt::Key_Return);
  chair.press(Qt::Key_Space);
  chair.run(8);
  chair.press(Qt::Key_Space);
  CHECK(chair.page->isTiming());
  chair.press("1");
  CHECK(chair.page->isTiming());
  chair.run(12);
  chair.press(Qt::Key_Space);
  const auto fields = must(chair.clinic.session.fields(child, chair.clinic.day));
  CHECK(progress(fields, 16).etched == base::Seconds(20));
}

TEST_CASE("A child with nothing to seal is done within fourteen actions") {
  test::Chair chair;
  const auto child = chair.clinic.child("Hana", "Brookmere");
  chair.seat(child);
  chair.press("ZCFKG55"); // the cavity answers untreated decay
  chair.press(Qt::Key_Return);
  REQUIRE(chair.shows("finishPanel"));
  CHECK(chair.text("finishState").contains(QStringLiteral("SCREENED, NO SEALANTS NEEDED")));
  chair.press(Qt::Key_Return);
  chair.press(Qt::Key_Return); // the cavity's referral: own dentist
  chair.press(Qt::Key_Return); // the varnish: child declines
  CHECK(must(chair.clinic.session.referrals(child)).size() == 1);
  CHECK_FALSE(chair.page->isOccupied());
  CHECK(chair.keys <= 14);
}

TEST_CASE("A light that reads red is asked about before it cures anything") {
  test::Chair chair;
  const auto child = chair.clinic.child("Mina");
  must(chair.clinic.session.enterReading(chair.clinic.by,
                                         {chair.clinic.light, chair.clinic.clock.now().date(),
                                          kit::MilliwattPerSquareCm{300}, true, "M-1", true},
                                         session::Confirmed::yes));
  chair.seat(child);
  chair.screenFour();
  chair.press(Qt::Key_Return);
  chair.etchToFrosty();
  chair.press(Qt::Key_Space);
  CHECK_FALSE(chair.page->isTiming());
  CHECK(chair.text("askQuestion").contains(QStringLiteral("RED")));
  chair.type(QStringLiteral("no other light here"));
  CHECK(chair.page->isTiming());
  chair.run(20);
  const auto fields = must(chair.clinic.session.fields(child, chair.clinic.day));
  CHECK(progress(fields, 16).cures == 1);
}

TEST_CASE("A lot that is changed within a field holds from there on", "[case-52]") {
  test::Chair chair;
  const auto child = chair.clinic.child("Mina");
  chair.seat(child);
  chair.screenFour();
  chair.sealHalf();
  auto setup = chair.acting.now();
  setup.sealant =
      must(chair.clinic.session.enterLot(chair.clinic.by, {kit::MaterialKind::sealantLightCure,
                                                           "Resin Fern",
                                                           "RF-2610",
                                                           base::Date::of(2027, 4, 30).value(),
                                                           base::Seconds(20),
                                                           {kit::Contains::acrylate},
                                                           false,
                                                           ""}));
  chair.acting.change(setup);
  chair.sealHalf();
  const auto placements = must(chair.clinic.session.placements(child));
  REQUIRE(placements.size() == 4);
  CHECK(placements[0].value.sealant == chair.clinic.resin);
  CHECK(placements[3].value.sealant == *setup.sealant);
}
