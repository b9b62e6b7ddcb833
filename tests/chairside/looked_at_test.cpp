#include "chair.h"

using namespace gk::chairside;
using namespace gk::chairside::test;

namespace {

ToothFinding seen(Presence presence) {
  ToothFinding finding{.tooth = toothAt(36), .presence = presence};
  finding.occlusal.condition = Condition::sound;
  return finding;
}

bool isRefused(const ToothFinding& finding) {
  const auto checked = checkFinding(finding, {});
  return !checked && checked.error().code == ErrorCode::ruleTooth;
}

} // namespace

TEST_CASE("a surface that no one can have looked at has no finding", "[case-99]") {
  CHECK(checkFinding(seen(Presence::erupted), {}).has_value());
  CHECK(checkFinding(seen(Presence::partlyErupted), {}).has_value());
  for (const auto hidden : {Presence::unerupted, Presence::extracted, Presence::neverFormed,
                            Presence::cannotSee, Presence::shed})
    CHECK(isRefused(seen(hidden)));
  auto covered = seen(Presence::partlyErupted);
  covered.softTissue = SoftTissue::gumOverCompanion;
  CHECK(checkFinding(covered, {}).has_value());
  covered.buccal.condition = Condition::sound;
  CHECK(isRefused(covered));
}

TEST_CASE("a charted cavity is untreated decay", "[case-103]") {
  std::vector<ToothFinding> teeth{seen(Presence::erupted), seen(Presence::erupted)};
  CHECK_FALSE(showsUntreatedDecay(teeth));
  teeth.back().lingual.condition = Condition::cavitated;
  CHECK(showsUntreatedDecay(teeth));
}
