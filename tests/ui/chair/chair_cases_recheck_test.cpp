#include "reports/records/inputs.h"
#include "ui/fixtures/later_fixture.h"

using namespace gk;
using namespace Qt::Literals::StringLiterals;
using followup::CannotAssess;
using followup::Held;
using test::Later;
using test::must;

namespace {

followup::RetentionCheck checkOf(Later& chair, int iso) {
  for (const auto& one : must(chair.clinic.session.earlierPlacements(chair.wren, chair.clinic.day)))
    if (one.placement.value.tooth == dentition::toothAt(iso)) {
      REQUIRE(one.newest.has_value());
      return one.newest->value;
    }
  FAIL("no placement on " << iso);
  return must(chair.clinic.session.dayRecords(chair.clinic.day)).checks.front().value;
}

} // namespace

TEST_CASE("Under a band the buccal pit cannot be judged and the chewing surface still counts",
          "[case-39]") {
  Later chair(365);
  chair.seat(chair.wren);
  chair.press("1"); // the lower right one
  CHECK(chair.text("recheckTitle").startsWith(u"Lower right first molar"_s));
  chair.press("50"); // chewing surface whole, pit cannot be assessed
  CHECK(chair.text("askQuestion").startsWith(u"Why can it not be assessed?"_s));
  chair.press("5"); // banded
  chair.press(Qt::Key_Return);
  const auto check = checkOf(chair, 46);
  CHECK(check.occlusal == Held::whole);
  CHECK(check.buccal == Held::cannotAssess);
  CHECK(check.why == CannotAssess::banded);
  CHECK(check.tooth() == Held::whole);
}

TEST_CASE("Of two occlusal pits one lost makes the surface held in part", "[case-40]") {
  Later chair(365);
  chair.seat(chair.wren);
  chair.press("7");
  chair.press("65"); // chewing surface in part, groove whole
  CHECK(chair.text("askQuestion").startsWith(u"Try to lift the remaining sealant"_s));
  chair.press("1"); // it holds
  CHECK(chair.text("recheckAnswers").contains(u"Occlusal: PARTIALLY RETAINED"_s));
  chair.press(Qt::Key_Return);
  const auto check = checkOf(chair, 16);
  CHECK(check.occlusal == Held::part);
  CHECK(check.tooth() == Held::part);
  CHECK(check.action == followup::CheckAction::repairToday);
}
