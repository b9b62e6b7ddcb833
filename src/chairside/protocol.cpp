#include "chairside/protocol.h"

#include "base/text/text.h"

#include <algorithm>

namespace gk::chairside {

using dentition::SurfaceSet;
using dentition::Tooth;
using dentition::ToothSurfaces;

namespace {

bool isActive(Next next) {
  return next < Next::placed;
}

bool isOnce(const Field& field, const Tooth& tooth) {
  return std::ranges::count(field.teeth, tooth, &ToothSurfaces::tooth) == 1;
}

Attempt attemptOf(const ToothProgress& tooth) {
  if (tooth.next == Next::placed) return Attempt::complete;
  if (!tooth.flowed) return Attempt::stoppedBeforeSealant;
  return tooth.cured.hasAll(tooth.surfaces) ? Attempt::notAchieved : Attempt::stoppedBeforeCure;
}

void applyCure(ToothProgress& tooth, const StepRun& run, SurfaceSet surfaces) {
  if (run.result == StepResult::interrupted) {
    ++tooth.interruptedCures;
    return;
  }
  ++tooth.cures;
  if (run.lasted)
    tooth.curedShortest = std::min(*run.lasted, tooth.curedShortest.value_or(*run.lasted));
  tooth.light = run.light;
  tooth.cured = tooth.cured.with(surfaces);
  if (tooth.cured.hasAll(tooth.surfaces)) tooth.next = Next::check;
}

} // namespace

base::Result<base::Done> checkField(const Field& field, kit::MaterialKind material) {
  using base::Error;
  using base::ErrorCode;
  if (field.teeth.empty()) return Error{ErrorCode::ruleTooth, "isolate at least one tooth"};
  for (const auto& [tooth, surfaces] : field.teeth) {
    if (!isOnce(field, tooth))
      return Error{ErrorCode::ruleTooth, tooth.words() + " is listed twice; keep one"};
    if (surfaces.isEmpty())
      return Error{ErrorCode::ruleTooth, tooth.words() + " has no surface to seal; choose one"};
  }
  if (material != kit::MaterialKind::glassIonomer && !field.etchant)
    return Error{ErrorCode::ruleMaterial, "choose the etchant lot; only a glass ionomer has none"};
  const bool isAssisted = field.assistant.has_value();
  if (field.fourHanded && !isAssisted)
    return Error{ErrorCode::ruleCredential,
                 "four-handed work needs an assistant: name one, or work two-handed"};
  if (!isAssisted &&
      (field.cheek == Holder::assistantHand || field.tongue == Holder::assistantHand))
    return Error{ErrorCode::ruleCredential,
                 "no assistant is named to retract cheek or tongue; choose who or what does"};
  if (field.cleaned == Cleaning::notRecorded)
    return Error{ErrorCode::ruleReason, "choose how the teeth were cleaned before the etch"};
  const bool wantsWords = field.cleaned == Cleaning::notCleaned || field.cleaned == Cleaning::other;
  if (wantsWords && base::trim(field.note).empty())
    return Error{ErrorCode::ruleReason,
                 "say in the note why the teeth were not cleaned, or how they were"};
  if (!field.guards.hasAll(DryGuardSet::all()) && base::trim(field.note).empty())
    return Error{ErrorCode::ruleReason, "say in the note which isolation item is missing, and why"};
  return base::Done{};
}

Protocol::Protocol(const Field& field, ProtocolRules rules) : rules_(rules), adding_(field.adding) {
  for (const auto& [tooth, surfaces] : field.teeth) {
    if (find(tooth) != nullptr) continue; // of a file: what a person isolates names each once
    ToothProgress progress{tooth, surfaces, firstStep()};
    if (adding_) progress.etchReason = EtchReason::wetWhenAdding;
    teeth_.push_back(progress);
  }
}

Next Protocol::firstStep() const {
  return rules_.material == kit::MaterialKind::glassIonomer ? Next::dry : Next::etch;
}

const ToothProgress* Protocol::find(const Tooth& tooth) const {
  const auto found = std::ranges::find(teeth_, tooth, &ToothProgress::tooth);
  return found == teeth_.end() ? nullptr : &*found;
}

ToothProgress* Protocol::find(const Tooth& tooth) {
  const auto found = std::ranges::find(teeth_, tooth, &ToothProgress::tooth);
  return found == teeth_.end() ? nullptr : &*found;
}

void Protocol::apply(const StepRun& run) {
  for (const auto& [name, surfaces] : run.teeth) {
    auto* tooth = find(name);
    if (tooth != nullptr && isDue(*tooth, asNext(run.step))) applyTo(*tooth, run, surfaces);
  }
}

void Protocol::apply(const TimerStart& start) {
  if (start.step != Step::etch) return;
  for (const auto& named : start.teeth)
    if (auto* tooth = find(named.tooth); tooth != nullptr && tooth->next == Next::etch)
      tooth->etchantOn = true;
}

void Protocol::applyTo(ToothProgress& tooth, const StepRun& run, SurfaceSet surfaces) const {
  switch (run.step) {
  case Step::etch:
    tooth.etchantOn = true;
    tooth.etchantFor += run.lasted.value_or(base::Milliseconds{0});
    tooth.etchedLong |= tooth.etchantFor > std::max(etchLimit, etchTarget(tooth));
    if (run.result == StepResult::interrupted) {
      tooth.etchReason = EtchReason::incompleteEarlier;
      return;
    }
    ++tooth.etches;
    tooth.etched = run.lasted;
    tooth.etchant = run.lot;
    tooth.wet = false;
    tooth.frosty = false;
    tooth.next = Next::rinse;
    return;
  case Step::rinse:
    tooth.etchantOn = false;
    tooth.etchantFor = {};
    if (tooth.next == Next::rinse) tooth.next = Next::dry;
    return;
  case Step::dry:
    tooth.etchedLong = false;
    if (run.result == StepResult::notFrosty) {
      etchAgain(tooth, EtchReason::notFrosty);
      return;
    }
    tooth.wet = false; // a glass ionomer has no etch that would clear it
    tooth.frosty = run.result == StepResult::frosty;
    tooth.next = Next::flow;
    return;
  case Step::flow:
    tooth.flowed = true;
    tooth.cured = {};
    tooth.sealant = run.lot;
    tooth.next = Next::cure;
    return;
  case Step::cure:
    applyCure(tooth, run, surfaces);
    return;
  case Step::check:
    tooth.check = run.result;
    tooth.next = run.result == StepResult::notAchieved ? Next::notAchieved : Next::placed;
    return;
  }
}

void Protocol::etchAgain(ToothProgress& tooth, EtchReason reason) const {
  tooth.next = firstStep();
  tooth.etchReason = reason;
}

void Protocol::apply(const Wet& wet) {
  for (const auto& name : wet.teeth) {
    auto* tooth = find(name);
    if (tooth == nullptr || !isActive(tooth->next)) continue;
    ++tooth->wetEvents;
    if (tooth->next == firstStep()) continue;
    tooth->wet = true;
    if (tooth->next == Next::check) {
      tooth->holds = true;
      etchAgain(*tooth, EtchReason::wetWhenAdding);
      continue;
    }
    // Sealant that is not cured through is cleared away; what an earlier check found cured stays.
    tooth->flowed = tooth->holds;
    tooth->cured = tooth->holds ? tooth->surfaces : SurfaceSet{};
    if (!tooth->holds) {
      tooth->cures = 0;
      tooth->curedShortest.reset();
      tooth->light.reset();
    }
    etchAgain(*tooth,
              adding_ || tooth->holds ? EtchReason::wetWhenAdding : EtchReason::wetBeforeSealant);
  }
}

void Protocol::stop(std::span<const Tooth> teeth) {
  for (const auto& name : teeth)
    if (auto* tooth = find(name); tooth != nullptr && isActive(tooth->next))
      tooth->next = Next::stopped;
}

Next Protocol::next() const {
  Next earliest = Next::placed;
  for (const auto& tooth : teeth_)
    earliest = std::min(earliest, tooth.next);
  return earliest;
}

std::vector<ToothSurfaces> Protocol::due(Next step) const {
  std::vector<ToothSurfaces> out;
  for (const auto& tooth : teeth_)
    if (isDue(tooth, step))
      out.push_back(
          {tooth.tooth, step == Next::cure ? tooth.surfaces.without(tooth.cured) : tooth.surfaces});
  return out;
}

WetStage Protocol::stageOf(const Tooth& tooth) const {
  const auto* found = find(tooth);
  if (found == nullptr || found->next == firstStep()) return WetStage::beforeEtch;
  switch (found->next) {
  case Next::etch:
    return WetStage::beforeEtch;
  case Next::rinse:
  case Next::dry:
    return WetStage::afterEtch;
  case Next::flow:
    return WetStage::afterFrosty;
  case Next::cure:
    return WetStage::beforeCureEnds;
  case Next::check:
  case Next::placed:
  case Next::notAchieved:
  case Next::stopped:
    return WetStage::atCheck;
  }
  base::fail("no such step");
}

Placement summarize(const Field& field, const ToothProgress& tooth, FieldId fieldId,
                    PlacementType type, base::MemberId placedBy, std::string note) {
  const auto attempt = attemptOf(tooth);
  return {.child = field.child,
          .day = field.day,
          .field = fieldId,
          .tooth = tooth.tooth,
          .surfaces = tooth.surfaces,
          .type = type,
          .attempt = attempt,
          .placedBy = placedBy,
          .assistant = field.assistant,
          .isolation = field.isolation,
          .fourHanded = field.fourHanded,
          .sealant = tooth.sealant.value_or(field.sealant),
          .etchant = tooth.etchant ? tooth.etchant : field.etchant,
          .light = tooth.light,
          .etched = tooth.etched,
          .cured = tooth.curedShortest,
          .cures = tooth.cures,
          .interruptedCures = tooth.interruptedCures,
          .wetEvents = tooth.wetEvents,
          .etches = tooth.etches,
          .frosty = tooth.frosty,
          .check = attempt == Attempt::complete ? tooth.check : StepResult::notAchieved,
          .note = std::move(note)};
}

} // namespace gk::chairside
