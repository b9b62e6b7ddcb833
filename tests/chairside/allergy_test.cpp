#include "chairside/allergy.h"

#include "chair.h"

using namespace gk::chairside;
using namespace gk::chairside::test;
using gk::base::Recorded;
using gk::kit::Contains;
using gk::roster::FlagAction;
using gk::roster::FlagKind;
using gk::roster::MedicalFlag;

namespace {

gk::kit::Lot lotWith(MaterialKind kind, gk::kit::ContentSet contains) {
  return {.kind = kind,
          .material = "Resin Fern",
          .lot = "RF-2609",
          .expiry = gk::base::Date::of(2028, 9, 30).value(),
          .contains = contains,
          .quarantineReason = {}};
}

std::vector<Recorded<MedicalFlag>> flagged(FlagKind kind, FlagAction action = FlagAction::stop,
                                           bool resolved = false) {
  Ids ids;
  const gk::base::Stamp stamp{.entry = ids.make<gk::base::EntryId>(),
                              .laptop = ids.make<gk::base::LaptopId>(),
                              .sequence = 1,
                              .by = {},
                              .at = {},
                              .supersedes = {},
                              .reason = {}};
  return {{ids.make<gk::roster::FlagId>(),
           stamp,
           {.child = ids.make<gk::roster::ChildId>(),
            .kind = kind,
            .action = action,
            .detail = {},
            .resolved = resolved,
            .decided = {}}}};
}

} // namespace

TEST_CASE("acrylate rosin and latex are three different stops", "[case-48]") {
  const std::vector<std::pair<FlagKind, Contains>> stops{
      {FlagKind::acrylateAllergy, Contains::acrylate},
      {FlagKind::rosinReaction, Contains::rosin},
      {FlagKind::latexAllergy, Contains::latex}};
  for (const auto& [flag, stopped] : stops)
    for (const auto& [unused, content] : stops) {
      const auto lot = lotWith(MaterialKind::varnish, {content});
      const auto verdict = checkAllergy(lot, flagged(flag));
      CHECK(verdict.has_value() == (content != stopped));
      if (!verdict) CHECK(verdict.error().code == ErrorCode::ruleAllergy);
    }
}

TEST_CASE("an acrylate allergy stops resin and leaves glass ionomer", "[case-48]") {
  const auto flags = flagged(FlagKind::acrylateAllergy);
  CHECK_FALSE(checkAllergy(lotWith(MaterialKind::sealantLightCure, {Contains::acrylate}), flags));
  CHECK(checkAllergy(lotWith(MaterialKind::glassIonomer, {Contains::fluoride}), flags));
}

TEST_CASE("an acrylate allergy stops resin though no one checked what it contains", "[case-416]") {
  const auto flags = flagged(FlagKind::acrylateAllergy);
  for (const auto kind : {MaterialKind::sealantLightCure, MaterialKind::sealantSelfCure,
                          MaterialKind::bondingAgent}) {
    const auto verdict = checkAllergy(lotWith(kind, {}), flags);
    REQUIRE_FALSE(verdict);
    CHECK(verdict.error().code == ErrorCode::ruleAllergy);
  }
  for (const auto kind : {MaterialKind::glassIonomer, MaterialKind::etchant, MaterialKind::varnish})
    CHECK(checkAllergy(lotWith(kind, {}), flags));
}

TEST_CASE("a flag that is resolved or only asks does not stop a material", "[case-48]") {
  const auto lot = lotWith(MaterialKind::varnish, {Contains::rosin});
  CHECK(checkAllergy(lot, flagged(FlagKind::rosinReaction, FlagAction::ask)));
  CHECK(checkAllergy(lot, flagged(FlagKind::rosinReaction, FlagAction::stop, true)));
}
