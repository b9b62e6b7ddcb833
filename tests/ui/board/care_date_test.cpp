#include "ui/fixtures/board_fixture.h"
#include "ui/fixtures/window_fixture.h"

#include <QComboBox>

#include <algorithm>

using namespace gk;
using namespace gk::test;

TEST_CASE("A day left open says for which date all is written until it is closed", "[case-101]") {
  Window desk;
  desk.fill();
  {
    desk.openAndUnlock();
    CHECK_FALSE(desk.shows(u"careDate"_s));
    desk.window.reset();
  }
  desk.clock.advance(std::chrono::hours(24));
  desk.openAndUnlock();
  for (const auto page : {Qt::Key_F1, Qt::Key_F2, Qt::Key_F5, Qt::Key_F9}) {
    press(*desk.window, page);
    REQUIRE(desk.shows(u"careDate"_s));
    CHECK(desk.reads(u"The open day is Tuesday, November 17, 2026, and today is Wednesday, "_s
                     u"November 18, 2026"_s));
  }
}

TEST_CASE("What was looked for on the board does not stand in the next one's way") {
  Window desk;
  desk.fill();
  desk.openAndUnlock();
  auto& line = part<QLineEdit>(*desk.window, u"boardSearch"_s);
  line.setFocus();
  line.setText(u"zzz"_s);
  press(*desk.window, Qt::Key_Return);
  CHECK(desk.reads(u"No match"_s));
  CHECK(line.selectedText() == u"zzz"_s); // the next number takes its place
  press(*desk.window, Qt::Key_F2);
  press(*desk.window, Qt::Key_F1);
  CHECK(line.text().isEmpty());
}

TEST_CASE("A day from paper before a school was closed is opened afterwards", "[case-418]") {
  Board board;
  auto& book = board.clinic.session;
  const auto closed = must(book.enterSchool(board.clinic.by, {"Heron Bend Elementary", "HB"}));
  must(book.closeSchool(board.clinic.by, closed, must(base::Date::parse("2026-11-12")),
                        "the district closed it"));
  board.open();
  press(board.page, Qt::Key_O, Qt::AltModifier);
  auto& school = part<QComboBox>(board.page, u"daySchool"_s);
  const auto at = school.findText(u"Heron Bend Elementary"_s);
  REQUIRE(at >= 0);
  const auto isOffered = [&] { return school.model()->index(at, 0).flags() & Qt::ItemIsEnabled; };
  CHECK_FALSE(isOffered());
  board.fill(u"dayDate"_s, u"11/10/2026"_s);
  CHECK(isOffered());
  school.setCurrentIndex(at);
  board.fill(u"dayDate"_s, u"11/16/2026"_s);
  CHECK_FALSE(isOffered());
  CHECK(school.currentIndex() != at);
  board.fill(u"dayDate"_s, u"11/10/2026"_s);
  school.setCurrentIndex(at);
  press(board.page, Qt::Key_Return, Qt::ControlModifier);
  INFO(board.troubles.join(u' ').toStdString());
  const auto days = must(book.days(must(book.terms()).front().id));
  CHECK(std::ranges::any_of(days, [&](const auto& day) {
    return day.value.school == closed && day.value.date.iso() == "2026-11-10";
  }));
}

TEST_CASE("A day that the calendar has is offered with its school and team when it is opened",
          "[case-477]") {
  Board board;
  auto& book = board.clinic.session;
  const auto by = board.clinic.by;
  const auto heron = must(book.enterSchool(by, {"Heron Bend Elementary", "HB"}));
  roster::PlannedDay plan{board.clinic.term, heron, must(base::Date::parse("2026-11-19"))};
  plan.team = 2;
  must(book.planDay(by, plan));
  board.open();
  press(board.page, Qt::Key_O, Qt::AltModifier);
  const auto& school = part<QComboBox>(board.page, u"daySchool"_s);
  CHECK_FALSE(words(board.page, u"dayQuestion"_s).contains(u"Planned"_s)); // today: nothing
  press(board.page, Qt::Key_Escape);
  board.clinic.clock.advance(std::chrono::hours(48));
  book.confirmClock();
  press(board.page, Qt::Key_O, Qt::AltModifier);
  CHECK(school.currentText() == u"Heron Bend Elementary"_s);
  CHECK(words(board.page, u"dayQuestion"_s).contains(u"Planned: Heron Bend Elementary, team 2."_s));
  press(board.page, Qt::Key_Return, Qt::ControlModifier);
  INFO(board.troubles.join(u' ').toStdString());
  const auto days = must(book.days(board.clinic.term));
  CHECK(std::ranges::any_of(days, [&](const auto& day) {
    return day.value.school == heron && day.value.date == plan.date && day.value.team == 2;
  }));
  // Opened already, it is offered no more; and what a person chose stays.
  press(board.page, Qt::Key_O, Qt::AltModifier);
  board.fill(u"dayDate"_s, u"11/19/2026"_s);
  CHECK_FALSE(words(board.page, u"dayQuestion"_s).contains(u"Planned"_s));
}
