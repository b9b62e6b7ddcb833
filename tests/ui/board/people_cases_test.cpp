#include "ui/fixtures/board_fixture.h"
#include "ui/fixtures/chair_fixture.h"

#include <QTableView>

// Hard cases of forms and names, as a hand at the board or the chair meets them.
using namespace gk;
using namespace gk::test;
using roster::ConsentState;

TEST_CASE("Consent withdrawn at the board after the care erases none of it", "[case-3]") {
  Board board;
  const auto child = board.clinic.child("Jory");
  board.clinic.standardVisit(child);
  board.open();
  board.type(board.number(child));
  board.prompter.texts = {u"letter of the mother, taken by BO"_s};
  press(board.page, Qt::Key_W, Qt::AltModifier);
  CHECK(board.troubles.join(u'|') == QString());
  CHECK(must(board.clinic.session.placements(child)).size() == 4);
  const auto today = board.clinic.clock.now().date();
  for (const auto service : {roster::Service::recheckAndReplace, roster::Service::shareWithNurse}) {
    const auto stands = must(board.clinic.session.standing(child, service, today));
    CHECK(stands.state == ConsentState::withdrawn);
    CHECK_FALSE(stands.allows);
  }
}

TEST_CASE("Twins on the board are two lines, and a last name takes neither of them", "[case-5]") {
  Board board;
  const auto nell = board.clinic.child("Nell", "Farrowgate");
  const auto nils = board.clinic.child("Nils", "Farrowgate");
  board.open();
  CHECK(board.lineOf(nell)->name == "Nell Farrowgate");
  CHECK(board.lineOf(nils)->name == "Nils Farrowgate");
  CHECK_FALSE(board.lineOf(nell)->sameName);
  board.type(u"farrowgate"_s);
  press(board.page, Qt::Key_Return);
  CHECK(board.taken.empty());
  CHECK(board.news.contains(u"2 matches"_s));
  board.type(board.number(nils));
  press(board.page, Qt::Key_Return);
  CHECK(board.taken == std::vector{nils});
}

TEST_CASE("A child whose two forms disagree is on no board, and the chair says why", "[case-7]") {
  Chair chair;
  const auto child = chair.clinic.child("Mina");
  auto no = chair.clinic.form(child);
  no.state = ConsentState::no;
  no.allowed = {};
  no.signedOn = must(base::Date::parse("2026-10-30"));
  no.receivedOn = no.signedOn;
  must(chair.clinic.session.enterConsent(chair.clinic.by, no));
  const auto lines = must(chair.clinic.session.board(chair.clinic.day));
  CHECK(std::ranges::none_of(lines, [&](const auto& line) { return line.child == child; }));
  REQUIRE(chair.page->take(child, chair.clinic.day));
  CHECK(chair.text("identityConsent").contains(u"neither counts"_s));
  CHECK_FALSE(chair.text("identityConsent").contains(u"YES"_s));
  chair.press(Qt::Key_Left);
  chair.press(Qt::Key_Return);
  CHECK_FALSE(chair.shows("screeningPanel"));
}

TEST_CASE("A form signed by another relation counts only once it was reviewed", "[case-8]") {
  Board board;
  const auto child = board.clinic.childWithoutForm("Nell");
  board.open();
  press(board.page, Qt::Key_N, Qt::AltModifier);
  board.fill(u"lateNumber"_s, board.number(child));
  press(board.page, Qt::Key_Tab);
  board.tickUsual();
  part<QComboBox>(board.page, u"lateSigner"_s)
      .setCurrentIndex(static_cast<int>(roster::Relation::other));
  press(board.page, Qt::Key_Return, Qt::ControlModifier);
  CHECK(board.troubles.size() == 1);
  CHECK_FALSE(board.lineOf(child));
  part<QCheckBox>(board.page, u"lateReviewed"_s).setChecked(true);
  press(board.page, Qt::Key_Return, Qt::ControlModifier);
  REQUIRE(board.lineOf(child));
  CHECK(board.lineOf(child)->place == session::Place::waiting);
}

TEST_CASE("A student of age who signed alone is seated on that form", "[case-9]") {
  Chair chair;
  auto& clinic = chair.clinic;
  const session::Identity identity{
      .first = "Lupe", .last = "Saltmarsh", .birth = must(base::Date::parse("2008-02-17"))};
  const roster::Child card{.number = roster::withCheckDigit("2002"),
                           .birth = {2008, 2},
                           .school = clinic.school,
                           .grade = "12",
                           .room = "31",
                           .note = {}};
  const auto child = must(clinic.session.enrollChild(clinic.by, card, identity));
  auto form = clinic.form(child);
  form.signer = roster::Relation::selfOfAge;
  must(clinic.session.enterConsent(clinic.by, form));
  REQUIRE(chair.page->take(child, clinic.day));
  CHECK(chair.text("identityConsent").contains(u"Sealants: YES"_s));
  CHECK(chair.text("identityFacts").contains(u"age 18"_s));
  chair.press(Qt::Key_Left);
  chair.press(Qt::Key_Return);
  CHECK(chair.shows("screeningPanel"));
}

TEST_CASE("Last year's form seats a child only while its own dates hold", "[case-11]") {
  Chair chair;
  const auto child = chair.clinic.childWithoutForm("Mina");
  auto form = chair.clinic.form(child);
  form.signedOn = must(base::Date::parse("2025-09-12"));
  form.receivedOn = must(base::Date::parse("2025-09-15"));
  form.validFrom = must(base::Date::parse("2025-09-08"));
  SECTION("over") {
    form.validUntil = must(base::Date::parse("2026-06-30"));
    must(chair.clinic.session.enterConsent(chair.clinic.by, form));
    REQUIRE(chair.page->take(child, chair.clinic.day));
    CHECK(chair.text("identityConsent").contains(u"not valid on this date"_s));
    chair.press(Qt::Key_Left);
    chair.press(Qt::Key_Return);
    CHECK_FALSE(chair.shows("screeningPanel"));
  }
  SECTION("this and next school year") {
    form.validUntil = must(base::Date::parse("2027-06-30"));
    must(chair.clinic.session.enterConsent(chair.clinic.by, form));
    REQUIRE(chair.page->take(child, chair.clinic.day));
    CHECK(chair.text("identityAsked").contains(u"Ask"_s));
    chair.press(Qt::Key_Left);
    chair.press(Qt::Key_Return);
    CHECK(chair.shows("screeningPanel"));
  }
}

TEST_CASE("A child is called by the name used and found by it", "[case-16]") {
  Board board;
  auto& clinic = board.clinic;
  const session::Identity identity{.first = "Theodora",
                                   .last = "Finch",
                                   .nameUsed = "Teddy",
                                   .birth = must(base::Date::parse("2019-03-14"))};
  const roster::Child card{.number = roster::withCheckDigit("2001"),
                           .birth = {2019, 3},
                           .school = clinic.school,
                           .grade = "2",
                           .room = "6",
                           .note = {}};
  const auto child = must(clinic.session.enrollChild(clinic.by, card, identity));
  must(clinic.session.enterConsent(clinic.by, clinic.form(child)));
  board.open();
  CHECK(board.lineOf(child)->name == "Teddy Finch");
  board.type(u"teddy"_s);
  press(board.page, Qt::Key_Return);
  CHECK(board.taken == std::vector{child});
}

TEST_CASE("What is sealed at the chair after midnight counts on the day of care", "[case-23]") {
  Chair chair;
  const auto child = chair.clinic.child("Mina");
  chair.clinic.clock.advance(std::chrono::hours(16));
  chair.seat(child);
  chair.screenFour();
  chair.sealHalf();
  const auto placements = must(chair.clinic.session.placements(child));
  REQUIRE(placements.size() == 2);
  for (const auto& placement : placements) {
    CHECK(must(chair.clinic.session.day(placement.value.day)).value.date.iso() == "2026-11-17");
    CHECK(placement.stamp.at.date().iso() == "2026-11-18");
  }
}

TEST_CASE("A late form of a student who left is asked about on the day board", "[case-484]") {
  Board board;
  const auto child = board.clinic.childWithoutForm("Nell");
  must(board.clinic.session.leaveProgram(
      board.clinic.by, {child}, {board.clinic.clock.now().date(), roster::LeftBecause::movedAway}));
  board.open();
  press(board.page, Qt::Key_N, Qt::AltModifier);
  board.fill(u"lateNumber"_s, board.number(child));
  press(board.page, Qt::Key_Tab);
  board.tickUsual();
  const auto forms = [&] { return must(board.clinic.session.consents(child)).size(); };
  press(board.page, Qt::Key_Return, Qt::ControlModifier);
  REQUIRE(board.prompter.asked.size() == 1);
  CHECK(board.prompter.asked.front().contains(u"left the program on November 17, 2026"_s));
  CHECK(forms() == 0);
  board.prompter.confirms = {true};
  press(board.page, Qt::Key_Return, Qt::ControlModifier);
  CHECK(board.troubles.join(u'|') == QString());
  CHECK(forms() == 1);
  CHECK_FALSE(board.lineOf(child));
}
