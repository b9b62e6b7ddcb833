#include "reports/day/close_out_tables.h"
#include "ui/board/day_board_page.h"
#include "ui/close_out/close_out_page.h"
#include "ui/fixtures/desk_fixture.h"
#include "ui/lists/report_browser.h"

#include <QListWidget>

using namespace gk;
using namespace gk::test;

namespace {

constexpr int eachChildSection = reports::close_out::eachChild;
constexpr int lateEntriesSection = reports::close_out::lateEntries;

/// The close-out of a day that is signed.
class SignedDesk : public Desk {
 public:
  roster::ChildId mina = clinic.child("Mina", "Tolliver-Reed");
  ui::CloseOutPage page{context, nullptr};

  SignedDesk() {
    clinic.standardVisit(mina);
    must(clinic.session.signDay(clinic.by, {clinic.day, clinic.hygienist, clinic.coordinator}));
    listen(page);
    page.chooseDay(clinic.day);
    showActive(page);
    page.setFocus();
  }
  void choose(int section) { page.findChild<ui::ReportBrowser*>()->choose(section); }
  [[nodiscard]] const reports::Table& table(std::size_t at) const {
    return page.findChild<ui::ReportBrowser*>()->tables().at(at);
  }
  [[nodiscard]] bool isEnabled(const QString& button) const {
    return part<QPushButton>(page, button).isEnabled();
  }
};

bool holdsNote(const reports::Table& table, const std::string& words) {
  return std::ranges::any_of(
      table.notes, [&](const auto& note) { return note.find(words) != std::string::npos; });
}

} // namespace

TEST_CASE("A signed day is reopened from its close-out with a reason and signed again",
          "[case-119]") {
  SignedDesk desk;
  CHECK(words(desk.page, u"closeOutVerdict"_s).startsWith(u"■ Signed by "_s));
  CHECK(desk.isEnabled(u"closeOutReopen"_s));
  press(desk.page, Qt::Key_E, Qt::AltModifier); // backs out
  CHECK(must(desk.clinic.session.isSigned(desk.clinic.day)));
  desk.prompter.texts = {u"the outcome was another"_s};
  press(desk.page, Qt::Key_E, Qt::AltModifier);
  CHECK(desk.troubles.join(u'|') == QString());
  CHECK_FALSE(must(desk.clinic.session.isSigned(desk.clinic.day)));
  CHECK(desk.news.contains(u"two people sign again"_s));
  CHECK_FALSE(desk.isEnabled(u"closeOutReopen"_s));
  CHECK_FALSE(desk.isEnabled(u"closeOutLateEntry"_s));
  desk.prompter.texts = {u"0"_s}; // no other sheets with names
  desk.prompter.choices = {0, 0};
  press(desk.page, Qt::Key_G, Qt::AltModifier);
  CHECK(desk.troubles.join(u'|') == QString());
  CHECK(holdsNote(desk.table(0), "because: the outcome was another."));
  CHECK(holdsNote(desk.table(0), "Signed again on "));
}

TEST_CASE("A late entry is written from a child's line or for the whole day and is listed",
          "[case-120]") {
  SignedDesk desk;
  desk.choose(eachChildSection);
  desk.prompter.choices = {0};
  desk.prompter.texts = {u"the rinse ran twice"_s};
  press(desk.page, Qt::Key_A, Qt::AltModifier);
  CHECK(desk.troubles.join(u'|') == QString());
  CHECK(desk.news.startsWith(u"The late entry is added"_s));
  desk.choose(lateEntriesSection);
  desk.prompter.choices = {1};
  desk.prompter.texts = {u"the lamp hummed"_s};
  press(desk.page, Qt::Key_A, Qt::AltModifier);
  const auto& rows = desk.table(lateEntriesSection).rows;
  REQUIRE(rows.size() == 2);
  CHECK(rows[0].at(1).text().find("Mina") != std::string::npos);
  CHECK(rows[0].at(2) == "the rinse ran twice");
  CHECK(rows[1].at(1) == "the whole day");
  CHECK(partText(desk.page, lateEntriesSection) == u"Late entries  2"_s);
}

TEST_CASE("On an open day neither key is there", "[case-120]") {
  Desk desk;
  ui::CloseOutPage page(desk.context, nullptr);
  showActive(page);
  CHECK_FALSE(part<QPushButton>(page, u"closeOutReopen"_s).isEnabled());
  CHECK_FALSE(part<QPushButton>(page, u"closeOutLateEntry"_s).isEnabled());
}

TEST_CASE("The board says of a signed day where it can be changed", "[case-119]") {
  SignedDesk desk;
  ui::DayBoardPage board(desk.context, nullptr);
  QStringList said;
  QObject::connect(&board, &ui::Page::failed, &board,
                   [&](const ui::Message& message) { said += ui::inOneLine(message); });
  board.chooseDay(desk.clinic.day);
  showActive(board);
  board.setFocus();
  press(board, Qt::Key_A, Qt::AltModifier);
  REQUIRE(said.size() == 1);
  CHECK(said.front().contains(u"This school day is signed"_s));
  CHECK(said.front().contains(u"close-out, F3: Reopen day or Late entry"_s));
  CHECK_FALSE(said.front().contains(u"not open"_s));
}

TEST_CASE("Whoever is neither of the two signers cannot sign for them", "[case-122]") {
  Desk desk;
  ui::CloseOutPage page(desk.context, nullptr);
  desk.listen(page);
  showActive(page);
  page.setFocus();
  ui::Setup setup;
  setup.author = desk.clinic.assistant;
  desk.acting.change(setup);
  desk.prompter.texts = {u"0"_s};
  desk.prompter.choices = {0, 0};
  press(page, Qt::Key_G, Qt::AltModifier);
  REQUIRE(desk.troubles.size() == 1);
  CHECK(desk.troubles.front().contains(u"may not: sign"_s));
  CHECK_FALSE(must(desk.clinic.session.isSigned(desk.clinic.day)));
}

TEST_CASE("A withdrawal after the day is signed is kept and tells no one to stop", "[case-125]") {
  SignedDesk desk;
  ui::DayBoardPage board(desk.context, nullptr);
  desk.listen(board);
  board.chooseDay(desk.clinic.day);
  showActive(board);
  board.setFocus();
  desk.prompter.texts = {u"mother, by phone"_s};
  press(board, Qt::Key_W, Qt::AltModifier);
  CHECK(desk.troubles.join(u'|') == QString());
  CHECK(desk.news == u"Consent withdrawn; what is recorded today stays."_s);
  CHECK(must(desk.clinic.session.consents(desk.mina)).back().value.state ==
        roster::ConsentState::withdrawn);
}
