#include "ui/desk/desk_page.h"
#include "ui/fixtures/desk_fixture.h"

#include <QTableView>

using namespace gk;
using namespace gk::test;

namespace {

/// The students of the desk.
struct Students : Desk {
  ui::DeskPage page{context, nullptr};

  Students() {
    listen(page);
    showActive(page);
    page.turnTo(session::Area::rosters);
  }
  void fill(const char* name, const QString& text) {
    part<QLineEdit>(page, QString::fromLatin1(name)).setText(text);
  }
  void chooseFirst() {
    auto& students = part<QTableView>(page, u"deskStudentsTable"_s);
    students.setCurrentIndex(students.model()->index(0, 0));
  }
  void save() { press(page, Qt::Key_S, Qt::AltModifier); }
};

} // namespace

TEST_CASE("A corrected phone of a guardian is asked about for brothers and sisters, once",
          "[case-6]") {
  Students desk;
  const auto mina = desk.clinic.child("Mina", "Tolliver-Reed");
  const auto lupe = desk.clinic.child("Lupe", "Tolliver-Reed");
  const auto wren = desk.clinic.child("Wren", "Hollowell");
  const auto old = must(desk.clinic.session.identity(mina)).guardians.front();
  REQUIRE(must(desk.clinic.session.identity(lupe)).guardians.front() == old);
  const auto phoneOf = [&](roster::ChildId child) {
    return must(desk.clinic.session.identity(child)).guardians.front().phone;
  };
  const auto apart = phoneOf(wren);
  desk.fill("deskStudentsSearch", u"mina"_s);
  desk.chooseFirst();
  desk.fill("deskStudentsPhone1", u"000-555-0188"_s);
  desk.fill("deskStudentsReason", u"new phone, said by the school"_s);
  SECTION("for all of them") {
    desk.prompter.confirms = {true};
    desk.save();
    CHECK(phoneOf(lupe) == "000-555-0188");
    CHECK(desk.news.contains(u"corrected for Lupe Tolliver-Reed"_s));
    CHECK(must(desk.clinic.session.identity(lupe)).first == "Lupe");
  }
  SECTION("for this one alone") {
    desk.prompter.confirms = {false};
    desk.save();
    CHECK(phoneOf(lupe) == old.phone);
    CHECK(desk.news.contains(u"The old phone stays for Lupe Tolliver-Reed"_s));
  }
  CHECK(phoneOf(mina) == "000-555-0188");
  CHECK(phoneOf(wren) == apart); // another guardian
  REQUIRE(desk.prompter.asked.size() == 1);
  CHECK(desk.prompter.asked.front().contains(u"Rosa Tolliver-Reed is also a guardian of Lupe"_s));
  CHECK(desk.troubles.join(u'|') == QString());
  desk.fill("deskStudentsPhone1", u"000-555-0199"_s);
  desk.fill("deskStudentsReason", u"a digit was wrong"_s);
  desk.prompter.confirms = {true};
  desk.save();
  CHECK(phoneOf(mina) == "000-555-0199");
}

TEST_CASE(
    "A student ID is seen and corrected at the desk, and the earlier one stays in the history",
    "[case-523]") {
  Students desk;
  const auto mina = desk.clinic.child("Mina", "Tolliver-Reed");
  const auto idOf = [&] { return must(desk.clinic.session.identity(mina)).studentId; };
  const auto correctTo = [&](const QString& id) {
    desk.fill("deskStudentsSearch", u"mina"_s);
    desk.chooseFirst();
    desk.fill("deskStudentsStudentId", id);
    desk.fill("deskStudentsReason", u"said by the school"_s);
    desk.save();
  };
  correctTo(u"70101"_s);
  CHECK(idOf() == "70101");
  desk.fill("deskStudentsSearch", u"mina"_s);
  desk.chooseFirst();
  CHECK(part<QLineEdit>(desk.page, u"deskStudentsStudentId"_s).text() == u"70101"_s);
  correctTo(u"70102"_s);
  CHECK(idOf() == "70102");
  CHECK(must(desk.clinic.session.identity(mina)).guardians.size() == 1);
  CHECK(desk.troubles.join(u'|') == QString());
}
