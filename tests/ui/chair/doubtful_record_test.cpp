#include "ui/board/day_board_page.h"
#include "ui/fixtures/desk_fixture.h"
#include "ui/fixtures/later_fixture.h"

using namespace gk;
using namespace gk::test;
using dentition::toothAt;

namespace {

/// A child sealed a year ago.
struct MixedUp : Later {
  MixedUp() : Later(365) {}
  std::vector<dentition::Tooth> teeth() {
    std::vector<dentition::Tooth> out;
    for (const auto& row : must(clinic.session.placements(wren)))
      out.push_back(row.value.tooth);
    return out;
  }
  bool isOn(int iso) { return std::ranges::count(teeth(), toothAt(iso)) == 1; }
};

} // namespace

TEST_CASE("A recheck that finds no such sealant leaves the record doubtful or corrects the tooth",
          "[case-64]") {
  MixedUp chair;
  chair.seat(chair.wren);
  REQUIRE(chair.text("recheckTitle") == u"Upper right first molar, 3"_s);
  chair.press("00"); // neither surface
  chair.press("8");  // record doubtful
  chair.press("1");  // no one knows
  CHECK(chair.text("recheckAnswers").contains(u"NOT ASSESSABLE"_s));
  chair.press(Qt::Key_Return);
  const auto earlier = must(chair.clinic.session.earlierPlacements(chair.wren, chair.clinic.day));
  REQUIRE(earlier.front().newest.has_value());
  CHECK(earlier.front().newest->value.why == followup::CannotAssess::recordDoubtful);

  REQUIRE(chair.text("recheckTitle") != u"Upper right first molar, 3"_s);
  const bool lowerRight = chair.text("recheckTitle").startsWith(u"Lower right"_s);
  chair.press("00");
  chair.press("8");
  chair.press("2"); // another tooth bears it
  chair.type(u"31"_s);
  CHECK(chair.message().contains(u"lower right second molar"_s));
  CHECK(chair.isOn(47));
  CHECK(chair.isOn(lowerRight ? 36 : 46));
}

TEST_CASE("A sealant of ours where the logbook has none is said to be doubtful and can be fixed",
          "[case-64]") {
  MixedUp chair;
  chair.seat(chair.wren);
  chair.press("Y"); // no recheck of the others now
  REQUIRE(chair.shows("screeningPanel"));
  chair.press("SSSS"); // the first molars
  chair.press("O");    // upper right second: ours, and nothing is written down
  REQUIRE(chair.text("askQuestion").contains(u"charted on the wrong tooth?"_s));
  chair.press("2"); // the first of the earlier placements was meant
  CHECK(chair.isOn(17));
  CHECK(chair.teeth().size() == 4);
}

TEST_CASE("On the board a visit is marked as typed from paper", "[case-69]") {
  Desk desk;
  const auto child = desk.clinic.child("Mina");
  ui::DayBoardPage page(desk.context, nullptr);
  desk.listen(page);
  showActive(page);
  page.setFocus();
  desk.prompter.texts = {u"P-017"_s};
  desk.prompter.choices = {2}; // the coordinator
  press(page, Qt::Key_P, Qt::AltModifier);
  const auto sheets = must(desk.clinic.session.paperSheets(desk.clinic.day));
  REQUIRE(sheets.size() == 1);
  CHECK(sheets.front().value.child == child);
  CHECK(must(desk.clinic.session.board(desk.clinic.day)).front().paper == "P-017");
}
