#include "ui/desk/desk_page.h"
#include "ui/fixtures/desk_fixture.h"

#include <QComboBox>
#include <QTableView>

using namespace gk;
using namespace gk::test;
using session::Area;

namespace {

/// The students of the desk, one of them found.
struct OneOfThem : Desk {
  roster::ChildId osei = clinic.child("Osei");
  ui::DeskPage page{context, nullptr};

  OneOfThem() {
    listen(page);
    showActive(page);
    page.turnTo(Area::rosters);
    fill("deskStudentsSearch", u"osei"_s);
    table().setCurrentIndex(table().model()->index(0, 0));
  }
  void fill(const char* name, const QString& text) {
    part<QLineEdit>(page, QString::fromLatin1(name)).setText(text);
  }
  void pick(const char* name, int place) {
    part<QComboBox>(page, QString::fromLatin1(name)).setCurrentIndex(place);
  }
  void alt(Qt::Key key) { press(page, key, Qt::AltModifier); }
  QTableView& table() { return part<QTableView>(page, u"deskStudentsTable"_s); }
  QString standing() { return table().model()->index(0, 5).data().toString(); }
  QString label(const char* name) { return words(page, QString::fromLatin1(name)); }
  roster::Child card() { return must(clinic.session.child(osei)).value; }
};

} // namespace

TEST_CASE("A student who left the program is recorded at the desk, shown, and brought back",
          "[case-466]") {
  OneOfThem desk;
  desk.alt(Qt::Key_L);
  desk.pick("deskStudentsBecause", static_cast<int>(roster::LeftBecause::graduated));
  desk.fill("deskStudentsFrom", u"11/18/2026"_s);
  desk.alt(Qt::Key_S);
  CHECK(desk.card().left ==
        roster::Leaving{must(base::Date::parse("2026-11-18")), roster::LeftBecause::graduated});
  CHECK(desk.standing() == u"left Nov 18, 2026: graduated"_s);
  CHECK(desk.label("deskStudentsHistory").contains(u"Reason: none → Graduated"_s));
  desk.alt(Qt::Key_O);
  desk.fill("deskStudentsReason", u"seen in class"_s);
  desk.alt(Qt::Key_S);
  CHECK_FALSE(desk.card().left);
  CHECK(desk.standing() == u"on the roster"_s);
  desk.prompter.confirms = {true, true};
  desk.alt(Qt::Key_Z);
  CHECK(desk.card().left);
  desk.alt(Qt::Key_Z);
  CHECK_FALSE(desk.card().left);
}

TEST_CASE("A student left for another reason: the form asks for it in words", "[case-485]") {
  OneOfThem desk;
  desk.alt(Qt::Key_L);
  desk.pick("deskStudentsBecause", static_cast<int>(roster::LeftBecause::other));
  desk.alt(Qt::Key_S);
  CHECK(desk.label("deskStudentsReasonHint").contains(u"say why, in a few words"_s));
  CHECK_FALSE(desk.card().left);
  desk.fill("deskStudentsReason", u"Osei is taught at home"_s);
  desk.alt(Qt::Key_S);
  CHECK(desk.label("deskStudentsReasonHint").contains(u"say it without a name"_s));
  desk.fill("deskStudentsReason", u"taught at home"_s);
  desk.alt(Qt::Key_S);
  CHECK(must(desk.clinic.session.child(desk.osei)).stamp.reason == "other: taught at home");
  CHECK(desk.label("deskStudentsHistory").contains(u"other: taught at home"_s));
}
