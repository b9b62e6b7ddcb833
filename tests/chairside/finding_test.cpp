#include "chair.h"

using namespace gk::chairside;
using namespace gk::chairside::test;

namespace {

const gk::roster::Program program{};

ToothFinding molar(int iso = 16, Condition condition = Condition::sound) {
  ToothFinding finding{.tooth = toothAt(iso), .presence = Presence::erupted};
  finding.occlusal.condition = condition;
  return finding;
}

ToothFinding chosen(ToothFinding finding, Decision decision, SurfaceSet surfaces = occlusal) {
  finding.decision = decision;
  finding.toSeal = surfaces;
  return finding;
}

bool isFine(const ToothFinding& finding) {
  const auto checked = checkFinding(finding, program);
  if (!checked) CHECK(checked.error().code == ErrorCode::ruleTooth);
  return checked.has_value();
}

} // namespace

TEST_CASE("a sound molar is proposed for sealing on the surfaces that were seen") {
  auto tooth = molar(36);
  CHECK(proposedDecision(tooth) == Decision::seal);
  CHECK(sealableSurfaces(tooth) == occlusal);
  tooth.buccal.condition = Condition::sound;
  const SurfaceSet both{Surface::occlusal, Surface::buccalPit};
  CHECK(sealableSurfaces(tooth) == both);
  CHECK(isFine(chosen(tooth, Decision::seal, both)));
  CHECK_FALSE(isFine(chosen(tooth, Decision::seal, {})));
  CHECK_FALSE(isFine(chosen(tooth, Decision::seal, {Surface::lingualGroove})));
}

TEST_CASE("on a tooth partly up the decision is for each surface", "[case-26]") {
  auto tooth = molar(37);
  tooth.presence = Presence::partlyErupted;
  tooth.softTissue = SoftTissue::gumOverCompanion;
  CHECK(sealableSurfaces(tooth) == occlusal);
  CHECK(proposedDecision(tooth) == Decision::seal);
  CHECK(isFine(chosen(tooth, Decision::seal)));
  CHECK(suggestsRevisit(chosen(tooth, Decision::seal)));
  CHECK_FALSE(isFine(chosen(tooth, Decision::seal, {Surface::occlusal, Surface::buccalPit})));
}

TEST_CASE("under an operculum waiting covering and sealing to the edge all mean a revisit",
          "[case-27]") {
  auto tooth = molar(47);
  tooth.presence = Presence::partlyErupted;
  tooth.softTissue = SoftTissue::operculum;
  CHECK(proposedDecision(tooth) == Decision::watch);
  CHECK(sealableSurfaces(tooth) == occlusal);
  for (auto decision : {Decision::watch, Decision::interim, Decision::seal}) {
    auto decided = chosen(tooth, decision);
    CHECK(suggestsRevisit(decided));
    CHECK_FALSE(isFine(decided));
    decided.revisit = true;
    CHECK(isFine(decided));
  }
}

TEST_CASE("an interim cover always means a revisit") {
  auto decided = chosen(molar(), Decision::interim);
  CHECK_FALSE(isFine(decided));
  decided.revisit = true;
  CHECK(isFine(decided));
}

TEST_CASE("a premolar place can hold a primary molar and a molar place cannot", "[case-28]") {
  ToothFinding place{.tooth = toothAt(15), .presence = Presence::primaryStillPresent};
  CHECK(isFine(place));
  CHECK(proposedDecision(place) == Decision::none);
  place.tooth = toothAt(16);
  CHECK_FALSE(isFine(place));
  place.tooth = toothAt(55);
  CHECK_FALSE(isFine(place));
}

TEST_CASE("only a primary tooth is shed") {
  CHECK(isFine({.tooth = toothAt(55), .presence = Presence::shed}));
  CHECK_FALSE(isFine({.tooth = toothAt(15), .presence = Presence::shed}));
}

TEST_CASE("a missing six-year molar leaves the drifted one its own name and a note", "[case-29]") {
  auto missing = ToothFinding{.tooth = toothAt(36), .presence = Presence::extracted};
  auto drifted = chosen(molar(37), Decision::seal);
  drifted.note = "second molar drifted forward into the gap";
  CHECK(isFine(missing));
  CHECK(isFine(drifted));
  CHECK(proposedDecision(missing) == Decision::none);
  CHECK_FALSE(isFine(chosen(missing, Decision::seal)));
}

TEST_CASE("primary teeth and premolars are sealed only where the program offers it", "[case-30]") {
  auto offering = program;
  offering.primaryTeethOffered = true;
  for (int iso : {55, 14}) {
    const auto tooth = chosen(molar(iso), Decision::seal);
    CHECK_FALSE(isFine(tooth));
    CHECK(checkFinding(tooth, offering));
    CHECK(proposedDecision(tooth) == Decision::none);
    CHECK(proposedDecision(tooth, offering) == Decision::seal);
  }
}

TEST_CASE("a tooth with a cavity is never chosen for sealing", "[case-31]") {
  auto tooth = molar(36, Condition::cavitated);
  CHECK(proposedDecision(tooth) == Decision::refer);
  CHECK(sealableSurfaces(tooth).isEmpty());
  for (auto decision : {Decision::seal, Decision::interim, Decision::repair, Decision::reseal})
    CHECK_FALSE(isFine(chosen(tooth, decision)));
  tooth.buccal.condition = Condition::sound;
  CHECK_FALSE(isFine(chosen(tooth, Decision::seal, {Surface::buccalPit})));
  CHECK(isFine(chosen(tooth, Decision::refer, {})));
}

TEST_CASE("an early lesion is a reason to seal", "[case-32]") {
  const auto tooth = molar(46, Condition::earlyLesion);
  CHECK(sealableSurfaces(tooth) == occlusal);
  CHECK(proposedDecision(tooth) == Decision::seal);
  CHECK(isFine(chosen(tooth, Decision::seal)));
}

TEST_CASE("fluorosis is no reason to leave a tooth out", "[case-33]") {
  for (auto enamel : {Enamel::fluorosisMild, Enamel::fluorosisPitted}) {
    auto tooth = molar();
    tooth.enamel = enamel;
    CHECK(proposedDecision(tooth) == Decision::seal);
    CHECK(isFine(chosen(tooth, Decision::seal)));
    CHECK_FALSE(suggestsRevisit(chosen(tooth, Decision::seal)));
  }
}

TEST_CASE("a hypomineralized molar is sealed and looked at sooner", "[case-34]") {
  auto tooth = molar();
  tooth.enamel = Enamel::opacity;
  CHECK(proposedDecision(tooth) == Decision::seal);
  CHECK(suggestsRevisit(chosen(tooth, Decision::seal)));
  CHECK(isFine(chosen(tooth, Decision::seal)));
}

TEST_CASE("a hypomineralized molar that broke down is proposed for referral", "[case-34]") {
  auto tooth = molar();
  tooth.enamel = Enamel::opacityBroken;
  CHECK(proposedDecision(tooth) == Decision::refer);
  CHECK(isFine(chosen(tooth, Decision::seal))); // a person decides
}

TEST_CASE("an intact sealant from elsewhere is recorded and left alone", "[case-35]") {
  auto tooth = molar(26, Condition::sealedWhole);
  tooth.occlusal.origin = Origin::other;
  CHECK(isFine(tooth));
  CHECK(proposedDecision(tooth) == Decision::none);
  tooth.note = "looks thin";
  for (auto decision : {Decision::seal, Decision::repair, Decision::reseal})
    CHECK_FALSE(isFine(chosen(tooth, decision)));
}

TEST_CASE("whose sealant it is must be said and may be unknown", "[case-36]") {
  auto tooth = molar(26, Condition::sealedWhole);
  CHECK_FALSE(isFine(tooth));
  tooth.occlusal.origin = Origin::unknown;
  CHECK(isFine(tooth));
}

TEST_CASE("two surfaces of one tooth may have been sealed by two hands", "[case-37]") {
  auto tooth = molar(36, Condition::sealedWhole);
  tooth.occlusal.origin = Origin::ours;
  tooth.buccal = {Condition::sealedWhole, Origin::other};
  CHECK(isFine(tooth));
  CHECK(tooth.at(Surface::occlusal).origin == Origin::ours);
  CHECK(tooth.at(Surface::buccalPit).origin == Origin::other);
}

TEST_CASE("an old preventive filling is restored and left or repaired by policy", "[case-38]") {
  const auto tooth = molar(36, Condition::restored);
  CHECK(proposedDecision(tooth) == Decision::none);
  CHECK_FALSE(isFine(chosen(tooth, Decision::seal)));
  CHECK(isFine(chosen(tooth, Decision::repair)));
}

TEST_CASE("a band over the buccal pit leaves the occlusal surface as found", "[case-39]") {
  auto tooth = molar(36);
  tooth.buccal.condition = Condition::banded;
  CHECK(sealableSurfaces(tooth) == occlusal);
  CHECK(isFine(chosen(tooth, Decision::seal)));
  CHECK_FALSE(isFine(chosen(tooth, Decision::seal, {Surface::buccalPit})));
  tooth.occlusal.condition = Condition::banded;
  CHECK(proposedDecision(tooth) == Decision::watch);
}

TEST_CASE("one of two pits of an upper molar lost is a sealant in part", "[case-40]") {
  auto tooth = molar(16, Condition::sealedPart);
  tooth.occlusal.origin = Origin::ours;
  tooth.note = "mesial pit kept, distal pit lost";
  CHECK(proposedDecision(tooth) == Decision::repair);
  CHECK(isFine(chosen(tooth, Decision::repair)));
  CHECK(isFine(chosen(tooth, Decision::reseal)));
  CHECK_FALSE(isFine(chosen(tooth, Decision::seal)));
}

TEST_CASE("a tooth too many is a note on its neighbor and has no number", "[case-41]") {
  auto tooth = molar(18);
  tooth.note = "small extra molar behind it";
  CHECK(isFine(tooth));
  CHECK_FALSE(
      Tooth::of(gk::dentition::Dentition::permanent, gk::dentition::Quadrant::upperRight, 9));
}

TEST_CASE("repairing needs something to repair") {
  CHECK_FALSE(isFine(chosen(molar(), Decision::repair)));
  CHECK(isFine(chosen(molar(), Decision::reseal))); // lost: the surface looks sound
}

TEST_CASE("resin replaces an interim cover that still holds when the note says so") {
  auto tooth = molar(37, Condition::sealedWhole);
  tooth.occlusal.origin = Origin::ours;
  CHECK_FALSE(isFine(chosen(tooth, Decision::reseal)));
  tooth.note = "replaces the interim cover";
  CHECK(isFine(chosen(tooth, Decision::reseal)));
}

TEST_CASE("a tooth that is not up or is crowned is not chosen for sealing") {
  for (auto presence :
       {Presence::unerupted, Presence::extracted, Presence::neverFormed, Presence::cannotSee}) {
    auto tooth = molar();
    tooth.presence = presence;
    CHECK_FALSE(isFine(chosen(tooth, Decision::seal)));
    CHECK(sealableSurfaces(tooth).isEmpty());
  }
  const auto crowned = molar(16, Condition::crowned);
  CHECK(proposedDecision(crowned) == Decision::none);
  CHECK_FALSE(isFine(chosen(crowned, Decision::seal)));
}

TEST_CASE("what cannot be seen is watched and what is broken is referred") {
  CHECK(proposedDecision({.tooth = toothAt(17), .presence = Presence::cannotSee}) ==
        Decision::watch);
  CHECK(proposedDecision({.tooth = toothAt(17), .presence = Presence::unerupted}) ==
        Decision::none);
  CHECK(proposedDecision(molar(16, Condition::fractured)) == Decision::refer);
  CHECK(proposedDecision(molar(16, Condition::notLookedAt)) == Decision::none);
}
