#include "kit/readiness.h"

#include "base/random.h"

#include <catch2/catch.hpp>

using namespace gk;
using kit::ReadinessAnswer;
using kit::ReadinessItem;

namespace {

kit::ReadinessCheck check(ReadinessAnswer answer, std::string reason = {}) {
  base::SeededRandom random(1);
  return {base::DayId(base::makeUuid7({}, random)), ReadinessItem::airLine, answer,
          std::move(reason), ""};
}

} // namespace

TEST_CASE("Only an item that was done needs no reason") {
  CHECK(kit::checkReadiness(check(ReadinessAnswer::done)));
  for (const auto answer :
       {ReadinessAnswer::failed, ReadinessAnswer::notApplicable, ReadinessAnswer::passedOver}) {
    const auto refused = kit::checkReadiness(check(answer, "  "));
    REQUIRE_FALSE(refused);
    CHECK(refused.error().code == base::ErrorCode::ruleReason);
    CHECK(kit::checkReadiness(check(answer, "no compressor today")));
  }
}

TEST_CASE("What failed or was passed over is an exception and what does not apply is none") {
  CHECK(kit::isException(ReadinessAnswer::failed));
  CHECK(kit::isException(ReadinessAnswer::passedOver));
  CHECK_FALSE(kit::isException(ReadinessAnswer::notApplicable));
  CHECK_FALSE(kit::isException(ReadinessAnswer::done));
}

TEST_CASE("Of two laptops' answers to one item the newest counts") {
  base::SeededRandom random(2);
  std::vector<base::Recorded<kit::ReadinessCheck>> rows;
  const auto add = [&](ReadinessItem item, ReadinessAnswer answer) {
    const auto id = base::makeUuid7({}, random);
    auto value = check(answer, "x");
    value.item = item;
    base::Stamp stamp{.entry = base::EntryId(id),
                      .laptop = base::LaptopId(id),
                      .sequence = 1,
                      .by = {},
                      .at = {},
                      .supersedes = {},
                      .reason = {}};
    rows.push_back({kit::ReadinessId(id), stamp, value});
  };
  add(ReadinessItem::clock, ReadinessAnswer::done);
  add(ReadinessItem::airLine, ReadinessAnswer::failed);
  add(ReadinessItem::airLine, ReadinessAnswer::done);
  std::ranges::sort(rows, {}, [](const auto& row) { return row.stamp.entry; });
  const auto newest = kit::newestOfEach(rows);
  REQUIRE(newest.size() == 2);
  CHECK(newest[0].value.item == ReadinessItem::airLine);
  const auto last = std::ranges::find_if(rows.rbegin(), rows.rend(), [](const auto& row) {
    return row.value.item == ReadinessItem::airLine;
  });
  CHECK(newest[0].value.answer == last->value.answer);
  CHECK(newest[1].value.item == ReadinessItem::clock);
}
