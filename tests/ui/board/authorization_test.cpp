#include "ui/fixtures/chair_fixture.h"
#include "ui/fixtures/pictures.h"
#include "ui/fixtures/window_fixture.h"
#include "ui/models/board_model.h"

#include <QTableView>

// A program that waits for the dentist's exam, keyed as a person keys it.

using namespace gk;
using namespace gk::test;
using chairside::AuthorizedHow;

namespace {

struct Waiting : Chair {
  Waiting() : Chair(roster::Supervision::dentistExamRequired) {}
  roster::ChildId mina = clinic.child("Mina", "Tolliver-Reed");

  void authorized(const std::vector<int>& isoTeeth) {
    must(clinic.session.authorize(clinic.by, {clinic.authorization(mina, isoTeeth)}));
  }
  std::size_t sealed() { return must(clinic.session.placements(mina)).size(); }
};

} // namespace

TEST_CASE("What was found stands beside what is authorized, and only both is planned",
          "[case-82]") {
  Waiting chair;
  chair.authorized({16, 26, 36});
  REQUIRE(chair.page->take(chair.mina, chair.clinic.day));
  CHECK(chair.text("identityConsent").contains(u"Dentist: authorized 3: "_s));
  chair.seat(chair.mina);
  CHECK(chair.text("screeningDentist").startsWith(u"Authorized 3, found 0."_s));
  chair.press("ZSSSS444");
  CHECK(chair.text("pauseLine").startsWith(u"Sealing 3: "_s));
  CHECK(chair.text("pauseLine")
            .endsWith(u"Authorized 3, found 4. NOT AUTHORIZED: lower right first molar, 30. Call "
                      "the dentist."_s));
  chair.press(Qt::Key_Return);
  REQUIRE(chair.shows("fieldPanel"));
  const auto teeth = chair.text("fieldTeeth");
  CHECK(teeth.startsWith(u"Upper right first molar, 3: OL\n"
                         "NOT AUTHORIZED by a dentist: lower right first molar, 30"_s));
}

TEST_CASE("The dentist is called, one key records it, and undo takes it back", "[case-82]") {
  Waiting chair;
  chair.authorized({16, 26, 36});
  chair.seat(chair.mina);
  chair.screenFour();
  CHECK(chair.page->findChild<QWidget*>(u"tile46"_s)
            ->accessibleName()
            .contains(u"Waiting for the dentist"_s));
  chair.press(Qt::Key_Y);
  CHECK(chair.text("askQuestion").contains(u"lower right first molar, 30"_s)); // said aloud
  chair.press(Qt::Key_Return);
  CHECK_FALSE(chair.text("fieldTeeth").contains(u"NOT AUTHORIZED"_s));
  CHECK(chair.text("fieldTeeth").contains(u"Lower right first molar, 30"_s));
  const auto rows = must(chair.clinic.session.authorizations(chair.mina));
  REQUIRE(rows.size() == 2);
  CHECK(rows.back().value.how == AuthorizedHow::phoneCall);
  CHECK(rows.back().value.dentist == chair.clinic.dentist);
  CHECK(rows.back().value.on == chair.clinic.clock.now().date());
  CHECK(rows.back().stamp.by.author == chair.clinic.hygienist);
  chair.press(Qt::Key_U);
  CHECK(chair.text("fieldTeeth").contains(u"NOT AUTHORIZED"_s));
  CHECK(must(chair.clinic.session.authorizations(chair.mina)).size() == 1);
  chair.press(Qt::Key_Y);
  chair.press(Qt::Key_Return);
  chair.sealHalf();
  chair.sealHalf();
  REQUIRE(chair.shows("finishPanel"));
  CHECK(chair.sealed() == 4);
}

TEST_CASE("Without the dentist's yes the tooth is left with the reason", "[case-82]") {
  Waiting chair;
  chair.authorized({26, 36});
  chair.seat(chair.mina);
  chair.screenFour();
  chair.sealHalf();
  REQUIRE(chair.shows("fieldPanel"));
  CHECK(chair.text("fieldTitle") == u"Not authorized"_s);
  chair.press(Qt::Key_Return); // nothing to isolate
  CHECK(chair.sealed() == 2);
  chair.press(Qt::Key_F);
  REQUIRE(chair.shows("finishPanel"));
  CHECK(chair.text("finishState").contains(u"SEALED, UNFINISHED"_s));
  const auto screening = must(chair.clinic.session.screenings(chair.mina)).back().value;
  for (const auto& finding : screening.teeth)
    if (finding.tooth == dentition::toothAt(16)) {
      CHECK(finding.decision == chairside::Decision::notToday);
      CHECK(finding.note == "waits for the dentist");
      CHECK(finding.occlusal.condition == chairside::Condition::sound); // the find stays
    }
}

TEST_CASE("A child of whom no tooth is authorized can be screened and nothing more", "[case-82]") {
  Waiting chair;
  REQUIRE(chair.page->take(chair.mina, chair.clinic.day));
  CHECK(chair.text("identityConsent").contains(u"WAITING for the dentist's exam"_s));
  chair.seat(chair.mina);
  chair.screenFour();
  REQUIRE(chair.shows("fieldPanel"));
  CHECK(chair.text("fieldTitle") == u"Not authorized"_s);
  CHECK_FALSE(chair.shows("isolateButton"));
}

TEST_CASE("Elsewhere nothing speaks of a dentist's exam and no key is added", "[case-82]") {
  Chair chair;
  const auto mina = chair.clinic.child("Mina");
  REQUIRE(chair.page->take(mina, chair.clinic.day));
  CHECK_FALSE(chair.text("identityConsent").contains(u"Dentist"_s));
  chair.seat(mina);
  CHECK_FALSE(chair.shows("screeningDentist"));
  chair.screenFour();
  CHECK_FALSE(chair.shows("dentistYesButton"));
  chair.press(Qt::Key_Y);
  CHECK(must(chair.clinic.session.authorizations(mina)).empty());
}

TEST_CASE("In the window the board says who waits, and the exam is entered by keyboard",
          "[case-82]") {
  Window desk;
  ui::Setup setup;
  {
    Clinic clinic(desk.book(), session::BookKind::throwaway,
                  roster::Supervision::dentistExamRequired);
    clinic.child("Mina", "Tolliver-Reed");
    setup.author = clinic.assistant;
    must(clinic.session.finish());
  }
  desk.openAndUnlock();
  desk.window->book()->acting().change(setup);
  auto& page = part<QWidget>(*desk.window, u"dayBoardPage"_s);
  auto& table = part<QTableView>(page, u"boardTable"_s);
  const auto alerts = [&] {
    QString all;
    for (int row = 0; row < table.model()->rowCount(); ++row)
      all += table.model()->index(row, ui::BoardModel::alerts).data().toString();
    return all;
  };
  CHECK(alerts().contains(u"dentist first"_s));
  press(*desk.window, Qt::Key_E, Qt::AltModifier);
  REQUIRE(desk.shows(u"authorizationForm"_s));
  CHECK(desk.reads(u"WAITING for the dentist's exam"_s));
  part<QLineEdit>(*desk.window, u"examTeeth"_s).setText(u"3 14 19 33"_s);
  press(*desk.window, Qt::Key_Return, Qt::ControlModifier);
  REQUIRE(desk.shows(u"authorizationForm"_s)); // no such tooth: the entry stays
  CHECK(part<QLineEdit>(*desk.window, u"examTeeth"_s).text() == u"3 14 19 33"_s);
  part<QLineEdit>(*desk.window, u"examTeeth"_s).setText(u"3 14 19 30"_s);
  press(*desk.window, Qt::Key_Return, Qt::ControlModifier);
  REQUIRE_FALSE(desk.shows(u"authorizationForm"_s));
  CHECK_FALSE(alerts().contains(u"dentist first"_s));

  press(*desk.window, Qt::Key_E, Qt::AltModifier);
  CHECK(desk.reads(u"uthorized 4: "_s));
  desk.prompter->texts = {u"dentist called back"_s};
  press(*desk.window, Qt::Key_W, Qt::AltModifier);
  CHECK(desk.reads(u"WAITING for the dentist's exam"_s));
  press(*desk.window, Qt::Key_Escape);
  CHECK(alerts().contains(u"dentist first"_s));
}

// As chair_pictures_test.cpp has it.
TEST_CASE("Waiting for the dentist as pictures", "[.pictures]") {
  const auto folder = pictureFolder();
  const auto keep = [&](QWidget& widget, const char* name) {
    QCoreApplication::processEvents();
    widget.grab().save(folder + u"/dentist-"_s + QString::fromLatin1(name) + u".png"_s);
  };
  Waiting chair;
  REQUIRE(chair.page->take(chair.mina, chair.clinic.day));
  keep(*chair.page, "1-waits");
  chair.authorized({16, 26, 36});
  REQUIRE(chair.page->take(chair.mina, chair.clinic.day));
  keep(*chair.page, "2-authorized");
  chair.seat(chair.mina);
  chair.press("ZSSSS444");
  keep(*chair.page, "3-found");
  chair.press(Qt::Key_Return);
  keep(*chair.page, "4-isolation");
  chair.sealHalf();
  chair.sealHalf();
  keep(*chair.page, "5-held");

  Window desk;
  {
    Clinic clinic(desk.book(), session::BookKind::throwaway,
                  roster::Supervision::dentistExamRequired);
    clinic.child("Mina", "Tolliver-Reed");
    must(clinic.session.finish());
  }
  desk.openAndUnlock();
  keep(*desk.window, "6-board");
  press(*desk.window, Qt::Key_E, Qt::AltModifier);
  keep(*desk.window, "7-form");
}
