#include "ui/board/late_form.h"
#include "ui/fixtures/board_fixture.h"

#include <QAbstractItemModelTester>
#include <QCheckBox>
#include <QComboBox>
#include <QTableView>

using namespace gk;
using namespace gk::test;
using chairside::DayEnd;

TEST_CASE("The board shows each child once under its group with a count") {
  Board board;
  const auto waiting = board.clinic.child("Mina");
  const auto absent = board.clinic.child("Lupe");
  const auto seated = board.clinic.child("Wren");
  board.clinic.seat(seated);
  board.clinic.end(absent, DayEnd::absent);
  board.open();
  const QAbstractItemModelTester tester(&board.model());
  CHECK(board.lineOf(waiting)->place == session::Place::waiting);
  CHECK(board.lineOf(seated)->place == session::Place::inChair);
  CHECK(board.lineOf(absent)->place == session::Place::absent);
  CHECK(words(board.page, u"boardCounts"_s) ==
        u"Waiting 1    In the chair 1    In progress 0    Done 0    Not seen 1"_s);
  CHECK(board.model().headingRows().size() == 3);
  CHECK(words(board.page, u"boardDate"_s) == u"Tuesday, November 17, 2026"_s);
}

TEST_CASE("A scanned number and Enter take the child to the chair") {
  Board board;
  board.clinic.child("Mina");
  const auto wanted = board.clinic.child("Lupe");
  board.open();
  board.type(board.number(wanted).remove(u'-'));
  press(board.page, Qt::Key_Return);
  REQUIRE(board.taken.size() == 1);
  CHECK(board.taken.front() == wanted);
  CHECK(part<QLineEdit>(board.page, u"boardSearch"_s).text().isEmpty());
}

TEST_CASE("A name is found without its accents and in any order", "[case-17]") {
  Board board;
  board.clinic.child("Mina");
  const auto wanted = board.clinic.child("Zoé", "Saltmarsh");
  board.open();
  board.type(u"saltmarsh zoe"_s);
  press(board.page, Qt::Key_Return);
  REQUIRE(board.taken.size() == 1);
  CHECK(board.taken.front() == wanted);
}

TEST_CASE("Enter never takes one of several children that fit") {
  Board board;
  board.clinic.child("Mina");
  board.clinic.child("Mila");
  board.open();
  board.type(u"mi"_s);
  press(board.page, Qt::Key_Return);
  CHECK(board.taken.empty());
  CHECK(board.news.contains(u"2 matches"_s));
  press(board.page, Qt::Key_Down);
  press(board.page, Qt::Key_Return);
  CHECK(board.taken.size() == 1);
}

TEST_CASE("A mistyped check digit is told apart from a child who is not there") {
  Board board;
  const auto child = board.clinic.child("Mina");
  board.open();
  auto number = board.number(child);
  number.back() = number.back() == u'9' ? u'0' : u'9';
  board.type(number);
  press(board.page, Qt::Key_Return);
  CHECK(board.taken.empty());
  CHECK(board.prompter.asked.size() == 1); // the near child is offered, and no one answered
}

TEST_CASE("Absent is one key and taking it back is one more") {
  Board board;
  const auto child = board.clinic.child("Mina");
  board.open();
  press(board.page, Qt::Key_A, Qt::AltModifier);
  CHECK(board.troubles.join(u'|') == QString());
  CHECK(board.lineOf(child)->outcome == "absent");
  press(board.page, Qt::Key_Z, Qt::AltModifier); // asks, and was not answered
  CHECK(board.prompter.asked == QStringList{u"Undo: Visit outcome: absent, Mina H.?"_s});
  CHECK(board.lineOf(child)->outcome == "absent");
  board.prompter.confirms = {true};
  press(board.page, Qt::Key_Z, Qt::AltModifier);
  CHECK(board.lineOf(child)->place == session::Place::waiting);
  press(board.page, Qt::Key_Z, Qt::AltModifier | Qt::ShiftModifier);
  CHECK(board.lineOf(child)->outcome == "absent");
}

TEST_CASE("Declined and left school and not reached are one key each") {
  Board board;
  const auto child = board.clinic.child("Mina");
  board.open();
  for (const auto& [key, outcome] : {std::pair(Qt::Key_D, "declined"),
                                     {Qt::Key_L, "left school"},
                                     {Qt::Key_R, "not seen, out of time"}}) {
    press(board.page, key, Qt::AltModifier);
    CHECK(board.lineOf(child)->outcome == outcome);
  }
}

TEST_CASE("Two children of one name both bear the alert", "[case-4]") {
  Board board;
  const auto one = board.clinic.child("Osei", "Brackwater");
  const auto other = board.clinic.child("Osei", "Brackwater");
  board.open();
  for (const auto child : {one, other})
    CHECK(ui::alertWords(*board.lineOf(child)) == u"≡ SAME NAME"_s);
}

TEST_CASE("A medical stop is a shape and a word on the board") {
  Board board;
  const auto child = board.clinic.child("Calla");
  must(board.clinic.session.enterFlag(board.clinic.by, {child, roster::FlagKind::acrylateAllergy,
                                                        roster::FlagAction::stop, "", false, ""}));
  board.open();
  CHECK(ui::alertWords(*board.lineOf(child)) == u"✖ ALLERGY: acrylate"_s);
  CHECK(words(board.page, u"boardCardAlerts"_s).contains(u"✖ ALLERGY: acrylate"_s));
}

TEST_CASE("Consent withdrawn before the chair takes the child out of the queue", "[case-1]") {
  Board board;
  const auto child = board.clinic.child("Jory");
  board.open();
  board.prompter.texts = {u"by phone, the mother, taken by BO"_s};
  press(board.page, Qt::Key_W, Qt::AltModifier);
  CHECK(board.troubles.join(u'|') == QString());
  CHECK(board.lineOf(child)->outcome == "consent withdrawn");
  const auto stands = must(board.clinic.session.standing(child, roster::Service::screening,
                                                         board.clinic.clock.now().date()));
  CHECK_FALSE(stands.allows);
  CHECK(stands.why.find("by phone") != std::string::npos);
}

TEST_CASE("Backing out of the question withdraws nothing") {
  Board board;
  const auto child = board.clinic.child("Jory");
  board.open();
  press(board.page, Qt::Key_W, Qt::AltModifier);
  CHECK(board.lineOf(child)->place == session::Place::waiting);
}

TEST_CASE("A form in the hand of a child on the roster puts the child in the queue", "[case-13]") {
  Board board;
  const auto child = board.clinic.childWithoutForm("Nell");
  board.open();
  CHECK_FALSE(board.lineOf(child));
  press(board.page, Qt::Key_N, Qt::AltModifier);
  board.fill(u"lateNumber"_s, board.number(child));
  press(board.page, Qt::Key_Tab);
  CHECK(words(board.page, u"lateKnown"_s).contains(u"Nell"_s));
  CHECK_FALSE(part<QLineEdit>(board.page, u"lateFirst"_s).isEnabled());
  board.tickUsual();
  press(board.page, Qt::Key_Return, Qt::ControlModifier);
  CHECK(board.troubles.join(u'|') == QString());
  REQUIRE(board.lineOf(child));
  CHECK(board.lineOf(child)->place == session::Place::waiting);
}

TEST_CASE("A form of a child who is not on the roster makes a provisional child",
          "[case-13][case-15]") {
  Board board;
  board.clinic.child("Mina");
  board.open();
  press(board.page, Qt::Key_N, Qt::AltModifier);
  board.fill(u"lateFirst"_s, u"Nils"_s);
  board.fill(u"lateLast"_s, u"Farrowgate"_s);
  board.fill(u"lateBirth"_s, u"2019-05-14"_s);
  board.fill(u"lateGrade"_s, u"2"_s);
  board.fill(u"lateRoom"_s, u"7"_s);
  part<QCheckBox>(board.page, u"lateProvisional"_s).setChecked(true);
  board.tickUsual();
  press(board.page, Qt::Key_Return, Qt::ControlModifier);
  CHECK(board.troubles.join(u'|') == QString());
  board.type(u"nils"_s);
  press(board.page, Qt::Key_Return);
  REQUIRE(board.taken.size() == 1);
  CHECK(must(board.clinic.session.child(board.taken.front())).value.provisional);
}

TEST_CASE("A form that is no yes keeps what was typed and enters the child once only",
          "[case-10]") {
  Board board;
  board.open();
  press(board.page, Qt::Key_N, Qt::AltModifier);
  board.fill(u"lateFirst"_s, u"Nils"_s);
  board.fill(u"lateBirth"_s, u"2019-05-14"_s);
  board.fill(u"lateGrade"_s, u"2"_s);
  board.tick(1); // sealants without screening
  press(board.page, Qt::Key_Return, Qt::ControlModifier);
  CHECK(board.troubles.size() == 1);
  CHECK(part<QLineEdit>(board.page, u"lateFirst"_s).text() == u"Nils"_s);
  board.tick(0);
  press(board.page, Qt::Key_Return, Qt::ControlModifier);
  CHECK(board.troubles.size() == 1);
  CHECK(must(board.clinic.session.findChildren("Nils")).size() == 1);
}

TEST_CASE("A form of a name and birth date on the roster asks whose it is", "[case-107]") {
  Board board;
  const auto mina = board.clinic.childWithoutForm("Mina", "Tolliver");
  board.open();
  press(board.page, Qt::Key_N, Qt::AltModifier);
  board.fill(u"lateFirst"_s, u"Mina"_s);
  board.fill(u"lateLast"_s, u"Tolliver"_s);
  board.fill(u"lateBirth"_s, u"2019-03-14"_s);
  board.fill(u"lateGrade"_s, u"2"_s);
  board.tickUsual();
  auto& session = board.clinic.session;
  SECTION("Escape writes nothing") {
    press(board.page, Qt::Key_Return, Qt::ControlModifier);
    REQUIRE(board.prompter.decided.size() == 1);
    CHECK(must(session.findChildren("Tolliver")).size() == 1);
    CHECK(must(session.consents(mina)).empty());
    press(board.page, Qt::Key_Escape);
    CHECK_FALSE(board.lineOf(mina));
  }
  SECTION("it is hers: only the form is entered") {
    board.prompter.choices = {0};
    press(board.page, Qt::Key_Return, Qt::ControlModifier);
    CHECK(must(session.findChildren("Tolliver")).size() == 1);
    CHECK(must(session.consents(mina)).size() == 1);
    CHECK(board.lineOf(mina));
  }
  SECTION("another child") {
    board.prompter.choices = {1};
    press(board.page, Qt::Key_Return, Qt::ControlModifier);
    CHECK(board.troubles.join(u'|') == QString());
    CHECK(must(session.findChildren("Tolliver")).size() == 2);
    CHECK(must(session.consents(mina)).empty());
  }
}

TEST_CASE("A number without its check digit is said at once and opens no child", "[case-108]") {
  Board board;
  const auto mina = board.clinic.childWithoutForm("Mina", "Tolliver");
  const auto digits = board.number(mina).section(u'-', 0, 0);
  board.open();
  SECTION("on the form") {
    press(board.page, Qt::Key_N, Qt::AltModifier);
    board.fill(u"lateNumber"_s, digits);
    press(board.page, Qt::Key_Tab);
    CHECK(words(board.page, u"lateKnown"_s).contains(u"Did you mean "_s + board.number(mina)));
    board.fill(u"lateFirst"_s, u"Nils"_s);
    board.fill(u"lateBirth"_s, u"2019-05-14"_s);
    board.fill(u"lateGrade"_s, u"2"_s);
    board.tickUsual();
    board.prompter.choices = {0};
    press(board.page, Qt::Key_Return, Qt::ControlModifier);
    CHECK(must(board.clinic.session.findChildren("Nils")).empty());
    CHECK(must(board.clinic.session.consents(mina)).size() == 1);
  }
  SECTION("in the search, a wrong check digit offers the child it is near") {
    board.type(digits + u"-9"_s);
    press(board.page, Qt::Key_Return);
    REQUIRE(board.prompter.decided.size() == 1);
    CHECK(board.prompter.decided.front().contains(digits + u"-9"_s));
    CHECK(board.taken.empty()); // backed out
    board.prompter.choices = {0};
    press(board.page, Qt::Key_Return);
    CHECK(board.taken == std::vector{mina});
  }
}

TEST_CASE("A form that cannot be entered leaves no child and no alert behind", "[case-108]") {
  Board board;
  board.open();
  press(board.page, Qt::Key_N, Qt::AltModifier);
  board.fill(u"lateFirst"_s, u"Nils"_s);
  board.fill(u"lateBirth"_s, u"2019-05-14"_s);
  board.fill(u"lateGrade"_s, u"2"_s);
  part<QComboBox>(board.page, u"lateFlag"_s).setCurrentIndex(1);
  board.tick(1); // sealants without screening
  press(board.page, Qt::Key_Return, Qt::ControlModifier);
  CHECK(board.troubles.size() == 1);
  press(board.page, Qt::Key_Escape);
  CHECK(must(board.clinic.session.findChildren("Nils")).empty());
}

TEST_CASE("A birth date whose other reading fits the grade better is asked about", "[case-19]") {
  Board board;
  board.open();
  press(board.page, Qt::Key_N, Qt::AltModifier);
  board.fill(u"lateFirst"_s, u"Nils"_s);
  board.fill(u"lateBirth"_s, u"9/2/2019"_s);
  board.fill(u"lateGrade"_s, u"2"_s);
  board.tickUsual();
  board.prompter.choices = {0};
  press(board.page, Qt::Key_Return, Qt::ControlModifier);
  REQUIRE(board.prompter.asked.size() == 1);
  const auto found = must(board.clinic.session.findChildren("Nils"));
  REQUIRE(found.size() == 1);
  CHECK(must(board.clinic.session.identity(found.front().child)).birth.iso() == "2019-02-09");
}

TEST_CASE("A birth date is read with the month first where the grade says nothing else",
          "[case-417]") {
  Board board;
  board.open();
  press(board.page, Qt::Key_N, Qt::AltModifier);
  board.fill(u"lateFirst"_s, u"Nils"_s);
  board.fill(u"lateBirth"_s, u"3-4-19"_s);
  board.fill(u"lateGrade"_s, u"2"_s);
  board.tickUsual();
  press(board.page, Qt::Key_Return, Qt::ControlModifier);
  CHECK(board.prompter.asked.isEmpty());
  const auto found = must(board.clinic.session.findChildren("Nils"));
  REQUIRE(found.size() == 1);
  CHECK(must(board.clinic.session.identity(found.front().child)).birth.iso() == "2019-03-04");
}

TEST_CASE("A birth year that cannot be is refused and an unusual one is asked about", "[case-18]") {
  Board board;
  board.open();
  press(board.page, Qt::Key_N, Qt::AltModifier);
  board.fill(u"lateFirst"_s, u"Sol"_s);
  board.fill(u"lateGrade"_s, u"2"_s);
  board.tickUsual();
  board.fill(u"lateBirth"_s, u"1997-05-14"_s);
  press(board.page, Qt::Key_Return, Qt::ControlModifier);
  CHECK(board.troubles.size() == 1);
  CHECK(board.prompter.asked.isEmpty());
  board.fill(u"lateBirth"_s, u"2013-05-14"_s);
  press(board.page, Qt::Key_Return, Qt::ControlModifier);
  CHECK(board.prompter.asked.size() == 1);
  CHECK(must(board.clinic.session.findChildren("Sol")).empty());
  board.prompter.confirms = {true};
  press(board.page, Qt::Key_Return, Qt::ControlModifier);
  CHECK(must(board.clinic.session.findChildren("Sol")).size() == 1);
}

TEST_CASE("A day on a weekend opens only with a reason", "[case-22]") {
  Board board;
  board.open();
  press(board.page, Qt::Key_O, Qt::AltModifier);
  board.fill(u"dayDate"_s, u"2026-11-14"_s);
  CHECK(words(board.page, u"dayQuestion"_s).contains(u"Saturday"_s));
  press(board.page, Qt::Key_Return, Qt::ControlModifier);
  REQUIRE(board.troubles.size() == 1);
  CHECK(board.troubles.front().contains(u"reason"_s));
  board.fill(u"dayReason"_s, u"the district's make-up day"_s);
  press(board.page, Qt::Key_Return, Qt::ControlModifier);
  CHECK(words(board.page, u"boardDate"_s).contains(u"Saturday, November 14, 2026"_s));
}

TEST_CASE("A canceled day says why", "[case-22]") {
  Board board;
  board.open();
  board.prompter.texts = {u"snow day"_s};
  press(board.page, Qt::Key_X, Qt::AltModifier);
  CHECK(board.troubles.join(u'|') == QString());
  board.page.chooseDay(board.clinic.day);
  CHECK(words(board.page, u"boardDate"_s).contains(u"CANCELED: snow day"_s));
}

TEST_CASE("With the names locked the board shows numbers alone") {
  Board board;
  const auto child = board.clinic.child("Mina");
  board.open();
  board.clinic.session.lock();
  CHECK(board.lineOf(child)->name == ui::toStd(board.number(child)));
}

TEST_CASE("An outcome without anybody at work is refused with the reason") {
  Board board;
  board.clinic.child("Mina");
  board.acting.change({});
  board.open();
  press(board.page, Qt::Key_A, Qt::AltModifier);
  REQUIRE(board.troubles.size() == 1);
  CHECK(board.troubles.front().contains(u"one is named as entering this"_s));
}
