#include "ui/desk/desk_page.h"
#include "ui/fixtures/desk_fixture.h"

#include <QTableView>

using namespace gk;
using namespace gk::test;
using session::Area;

namespace {

/// The desk, for replacing the key of the names.
struct NamesKeyDesk : Desk {
  ui::DeskPage page{context, nullptr};

  explicit NamesKeyDesk(Area area) {
    listen(page);
    showActive(page);
    page.turnTo(area);
  }
  void choose(const QString& table, int row) {
    auto& list = part<QTableView>(page, table);
    list.setCurrentIndex(list.model()->index(row, 0));
  }
  void alt(Qt::Key key) { press(page, key, Qt::AltModifier); }
  bool opens(const char* words) {
    clinic.session.lock();
    const bool opened = clinic.session.unlock(words).has_value();
    if (!opened) clinic.session.lock();
    return opened;
  }
};

} // namespace

TEST_CASE("The key of the names is replaced at the desk, confirmed by a passphrase", "[case-267]") {
  NamesKeyDesk desk(Area::program);
  desk.choose(u"deskProgramTable"_s, 0);
  desk.alt(Qt::Key_K);
  part<QLineEdit>(desk.page, u"deskProgramReason"_s).setText(u"someone left"_s);
  desk.prompter.texts = {u"nine kites on a line"_s, u"nine kites on a line"_s,
                         u"not the passphrase"_s};
  desk.alt(Qt::Key_S);
  CHECK(desk.opens(Clinic::passphrase)); // nothing was changed
  desk.prompter.texts = {u"nine kites on a line"_s, u"nine kites on a line"_s,
                         QString::fromLatin1(Clinic::passphrase)};
  desk.alt(Qt::Key_S);
  INFO(desk.news.toStdString());
  CHECK(desk.news.startsWith(u"The key of the names is replaced."_s));
  CHECK_FALSE(desk.opens(Clinic::passphrase));
  CHECK(desk.opens("nine kites on a line"));
}

TEST_CASE("Whoever ends a person's rights is offered to replace the key of the names there",
          "[case-227][case-267]") {
  NamesKeyDesk desk(Area::team);
  desk.choose(u"deskTeamTable"_s, 1); // the assistant
  desk.alt(Qt::Key_L);
  part<QLineEdit>(desk.page, u"deskTeamReason"_s).setText(u"moved away"_s);
  SECTION("done at once") {
    desk.prompter.confirms = {true};
    desk.prompter.texts = {u"nine kites on a line"_s, u"nine kites on a line"_s,
                           QString::fromLatin1(Clinic::passphrase)};
    desk.alt(Qt::Key_S);
    INFO(desk.news.toStdString());
    CHECK(desk.news.contains(u"The key of the names is replaced."_s));
    CHECK(desk.opens("nine kites on a line"));
  }
  SECTION("or left for later, and said") {
    desk.alt(Qt::Key_S);
    INFO(desk.news.toStdString());
    CHECK(desk.news.contains(u"replace the key of the names"_s));
    CHECK(desk.opens(Clinic::passphrase));
  }
}
