#pragma once

#include "base/random.h"
#include "chairside/protocol.h"

#include <catch2/catch.hpp>

namespace gk::chairside::test {

using namespace std::chrono_literals;
using base::ErrorCode;
using dentition::Surface;
using dentition::SurfaceSet;
using dentition::Tooth;
using dentition::toothAt;
using dentition::ToothSurfaces;
using kit::MaterialKind;

inline const SurfaceSet occlusal{Surface::occlusal};

/// Repeatable ids.
class Ids {
 public:
  template <class Id>
  Id make() {
    clock_.advance(1ms);
    return Id{base::makeUuid7(clock_.now().at, random_)};
  }

 private:
  base::ManualClock clock_{base::atLocal(
      base::Date::fromDays(std::chrono::sys_days{std::chrono::days{20774}}), 9h, -6h)};
  base::SeededRandom random_{7};
};

/// The occlusal surface of each tooth, by ISO 3950 number.
inline std::vector<ToothSurfaces> occlusalOf(std::initializer_list<int> iso) {
  std::vector<ToothSurfaces> teeth;
  for (int code : iso)
    teeth.push_back({toothAt(code), occlusal});
  return teeth;
}

/// One field and its protocol, with a word for each step.
class Chair {
 public:
  explicit Chair(std::vector<ToothSurfaces> teeth,
                 MaterialKind material = MaterialKind::sealantLightCure, bool adding = false)
      : field{.child = ids.make<roster::ChildId>(),
              .day = ids.make<roster::DayId>(),
              .teeth = std::move(teeth),
              .isolation = Isolation::rollsAndCheekPads,
              .fourHanded = false,
              .assistant = {},
              .sealant = ids.make<kit::LotId>(),
              .etchant = {},
              .adding = adding,
              .note = {},
              .cleaned = Cleaning::toothbrush},
        rules{.times = {}, .material = material, .makersEtch = 15s}, protocol(field, rules) {
    if (material != MaterialKind::glassIonomer) field.etchant = ids.make<kit::LotId>();
  }

  [[nodiscard]] StepRun blank(Step step, std::vector<ToothSurfaces> teeth) const {
    return {.field = fieldId,
            .step = step,
            .teeth = std::move(teeth),
            .lasted = {},
            .target = {},
            .timer = {},
            .light = {},
            .lot = {},
            .reason = {}};
  }
  base::Result<base::Done> take(const StepRun& run) {
    auto allowed = protocol.allows(run, leastCure);
    if (allowed) protocol.apply(run);
    return allowed;
  }

  base::Result<base::Done> etch(const std::vector<ToothSurfaces>& teeth,
                                base::Milliseconds lasted = 20s) {
    auto run = blank(Step::etch, teeth);
    run.lasted = lasted;
    return take(run);
  }
  base::Result<base::Done> rinse(const std::vector<ToothSurfaces>& teeth) {
    auto run = blank(Step::rinse, teeth);
    run.lasted = 12s;
    return take(run);
  }
  base::Result<base::Done> dry(const std::vector<ToothSurfaces>& teeth,
                               StepResult result = StepResult::frosty) {
    auto run = blank(Step::dry, teeth);
    run.result = result;
    return take(run);
  }
  base::Result<base::Done> flow(const std::vector<ToothSurfaces>& teeth) {
    return take(blank(Step::flow, teeth));
  }
  [[nodiscard]] StepRun exposure(const std::vector<ToothSurfaces>& teeth,
                                 base::Milliseconds lasted = 20s,
                                 StepResult result = StepResult::done) const {
    auto run = blank(Step::cure, teeth);
    run.lasted = lasted;
    run.target = 20s;
    run.result = result;
    if (rules.material == MaterialKind::sealantLightCure) run.light = light;
    return run;
  }
  base::Result<base::Done> cure(const std::vector<ToothSurfaces>& teeth,
                                base::Milliseconds lasted = 20s,
                                StepResult result = StepResult::done) {
    return take(exposure(teeth, lasted, result));
  }
  base::Result<base::Done> check(const std::vector<ToothSurfaces>& teeth,
                                 StepResult result = StepResult::passed) {
    auto run = blank(Step::check, teeth);
    run.result = result;
    return take(run);
  }
  void wet(std::vector<Tooth> teeth) {
    protocol.apply(
        Wet{.field = fieldId, .teeth = std::move(teeth), .stage = WetStage::afterEtch, .note = {}});
  }

  /// Etched to frosty: the next step is to flow.
  void readyToFlow(const std::vector<ToothSurfaces>& teeth, base::Milliseconds etched = 20s) {
    REQUIRE(etch(teeth, etched));
    REQUIRE(rinse(teeth));
    REQUIRE(dry(teeth));
  }
  void readyToCure(const std::vector<ToothSurfaces>& teeth) {
    readyToFlow(teeth);
    REQUIRE(flow(teeth));
  }
  void readyToCheck(const std::vector<ToothSurfaces>& teeth) {
    readyToCure(teeth);
    REQUIRE(cure(teeth));
  }
  void place(const std::vector<ToothSurfaces>& teeth) {
    readyToCheck(teeth);
    REQUIRE(check(teeth));
  }

  [[nodiscard]] const ToothProgress& at(int iso) const {
    const auto* found = protocol.find(toothAt(iso));
    REQUIRE(found != nullptr);
    return *found;
  }
  [[nodiscard]] Next next(int iso) const { return at(iso).next; }
  [[nodiscard]] Placement summary(int iso, PlacementType type = PlacementType::fresh) const {
    return summarize(field, at(iso), fieldId, type, hygienist, "");
  }

  Ids ids;
  FieldId fieldId = ids.make<FieldId>();
  kit::LightId light = ids.make<kit::LightId>();
  base::Seconds leastCure{20}; ///< of the light and the material
  base::MemberId hygienist = ids.make<base::MemberId>();
  Field field;
  ProtocolRules rules;
  Protocol protocol;
};

} // namespace gk::chairside::test
