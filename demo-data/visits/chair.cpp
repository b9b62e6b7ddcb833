#include "visits/chair.h"

namespace gk::demo {

using base::Milliseconds;
using base::Seconds;
using chairside::EtchReason;
using chairside::Step;
using chairside::StepResult;
using chairside::TimeSource;
using dentition::ToothSurfaces;
using Teeth = std::vector<ToothSurfaces>;

ToothSurfaces usual(int iso) {
  const auto tooth = dentition::toothAt(iso);
  return {tooth, dentition::usualSurfaces(tooth)};
}

Half::Half(const Chair& chair, roster::ChildId child, Teeth teeth,
           std::optional<kit::LotId> otherMaterial)
    : chair_(chair), teeth_(std::move(teeth)) {
  const bool clay = otherMaterial == chair.story.kit->clay;
  chair.tell().pass(40);
  field_ = chair.tell().must(chair.book.isolate(
      chair.by(),
      {.child = child,
       .day = chair.day,
       .teeth = teeth_,
       .isolation = chair.isolation,
       .cheek = chair.assistant ? chairside::Holder::assistantHand : chairside::Holder::device,
       .fourHanded = chair.assistant.has_value(),
       .assistant = chair.assistant,
       .sealant = otherMaterial.value_or(chair.sealant),
       .etchant = clay ? std::nullopt : std::optional(chair.story.kit->thistle),
       .cleaned = chairside::Cleaning::toothbrush}));
}

chairside::TimerId Half::start(Step step, Teeth teeth, Seconds target,
                               std::optional<kit::LightId> light) {
  return chair_.tell().must(
      chair_.book.startTimer(chair_.by(), {*field_, step, std::move(teeth), target, light}));
}

void Half::enter(const chairside::StepRun& run) {
  chair_.tell().must(chair_.book.enterStep(chair_.by(), run));
}

Seconds Half::etchTarget(EtchReason reason) const {
  if (reason == EtchReason::wetWhenAdding) return roster::StepTimes{}.etchAgainAdding;
  if (reason == EtchReason::first) return roster::StepTimes{}.etch;
  return roster::StepTimes{}.etchAgainWet;
}

void Half::etch(const Teeth& teeth, EtchReason reason) {
  const auto target = etchTarget(reason);
  const auto timer = start(Step::etch, teeth, target, {});
  const auto lasted = chair_.tell().pass(static_cast<int>(target.count()) + 1);
  enter({.field = *field_,
         .step = Step::etch,
         .teeth = teeth,
         .lasted = lasted,
         .target = target,
         .source = TimeSource::timer,
         .timer = timer,
         .lot = chair_.story.kit->thistle,
         .etchReason = reason});
}

void Half::dry(const Teeth& teeth) {
  const auto rinsed = chair_.tell().pass(12);
  enter({.field = *field_,
         .step = Step::rinse,
         .teeth = teeth,
         .lasted = rinsed,
         .target = roster::StepTimes{}.rinse,
         .source = TimeSource::timer});
  chair_.tell().pass(15);
  enter({.field = *field_, .step = Step::dry, .teeth = teeth, .result = StepResult::frosty});
}

void Half::flow() {
  chair_.tell().pass(12 * static_cast<int>(teeth_.size()));
  enter({.field = *field_, .step = Step::flow, .teeth = teeth_, .lot = chair_.sealant});
}

void Half::cure(const ToothSurfaces& tooth, kit::LightId light) {
  const Seconds target{20};
  const auto timer = start(Step::cure, {tooth}, target, light);
  const auto lasted = chair_.tell().pass(static_cast<int>(target.count()));
  enter({.field = *field_,
         .step = Step::cure,
         .teeth = {tooth},
         .lasted = lasted,
         .target = target,
         .source = TimeSource::timer,
         .timer = timer,
         .light = light});
}

void Half::cureInterrupted(const ToothSurfaces& tooth, kit::LightId light, Milliseconds after,
                           const std::string& why) {
  const Seconds target{20};
  const auto timer = start(Step::cure, {tooth}, target, light);
  chair_.tell().clock.advance(after);
  enter({.field = *field_,
         .step = Step::cure,
         .teeth = {tooth},
         .result = StepResult::interrupted,
         .lasted = after,
         .target = target,
         .source = TimeSource::timer,
         .timer = timer,
         .light = light,
         .reason = why});
}

void Half::check(const ToothSurfaces& tooth) {
  chair_.tell().pass(10);
  enter({.field = *field_, .step = Step::check, .teeth = {tooth}, .result = StepResult::passed});
}

void Half::wet(dentition::Tooth tooth, chairside::WetStage stage) {
  chair_.tell().must(chair_.book.wet(
      chair_.by(),
      {.field = *field_, .teeth = {tooth}, .stage = stage, .cause = chairside::WetCause::saliva}));
}

void Half::stop(const std::string& why) {
  std::vector<dentition::Tooth> all;
  for (const auto& [tooth, surfaces] : teeth_)
    all.push_back(tooth);
  chair_.tell().must(chair_.book.stopTeeth(chair_.by(), *field_, all, why));
}

void Half::sealAll() {
  etch(teeth_, EtchReason::first);
  dry(teeth_);
  if (chair_.saliva != Saliva::none) {
    // Teeth of a half are in the order of their numbers, upper ones first.
    const auto& touched = chair_.saliva == Saliva::onUpper ? teeth_.front() : teeth_.back();
    wet(touched.tooth, chairside::WetStage::afterFrosty);
    etch({touched}, EtchReason::wetBeforeSealant);
    dry({touched});
  }
  flow();
  for (const auto& tooth : teeth_)
    cure(tooth, chair_.light);
  for (const auto& tooth : teeth_)
    check(tooth);
}

void Half::coverAll(int waitSeconds) {
  chair_.tell().pass(10);
  enter({.field = *field_, .step = Step::dry, .teeth = teeth_});
  chair_.tell().pass(20);
  enter({.field = *field_, .step = Step::flow, .teeth = teeth_, .lot = chair_.story.kit->clay});
  const auto waited = chair_.tell().pass(waitSeconds);
  enter({.field = *field_,
         .step = Step::cure,
         .teeth = teeth_,
         .lasted = waited,
         .source = TimeSource::timer});
  for (const auto& tooth : teeth_)
    check(tooth);
}

} // namespace gk::demo
