#include "ui/fixtures/board_fixture.h"
#include "ui/lists/board_delegate.h"
#include "ui/look/style.h"

#include <QTableView>

using namespace gk;
using namespace gk::test;

TEST_CASE("The board says age, plan and when a student was last seen", "[case-304]") {
  Board board;
  const auto child = board.clinic.child("Calla");
  board.open();
  const auto line = *board.lineOf(child);
  REQUIRE(line.age);
  CHECK(line.plan == "screen, seal, varnish, recheck");
  CHECK(line.lastSeen.empty());
  const auto facts = words(board.page, u"boardCardFacts"_s);
  CHECK(facts.contains(u"age %1"_s.arg(*line.age)));
  CHECK(facts.contains(u"First visit"_s));
  CHECK(facts.contains(u"Plan: screen"_s));
  QCoreApplication::processEvents();
  board.page.resize(1366, 640);
  QCoreApplication::processEvents();
  const auto& label = part<QLabel>(board.page, u"boardCardFacts"_s);
  CHECK(label.visibleRegion() == QRegion(label.rect()));
  CHECK(label.heightForWidth(label.width()) <= label.height());
  CHECK(part<QTableView>(board.page, u"boardTable"_s).viewport()->height() >= ui::style::px(33));
}

TEST_CASE("Alerts of a row that have no room are counted", "[case-304]") {
  Board board;
  const auto child = board.clinic.child("Mina");
  using roster::FlagAction;
  using roster::FlagKind;
  for (const auto& [kind, action] : {std::pair(FlagKind::latexAllergy, FlagAction::stop),
                                     {FlagKind::asthma, FlagAction::ask},
                                     {FlagKind::mouthSore, FlagAction::ask}})
    must(board.clinic.session.enterFlag(board.clinic.by, {child, kind, action, "", false, ""}));
  board.open();
  const auto line = *board.lineOf(child);
  auto letters = board.page.font();
  letters.setPixelSize(14);
  const QFontMetrics metrics(letters);
  const auto shown = [&](double width) {
    QStringList words;
    for (const auto& pill : ui::pillsIn(line, width, metrics))
      words += pill.words;
    return words;
  };
  const auto& table = part<QTableView>(board.page, u"boardTable"_s);
  CHECK(shown(table.columnWidth(ui::BoardModel::alerts) - 6) ==
        QStringList{u"ALLERGY: latex"_s, u"+2"_s});
  const auto all = shown(2000);
  REQUIRE(all.size() == 3);
  CHECK(all.back() != u"+1"_s);
  double room = 0; // the first that shows two of them and the count of the third
  while (shown(room).size() < 3)
    ++room;
  CHECK(shown(room).mid(0, 2) == all.mid(0, 2));
  CHECK(shown(room).back() == u"+1"_s);
  CHECK(shown(60).size() == 2); // also where not even one has room
}

TEST_CASE("After three students the board tells the pace of the day and when it ends",
          "[case-304]") {
  Board board;
  for (const auto* name : {"Ada", "Bea", "Cleo"}) {
    const auto child = board.clinic.child(name);
    board.clinic.standardVisit(child);
    board.clinic.clock.advance(std::chrono::minutes(20));
  }
  board.clinic.child("Dot");
  board.open();
  const auto said = words(board.page, u"boardPace"_s);
  INFO(said.toStdString());
  CHECK(said.startsWith(u"Seen 3, left 1. "_s));
  CHECK(said.contains(u"min a student; at today's pace done about "_s));
}

TEST_CASE("A student of any day is found by name, with a card of all visits", "[case-305]") {
  Board board;
  const auto mina = board.clinic.child("Mina", "Tolliver-Reed");
  board.clinic.standardVisit(mina);
  const auto other = board.clinic.childWithoutForm("Nell", "Brackwater"); // on no board
  board.open();
  board.type(u"Nell"_s);
  board.prompter.choices = {0, 0}; // Nell, and back
  press(board.page, Qt::Key_V, Qt::AltModifier);
  REQUIRE(board.prompter.shown.size() == 1);
  CHECK(board.prompter.shown.back().title == "Visits of Nell Brackwater");
  CHECK(board.prompter.shown.back().notes.front() == "Not seen yet.");
  board.type(board.number(mina));
  board.prompter.choices = {0};
  press(board.page, Qt::Key_V, Qt::AltModifier);
  REQUIRE(board.prompter.shown.size() == 2);
  const auto& card = board.prompter.shown.back();
  REQUIRE(card.rows.size() == 1);
  CHECK(card.rows.front().at(0) == "2026-11-17");
  CHECK(card.rows.front().at(2) == "sealed, complete");
  CHECK(card.rows.front().at(3).text().starts_with("screened; sealed 4: "));
  CHECK(board.taken.empty());
  board.prompter.choices = {1};
  board.type(board.number(mina));
  press(board.page, Qt::Key_V, Qt::AltModifier);
  CHECK(board.taken == std::vector{mina});
  (void)other;
}
