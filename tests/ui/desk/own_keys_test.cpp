#include "ui/close_out/close_out_page.h"
#include "ui/desk/desk_page.h"
#include "ui/fixtures/desk_fixture.h"

#include <QTableView>

using namespace gk;
using namespace gk::test;
using session::Area;
using session::KeyStanding;

namespace {

/// The desk, for what people do with their own passphrases.
struct KeyDesk : Desk {
  ui::DeskPage page{context, nullptr};

  explicit KeyDesk(Area area) {
    listen(page);
    showActive(page);
    page.turnTo(area);
  }
  void choose(const QString& table, int row) {
    auto& list = part<QTableView>(page, table);
    list.setCurrentIndex(list.model()->index(row, 0));
  }
  void alt(Qt::Key key) { press(page, key, Qt::AltModifier); }
  QString cell(int row, int column) {
    const auto* model = part<QTableView>(page, u"deskTeamTable"_s).model();
    return model->index(row, column).data().toString();
  }
  KeyStanding standing() { return must(clinic.session.keyStanding(clinic.hygienist)); }
};

} // namespace

TEST_CASE("Each person sets and changes the own passphrase on the Team page, and no one another's",
          "[case-223]") {
  KeyDesk desk(Area::team);
  desk.choose(u"deskTeamTable"_s, 0); // the hygienist, who enters
  CHECK(desk.cell(0, 6) == u"none: signs by name only"_s);
  desk.alt(Qt::Key_M);
  desk.prompter.texts = {u"heron over the weir"_s, u"heron over the wier"_s};
  desk.alt(Qt::Key_S);
  CHECK(words(desk.page, u"deskTeamTrouble"_s).contains(u"do not match"_s));
  CHECK(desk.standing() == KeyStanding::never);
  desk.prompter.texts = {u"heron over the weir"_s, u"heron over the weir"_s};
  desk.alt(Qt::Key_S);
  CHECK(desk.standing() == KeyStanding::stands);
  CHECK(desk.cell(0, 6) == u"set"_s);

  desk.choose(u"deskTeamTable"_s, 0);
  desk.alt(Qt::Key_M);
  desk.prompter.texts = {u"heron over the weir"_s, u"four other words"_s, u"four other words"_s};
  desk.alt(Qt::Key_S);
  must(desk.clinic.session.openKey(desk.clinic.hygienist, "four other words"));

  desk.choose(u"deskTeamTable"_s, 1);
  desk.alt(Qt::Key_M);
  desk.prompter.texts = {u"not my own words"_s, u"not my own words"_s};
  desk.alt(Qt::Key_S);
  CHECK(words(desk.page, u"deskTeamTrouble"_s).contains(u"passphrase in person"_s));
  CHECK(must(desk.clinic.session.keyStanding(desk.clinic.assistant)) == KeyStanding::never);

  desk.choose(u"deskTeamTable"_s, 0);
  desk.alt(Qt::Key_V);
  part<QLineEdit>(desk.page, u"deskTeamReason"_s).setText(u"somebody saw it"_s);
  desk.alt(Qt::Key_S);
  CHECK(desk.standing() == KeyStanding::revoked);
  CHECK(desk.cell(0, 6) == u"revoked"_s);
}

TEST_CASE("Whoever leaves the team is told with the days that are not signed yet", "[case-227]") {
  KeyDesk desk(Area::team);
  desk.clinic.standardVisit(desk.clinic.child("Mina"));
  desk.choose(u"deskTeamTable"_s, 1); // the assistant
  desk.alt(Qt::Key_L);
  part<QLineEdit>(desk.page, u"deskTeamReason"_s).setText(u"moved away"_s);
  desk.alt(Qt::Key_S);
  INFO(desk.news.toStdString());
  CHECK(desk.news.contains(u"Unsigned days with their work: "_s +
                           ui::toQt(must(base::Date::parse("2026-11-17")).words()) + u" at "_s));
}

TEST_CASE("A recovery code is made at the desk, printed once and withdrawn", "[case-228]") {
  KeyDesk desk(Area::program);
  desk.choose(u"deskProgramTable"_s, 0);
  desk.alt(Qt::Key_R);
  desk.prompter.choices = {0, 0}; // the first time no printer is chosen
  desk.prompter.prints = {false, true};
  desk.alt(Qt::Key_S);
  REQUIRE(desk.news.startsWith(u"The recovery code is printed."_s));
  CHECK_FALSE(desk.prompter.printed.isEmpty());
  REQUIRE(desk.prompter.shown.size() == 2);
  const auto code = desk.prompter.shown.back().rows.at(0).at(2).text();
  CHECK(code.size() == 41);
  CHECK_FALSE(desk.news.contains(ui::toQt(code))); // the line of news stays after a lock
  desk.clinic.session.lock();
  CHECK(desk.clinic.session.unlock(code));
  desk.choose(u"deskProgramTable"_s, 0);
  desk.alt(Qt::Key_W);
  part<QLineEdit>(desk.page, u"deskProgramReason"_s).setText(u"the sheet is lost"_s);
  desk.alt(Qt::Key_S);
  CHECK_FALSE(must(desk.clinic.session.hasRecoveryCode()));
}

TEST_CASE("The close-out asks each signer with a key for the passphrase, and a wrong one signs "
          "nothing",
          "[case-220][case-222]") {
  Desk desk;
  auto& session = desk.clinic.session;
  must(session.enterKey({desk.clinic.hygienist, {}}, "heron over the weir"));
  desk.clinic.standardVisit(desk.clinic.child("Mina"));
  ui::CloseOutPage page(desk.context, nullptr);
  desk.listen(page);
  showActive(page);
  page.setFocus();
  const auto sign = [&](const QString& passphrase) {
    // No other sheets with names, asked the first time alone.
    if (desk.prompter.asked.isEmpty()) desk.prompter.texts = {u"0"_s};
    desk.prompter.texts.push_back(passphrase);
    desk.prompter.choices = {0, 0};
    press(page, Qt::Key_G, Qt::AltModifier);
  };
  sign(u"something else"_s);
  CHECK_FALSE(must(session.isSigned(desk.clinic.day)));
  CHECK(desk.troubles.join(u'|').contains(u"That is not the passphrase"_s));
  sign(u"heron over the weir"_s);
  CHECK(must(session.isSigned(desk.clinic.day)));
  CHECK(desk.prompter.asked.back().contains(u"type your own passphrase to sign"_s));
  const auto records = must(session.dayRecords(desk.clinic.day));
  CHECK(records.daySignatures.at(0).value.key);
  CHECK_FALSE(records.daySignatures.at(1).value.key); // by name only: the coordinator has none
}

TEST_CASE("A signer who entered the passphrase earlier that day gives her PIN for the next signing",
          "[case-222]") {
  Desk desk;
  auto& session = desk.clinic.session;
  const auto hygienist = desk.clinic.hygienist;
  must(session.enterKey({hygienist, {}}, "heron over the weir"));
  desk.clinic.standardVisit(desk.clinic.child("Mina"));
  must(session.setPin({hygienist, {}}, hygienist, "2580"));
  must(session.signIn(hygienist, "2580"));
  desk.context.acting.signIn(hygienist);
  must(session.openKey(hygienist, "heron over the weir"));
  desk.clinic.clock.advance(session::KeyVerbs::signingLasts + std::chrono::seconds(1));
  ui::CloseOutPage page(desk.context, nullptr);
  desk.listen(page);
  showActive(page);
  page.setFocus();
  const auto sign = [&](std::deque<QString> pins) {
    if (desk.prompter.asked.isEmpty()) desk.prompter.texts = {u"0"_s};
    // Her own placements are left for later; she signs, the coordinator by name.
    desk.prompter.choices = {1, 0, 0};
    desk.prompter.pins = std::move(pins);
    press(page, Qt::Key_G, Qt::AltModifier);
  };
  sign({});
  CHECK_FALSE(must(session.isSigned(desk.clinic.day)));
  CHECK(desk.news == u"Not signed."_s);
  sign({u"9038"_s});
  CHECK_FALSE(must(session.isSigned(desk.clinic.day)));
  CHECK(desk.prompter.asked.back().contains(u"to sign the day"_s));
  desk.clinic.clock.advance(std::chrono::seconds(3));
  sign({u"2580"_s});
  CHECK(must(session.isSigned(desk.clinic.day)));
  CHECK(must(session.dayRecords(desk.clinic.day)).daySignatures.at(0).value.key);
}
