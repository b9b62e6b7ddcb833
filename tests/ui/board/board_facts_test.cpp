#include "ui/fixtures/board_fixture.h"

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
