#include "ui/desk/desk_page.h"
#include "ui/fixtures/desk_fixture.h"
#include "ui/forms/field_form.h"

#include <QCheckBox>
#include <QComboBox>
#include <QListWidget>
#include <QTableView>

using namespace gk;
using namespace gk::test;
using session::Area;
using ui::DeskPage;

namespace {

/// The desk of a clinic that works.
struct OnDesk : Desk {
  DeskPage page{context, nullptr};

  OnDesk() {
    listen(page);
    showActive(page);
  }
  void turnTo(Area area) { page.turnTo(area); }
  void fill(const char* name, const QString& text) {
    part<QLineEdit>(page, QString::fromLatin1(name)).setText(text);
  }
  void pick(const char* name, int place) {
    part<QComboBox>(page, QString::fromLatin1(name)).setCurrentIndex(place);
  }
  void alt(Qt::Key key) { press(page, key, Qt::AltModifier); }
  QTableView& table(const char* name) { return part<QTableView>(page, QString::fromLatin1(name)); }
  void choose(const char* name, int row) {
    auto& list = table(name);
    list.setCurrentIndex(list.model()->index(row, 0));
  }
  QString cell(const char* name, int row, int column) {
    const auto* model = table(name).model();
    return model->index(row, column).data().toString();
  }
  QString label(const char* name) { return words(page, QString::fromLatin1(name)); }
  session::Session& book() { return clinic.session; }
  kit::Light light(kit::LightId id) { return must(book().revisions<kit::Light>(id)).back().value; }
  roster::Member member(base::MemberId id) {
    return must(book().revisions<roster::Member>(id)).back().value;
  }
};

} // namespace

TEST_CASE("A key for one thing takes the only one, and says how to select one of several",
          "[case-421]") {
  OnDesk desk;
  desk.turnTo(Area::lights);
  const auto count = desk.table("deskLightsTable").model()->rowCount();
  REQUIRE(count > 0);
  desk.table("deskLightsTable").setCurrentIndex({});
  desk.alt(Qt::Key_N);
  desk.alt(Qt::Key_E);
  if (count == 1) {
    CHECK(part<QLineEdit>(desk.page, u"deskLightsReason"_s).isVisible());
  } else {
    CHECK(desk.news.contains(u"Alt+E"_s));
    CHECK(desk.table("deskLightsTable").hasFocus());
  }
}

TEST_CASE("A light is added, corrected with a reason and its history shown", "[case-202]") {
  OnDesk desk;
  desk.turnTo(Area::lights);
  desk.alt(Qt::Key_N);
  desk.fill("deskLightsTag", u"L-7"_s);
  desk.fill("deskLightsMeter", u"M-1"_s);
  desk.fill("deskLightsBaseline", u"1180"_s);
  desk.alt(Qt::Key_S);
  CHECK(desk.news == u"L-7 is saved."_s);
  REQUIRE(desk.table("deskLightsTable").model()->rowCount() == 3);
  CHECK(must(desk.book().lights()).back().value.baselineWithSleeve);

  desk.choose("deskLightsTable", 2);
  CHECK(desk.label("deskLightsFormTitle") == u"Correct: L-7"_s);
  desk.fill("deskLightsBaseline", u"1120"_s);
  desk.alt(Qt::Key_S);
  CHECK(desk.label("deskLightsReasonHint").contains(u"Required"_s));
  CHECK(must(desk.book().lights()).back().value.baseline.value == 1180);
  desk.fill("deskLightsReason", u"digit misread"_s);
  desk.alt(Qt::Key_S);
  CHECK(must(desk.book().lights()).back().value.baseline.value == 1120);
  const auto history = desk.label("deskLightsHistory");
  CHECK(history.contains(u"OF: digit misread"_s));
  CHECK(history.contains(u"1180 → 1120"_s));
  CHECK(desk.troubles.isEmpty());
}

TEST_CASE("A light goes out of service and back with a reason, and Alt+Z takes it back",
          "[case-202][case-205]") {
  OnDesk desk;
  desk.turnTo(Area::lights);
  desk.choose("deskLightsTable", 0);
  desk.alt(Qt::Key_O);
  desk.fill("deskLightsReason", u"dropped"_s);
  desk.alt(Qt::Key_S);
  CHECK_FALSE(desk.light(desk.clinic.light).inService);
  CHECK(desk.cell("deskLightsTable", 0, 4) == u"OUT OF SERVICE"_s);
  desk.alt(Qt::Key_Z); // asked first, and no one said yes
  CHECK(desk.prompter.asked.back() == u"Undo: Curing light corrected?"_s);
  CHECK_FALSE(desk.light(desk.clinic.light).inService);
  desk.prompter.confirms = {true};
  desk.alt(Qt::Key_Z);
  CHECK(desk.light(desk.clinic.light).inService);
  CHECK(desk.news == u"Undone: Curing light corrected"_s);
}

TEST_CASE("Undo at one page of the desk leaves the acts of another", "[case-205]") {
  OnDesk desk;
  desk.turnTo(Area::lots);
  desk.alt(Qt::Key_N);
  desk.fill("deskLotsLot", u"RF-9001"_s);
  desk.fill("deskLotsMaterial", u"Resin Fern"_s);
  desk.fill("deskLotsExpiry", u"2027-04"_s);
  desk.alt(Qt::Key_S);
  const auto lots = must(desk.book().lots()).size();
  CHECK(must(desk.book().lots()).back().value.expiry.iso() == "2027-04-30");
  desk.turnTo(Area::schools);
  desk.prompter.confirms = {true, true};
  desk.alt(Qt::Key_Z);
  CHECK(must(desk.book().lots()).size() == lots);
  desk.turnTo(Area::lots);
  desk.alt(Qt::Key_Z);
  CHECK(must(desk.book().lots()).size() == lots - 1);
}

TEST_CASE("The manufacturer's time of a light and sealant is entered at the light", "[case-210]") {
  OnDesk desk;
  desk.turnTo(Area::lights);
  desk.choose("deskLightsTable", 1);
  desk.alt(Qt::Key_T);
  desk.fill("deskLightsSeconds", u"9"_s); // the sealant's own least is 20
  desk.alt(Qt::Key_S);
  CHECK(desk.label("deskLightsSecondsHint").contains(u"at least 20 s"_s));
  desk.fill("deskLightsSeconds", u"30"_s);
  desk.alt(Qt::Key_S);
  CHECK(must(desk.book().cureTarget(desk.clinic.resin, desk.clinic.spare)) == base::Seconds(30));
  CHECK(desk.cell("deskLightsTable", 1, 3) == u"Resin Fern 30 s"_s);
}

TEST_CASE("A reading that the meter can hardly have shown is asked about", "[case-202]") {
  OnDesk desk;
  desk.turnTo(Area::lights);
  desk.choose("deskLightsTable", 0);
  desk.alt(Qt::Key_R);
  desk.fill("deskLightsValue", u"104"_s);
  desk.prompter.confirms = {false};
  const auto before = must(desk.book().readings(desk.clinic.light)).size();
  desk.alt(Qt::Key_S);
  CHECK(must(desk.book().readings(desk.clinic.light)).size() == before);
  CHECK(part<QLineEdit>(desk.page, u"deskLightsValue"_s).text() == u"104"_s);
  desk.fill("deskLightsValue", u"1035"_s);
  desk.alt(Qt::Key_S);
  CHECK(must(desk.book().readings(desk.clinic.light)).size() == before + 1);
}

TEST_CASE("A scanned lot number lands in its line, and a lot is set aside and put back",
          "[case-202]") {
  OnDesk desk;
  desk.turnTo(Area::lots);
  desk.page.scanned(u"RF-2710"_s);
  CHECK(part<QLineEdit>(desk.page, u"deskLotsLot"_s).text() == u"RF-2710"_s);
  desk.alt(Qt::Key_S);
  CHECK(desk.label("deskLotsMaterialHint").contains(u"Required"_s));
  press(desk.page, Qt::Key_Escape); // what was typed is asked about and stays
  CHECK(part<QLineEdit>(desk.page, u"deskLotsLot"_s).text() == u"RF-2710"_s);
  desk.prompter.confirms = {true};
  press(desk.page, Qt::Key_Escape);
  desk.choose("deskLotsTable", 0);
  desk.alt(Qt::Key_Q);
  desk.fill("deskLotsReason", u"recalled"_s);
  desk.alt(Qt::Key_S);
  CHECK(desk.cell("deskLotsTable", 0, 4) == u"SET ASIDE: recalled"_s);
  desk.alt(Qt::Key_B);
  desk.fill("deskLotsReason", u"another lot was meant"_s);
  desk.alt(Qt::Key_S);
  CHECK(desk.cell("deskLotsTable", 0, 4) == u"can be used"_s);
}

TEST_CASE("A license is renewed and a person who leaves loses every right", "[case-202]") {
  OnDesk desk;
  desk.turnTo(Area::team);
  desk.choose("deskTeamTable", 1);
  desk.fill("deskTeamUntil", u"6/30/2028"_s);
  desk.fill("deskTeamReason", u"renewed"_s);
  desk.alt(Qt::Key_S);
  CHECK(desk.member(desk.clinic.assistant).licenseUntil->iso() == "2028-06-30");
  desk.alt(Qt::Key_L);
  desk.fill("deskTeamReason", u"moved away"_s);
  desk.alt(Qt::Key_S);
  CHECK(desk.member(desk.clinic.assistant).may.isEmpty());
  CHECK(desk.cell("deskTeamTable", 1, 4).contains(u"left the team"_s));
  // The last person who may type keeps that right.
  desk.choose("deskTeamTable", 2);
  desk.alt(Qt::Key_L);
  desk.fill("deskTeamReason", u"moved away"_s);
  desk.alt(Qt::Key_S);
  desk.choose("deskTeamTable", 0);
  desk.alt(Qt::Key_L);
  desk.fill("deskTeamReason", u"moved away"_s);
  desk.alt(Qt::Key_S);
  CHECK(desk.label("deskTeamTrouble").contains(u"may type"_s));
  CHECK_FALSE(desk.member(desk.clinic.hygienist).may.isEmpty());
}

TEST_CASE("A school's enrollment is entered by grade, and its term's holidays are corrected",
          "[case-202][case-209]") {
  OnDesk desk;
  desk.turnTo(Area::schools);
  desk.choose("deskSchoolsTable", 0);
  desk.alt(Qt::Key_R);
  desk.fill("deskSchoolsGrade1", u"58"_s);
  desk.fill("deskSchoolsGrade2", u"x"_s);
  desk.alt(Qt::Key_S);
  CHECK(must(desk.book().enrollments(desk.clinic.term)).empty());
  desk.fill("deskSchoolsGrade2", u"61"_s);
  desk.alt(Qt::Key_S);
  CHECK(desk.cell("deskSchoolsTable", 0, 2) == u"119 students"_s);
  desk.turnTo(Area::terms);
  desk.choose("deskTermsTable", 0);
  desk.fill("deskTermsHolidays", u"2026-11-11, 11/26/2026 , 2026-11-27"_s);
  desk.fill("deskTermsReason", u"district calendar"_s);
  desk.alt(Qt::Key_S);
  CHECK(must(desk.book().terms()).front().value.holidays.size() == 3);
  CHECK(desk.label("deskTermsHistory").contains(u"Nov 11, 2026 → Nov 11, 2026, Nov 26, 2026"_s));
}

TEST_CASE("The program's rules stand with what is usual, and change with a reason", "[case-202]") {
  OnDesk desk;
  desk.turnTo(Area::program);
  for (const auto& field : ui::programFields()) {
    INFO(field.key.toStdString());
    CHECK_FALSE(field.hint.isEmpty());
  }
  desk.fill("deskProgramEtch", u"30"_s);
  desk.fill("deskProgramBenchRetained", u"85"_s);
  desk.fill("deskProgramUntil", u"2028-01-31"_s);
  desk.fill("deskProgramReason", u"agreement renewed"_s);
  desk.alt(Qt::Key_S);
  const auto program = must(desk.book().program()).value;
  CHECK(program.times.etch == base::Seconds(30));
  CHECK(program.agreementUntil->iso() == "2028-01-31");
  CHECK(program.benchmarks.retained == 85);
  CHECK_FALSE(program.benchmarks.consented); // blank until it is set
  CHECK(desk.label("deskProgramHistory").contains(u"Etch, seconds: 20 → 30"_s));
}

TEST_CASE("A misspelled name and a changed phone are corrected at the desk", "[case-204]") {
  OnDesk desk;
  const auto mina = desk.clinic.child("Mina", "Tolliver-Reed");
  desk.turnTo(Area::rosters);
  desk.fill("deskStudentsSearch", u"tolliver"_s);
  desk.choose("deskStudentsTable", 0);
  desk.fill("deskStudentsFirst", u"Myna"_s);
  desk.fill("deskStudentsPhone1", u"000-555-0188"_s);
  desk.fill("deskStudentsReason", u"Mina was wrong"_s);
  desk.alt(Qt::Key_S);
  CHECK(desk.label("deskStudentsReasonHint").contains(u"without a name"_s));
  CHECK_FALSE(part<QLineEdit>(desk.page, u"deskStudentsReason"_s).visibleRegion().isEmpty());
  CHECK(must(desk.book().identity(mina)).first == "Mina");
  desk.fill("deskStudentsReason", u"misread on the form"_s);
  desk.alt(Qt::Key_S);
  const auto now = must(desk.book().identity(mina));
  CHECK(now.first == "Myna");
  CHECK(now.guardians.front().phone == "000-555-0188");
  CHECK(now.guardians.front().name == "Rosa Tolliver-Reed");
  CHECK(desk.label("deskStudentsHistory").contains(u"First name: Mina → Myna"_s));
  desk.prompter.confirms = {true};
  desk.alt(Qt::Key_Z);
  CHECK(must(desk.book().identity(mina)).first == "Mina");
}

TEST_CASE("A student is added, moved to another school and confirmed at the desk", "[case-207]") {
  OnDesk desk;
  const auto other = must(desk.book().enterSchool(desk.clinic.by, {"Heron Bend Elementary", "HB"}));
  desk.turnTo(Area::rosters);
  desk.alt(Qt::Key_N);
  desk.fill("deskStudentsFirst", u"Lupe"_s);
  desk.fill("deskStudentsLast", u"Saltmarsh"_s);
  desk.fill("deskStudentsBirth", u"2012-05-02"_s);
  desk.fill("deskStudentsGrade", u"2"_s);
  part<QCheckBox>(desk.page, u"deskStudentsProvisional"_s).setChecked(true);
  desk.prompter.confirms = {false};
  desk.alt(Qt::Key_S); // 14 in the second grade: asked, and not confirmed
  CHECK(must(desk.book().findChildren("lupe")).empty());
  desk.fill("deskStudentsBirth", u"2019-05-02"_s);
  desk.alt(Qt::Key_S);
  const auto found = must(desk.book().findChildren("lupe"));
  REQUIRE(found.size() == 1);
  desk.fill("deskStudentsSearch", ui::toQt(found.front().number));
  desk.choose("deskStudentsTable", 0);
  desk.alt(Qt::Key_M);
  desk.pick("deskStudentsSchool", 1);
  desk.fill("deskStudentsRoom", u"12"_s);
  desk.fill("deskStudentsReason", u"the family moved"_s);
  desk.alt(Qt::Key_S);
  auto card = must(desk.book().child(found.front().child)).value;
  CHECK(card.school == other);
  CHECK(card.room == "12");
  desk.alt(Qt::Key_C);
  desk.fill("deskStudentsReason", u"on the school's list of today"_s);
  desk.alt(Qt::Key_S);
  CHECK_FALSE(must(desk.book().child(found.front().child)).value.provisional);
  const auto history = desk.label("deskStudentsHistory");
  CHECK(history.contains(u"School: Cobble Lantern Elementary → Heron Bend Elementary"_s));
  desk.prompter.confirms = {true, true};
  desk.alt(Qt::Key_Z);
  desk.alt(Qt::Key_Z);
  CHECK(must(desk.book().child(found.front().child)).value.school == desk.clinic.school);
}

TEST_CASE("Whoever enters is said at the desk, and who may not type is refused", "[case-202]") {
  OnDesk desk;
  CHECK(part<QComboBox>(desk.page, u"deskWho"_s).currentText().startsWith(u"OF"_s));
  desk.turnTo(Area::schools);
  desk.pick("deskWho", 0);
  desk.alt(Qt::Key_N);
  desk.fill("deskSchoolsName", u"Heron Bend Elementary"_s);
  desk.fill("deskSchoolsCode", u"CL"_s);
  desk.alt(Qt::Key_S);
  CHECK(
      desk.label("deskSchoolsTrouble")
          .contains(u"one is named as entering this; choose one, at the desk under Entered by"_s));
  desk.pick("deskWho", 3);
  desk.alt(Qt::Key_S);
  CHECK(desk.label("deskSchoolsCodeHint").contains(u"belongs to Cobble Lantern"_s));
  desk.fill("deskSchoolsCode", u"HB"_s);
  desk.alt(Qt::Key_S);
  CHECK(must(desk.book().schools()).back().stamp.by.author == desk.clinic.coordinator);
}

TEST_CASE("What was typed at the desk is never lost without a question", "[case-202]") {
  OnDesk desk;
  desk.turnTo(Area::lights);
  desk.choose("deskLightsTable", 0);
  desk.fill("deskLightsMeter", u"M-2"_s);
  desk.choose("deskLightsTable", 1);
  CHECK(desk.prompter.asked.back().contains(u"Discard unsaved changes"_s));
  CHECK(part<QLineEdit>(desk.page, u"deskLightsMeter"_s).text() == u"M-2"_s);
  desk.turnTo(Area::lots); // another page keeps it
  desk.turnTo(Area::lights);
  CHECK(part<QLineEdit>(desk.page, u"deskLightsMeter"_s).text() == u"M-2"_s);
}

TEST_CASE("The team page says who has a PIN, sets one and resets it", "[case-230][case-231]") {
  OnDesk desk;
  desk.turnTo(Area::team);
  const auto pin = [&] { return desk.cell("deskTeamTable", 1, 5); };
  desk.choose("deskTeamTable", 1);
  CHECK(pin() == u"none"_s);
  desk.alt(Qt::Key_P);
  desk.prompter.pins = {u"2580"_s, u"2581"_s}; // not the same twice
  desk.alt(Qt::Key_S);
  CHECK(pin() == u"none"_s);
  desk.prompter.pins = {u"2580"_s, u"2580"_s};
  desk.alt(Qt::Key_S);
  CHECK(desk.news == u"Bram Ottersley has a new PIN."_s);
  CHECK(pin() == u"set"_s);
  desk.alt(Qt::Key_R);
  desk.fill("deskTeamReason", u"forgot it over the summer"_s);
  desk.alt(Qt::Key_S);
  CHECK(pin() == u"to be chosen"_s);
}
