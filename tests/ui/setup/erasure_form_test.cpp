#include "base/text/text.h"
#include "ui/desk/desk_page.h"
#include "ui/fixtures/desk_fixture.h"

#include <QTableView>

using namespace gk;
using namespace gk::test;

TEST_CASE("A student is erased at the desk once the counted rows were typed and confirmed",
          "[case-319]") {
  Desk desk;
  auto& session = desk.clinic.session;
  const auto mina = desk.clinic.child("Mina");
  desk.clinic.standardVisit(mina);
  must(
      session.noteBackup(desk.clinic.by, {.day = desk.clinic.day, .file = "stick/tuesday.gkbook"}));
  const auto plan = must(session.erasurePlan(mina));
  ui::DeskPage page{desk.context, nullptr};
  desk.listen(page);
  showActive(page);
  page.turnTo(session::Area::rosters);
  part<QLineEdit>(page, u"deskStudentsSearch"_s).setText(u"Mina"_s);
  Q_EMIT part<QLineEdit>(page, u"deskStudentsSearch"_s).textEdited(u"Mina"_s);
  auto& table = part<QTableView>(page, u"deskStudentsTable"_s);
  REQUIRE(table.model()->rowCount() == 1);
  const auto open = [&] {
    table.setCurrentIndex(table.model()->index(0, 0));
    press(page, Qt::Key_R, Qt::AltModifier);
  };
  open();
  const auto note = words(page, u"deskStudentsNote"_s);
  INFO(note.toStdString());
  CHECK(note.contains(ui::counted(plan.total, "row", "rows") + u" of student "_s +
                      ui::toQt(plan.number)));
  CHECK(note.contains(u"students and teeth sealed"_s));
  CHECK(note.contains(u"Backups keep the student"_s));

  const auto type = [&](const QString& key, const QString& text) {
    part<QLineEdit>(page, u"deskStudents"_s + key).setText(text);
  };
  type(u"Request"_s, u"mother, letter of October 12"_s);
  type(u"Authority"_s, u"state records law, section 4"_s);
  type(u"Reason"_s, u"she asked for it"_s);
  type(u"Rows"_s, QString::number(plan.total + 1)); // not the number that was shown
  press(page, Qt::Key_S, Qt::AltModifier);
  CHECK(part<QLineEdit>(page, u"deskStudentsRows"_s)
            .accessibleDescription()
            .contains(u"review what would be erased"_s));
  CHECK(session.child(mina).has_value());

  type(u"Rows"_s, QString::number(plan.total));
  desk.prompter.confirms = {false}; // backed out
  press(page, Qt::Key_S, Qt::AltModifier);
  CHECK(session.child(mina).has_value());

  desk.prompter.confirms = {true};
  press(page, Qt::Key_S, Qt::AltModifier);
  INFO(desk.news.toStdString());
  CHECK_FALSE(session.child(mina).has_value());
  CHECK(desk.news.startsWith(u"Erased "_s + ui::counted(plan.total, "row", "rows")));
  CHECK(desk.news.contains(u"stick/tuesday.gkbook"_s));
  CHECK_FALSE(desk.news.contains(u"Mina"_s));
  CHECK(table.model()->rowCount() == 0); // and the list no longer has the student
  REQUIRE(must(session.erasures()).size() == 1);

  press(page, Qt::Key_H, Qt::AltModifier); // Laptops
  const auto* laptops = part<QTableView>(page, u"deskLaptopTable"_s).model();
  QStringList lines;
  for (int row = 0; row < laptops->rowCount(); ++row)
    lines += laptops->index(row, 0).data().toString();
  const auto who = u"student "_s + ui::toQt(plan.number);
  CHECK(lines.filter(who + u": erased on "_s).size() == 1);
  CHECK(lines.filter(u"may still hold "_s + who + u": "_s).filter(u"tuesday"_s).size() == 1);
}

TEST_CASE(
    "Whoever has a key of their own types its passphrase to sign an erasure, or erases nothing",
    "[case-404]") {
  Desk desk;
  auto& session = desk.clinic.session;
  const auto mina = desk.clinic.child("Mina");
  must(session.enterKey({desk.clinic.hygienist, {}}, "heron over the weir"));
  const auto plan = must(session.erasurePlan(mina));
  ui::DeskPage page{desk.context, nullptr};
  desk.listen(page);
  showActive(page);
  page.turnTo(session::Area::rosters);
  part<QLineEdit>(page, u"deskStudentsSearch"_s).setText(u"Mina"_s);
  Q_EMIT part<QLineEdit>(page, u"deskStudentsSearch"_s).textEdited(u"Mina"_s);
  auto& table = part<QTableView>(page, u"deskStudentsTable"_s);
  REQUIRE(table.model()->rowCount() == 1);
  table.setCurrentIndex(table.model()->index(0, 0));
  press(page, Qt::Key_R, Qt::AltModifier);
  const auto type = [&](const QString& key, const QString& text) {
    part<QLineEdit>(page, u"deskStudents"_s + key).setText(text);
  };
  type(u"Request"_s, u"mother, letter of October 12"_s);
  type(u"Authority"_s, u"state records law, section 4"_s);
  type(u"Reason"_s, u"she asked for it"_s);
  type(u"Rows"_s, QString::number(plan.total));

  const auto save = [&](std::deque<QString> passphrases) {
    desk.prompter.confirms = {true};
    desk.prompter.texts = std::move(passphrases);
    press(page, Qt::Key_S, Qt::AltModifier);
  };
  save({}); // backed out
  CHECK(session.child(mina).has_value());
  save({u"not these words"_s});
  CHECK(session.child(mina).has_value());
  save({u"heron over the weir"_s});
  INFO(desk.troubles.join(u'|').toStdString());
  CHECK_FALSE(session.child(mina).has_value());
  const auto listed = must(session.erasures());
  REQUIRE(listed.size() == 1);
  CHECK(listed.front().record.value.key.has_value());
  CHECK(must(session.findings()).empty());
}
