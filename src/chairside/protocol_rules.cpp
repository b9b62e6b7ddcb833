#include "chairside/display_names.h"
#include "chairside/protocol.h"

#include "base/text/text.h"

#include <algorithm>

namespace gk::chairside {

using base::Done;
using base::Error;
using base::ErrorCode;
using base::Result;
using base::Seconds;

namespace {

std::string shown(Seconds seconds) {
  return std::to_string(seconds.count()) + " s";
}

/// "11.0 s of 20 s"; tenths are cut off, so that 19.99 s never reads as enough.
std::string shown(const StepRun& run, Seconds least) {
  const auto tenths = run.lasted->count() / 100;
  return std::to_string(tenths / 10) + "." + std::to_string(tenths % 10) + " s of " + shown(least);
}

bool needsReason(StepResult result) {
  return result == StepResult::shortAccepted || result == StepResult::frostyNotSeen;
}

/// What a `done` that is too short can become.
std::string tooShort(const StepRun& run, Seconds least, std::string_view rather) {
  const std::string step(base::displayName(run.step));
  const std::string found = run.lasted ? step + " ran " + shown(run, least)
                                       : step + " has no time and needs at least " + shown(least);
  return found + "; " + std::string(rather) + ", or accept the short time with a reason";
}

bool isShort(const StepRun& run, Seconds least) {
  return !run.lasted || *run.lasted < least;
}

} // namespace

Result<Done> Protocol::allows(const StepRun& run, Seconds leastCure) const {
  if (auto fine = allowsTeeth(run.step, run.teeth); !fine) return fine;
  if (!hasResult(run))
    return Error{ErrorCode::ruleStep, "\"" + std::string(base::displayName(run.result)) +
                                          "\" is not a result of the step " +
                                          std::string(base::displayName(run.step))};
  if (needsReason(run.result) && base::trim(run.reason).empty())
    return Error{ErrorCode::ruleReason, "\"" + std::string(base::displayName(run.result)) +
                                            "\" needs a clinician's reason"};
  const bool isTimed = run.step == Step::etch || run.step == Step::cure;
  if (isTimed && !run.lasted && run.result != StepResult::done)
    return Error{ErrorCode::ruleStep,
                 "say how long the " + std::string(base::displayName(run.step)) + " lasted"};
  if (run.step == Step::cure) return allowsCure(run, leastCure);
  return run.step == Step::dry ? allowsDry(run) : allowsTime(run);
}

Result<Done> Protocol::allows(const TimerStart& start) const {
  if (start.step != Step::etch && start.step != Step::rinse && start.step != Step::cure)
    return Error{ErrorCode::ruleStep,
                 "no timer runs for the step " + std::string(base::displayName(start.step))};
  if (auto fine = allowsTeeth(start.step, start.teeth); !fine) return fine;
  return start.step == Step::cure ? allowsLamp(start.light) : Done{};
}

Result<Done> Protocol::allows(const Wet& wet) const {
  if (wet.teeth.empty()) return Error{ErrorCode::ruleTooth, "say which teeth were touched"};
  for (const auto& name : wet.teeth) {
    const auto* tooth = find(name);
    if (tooth == nullptr)
      return Error{ErrorCode::ruleTooth, "the " + name.words() + " is not isolated"};
    if (std::ranges::count(wet.teeth, name) != 1)
      return Error{ErrorCode::ruleTooth, "the " + name.words() + " is named twice"};
    if (tooth->next >= Next::placed)
      return Error{ErrorCode::ruleStep, "the " + name.words() + " is " +
                                            std::string(base::displayName(tooth->next)) +
                                            "; contamination now changes nothing"};
  }
  return Done{};
}

Result<Done> Protocol::allowsStop(std::span<const dentition::Tooth> teeth) const {
  for (const auto& name : teeth) {
    const auto* tooth = find(name);
    if (tooth == nullptr)
      return Error{ErrorCode::ruleTooth, "the " + name.words() + " is not isolated"};
    if (tooth->etchantOn)
      return Error{ErrorCode::ruleStep, "etchant is on the " + name.words() +
                                            ": rinse it first, or say why it could not be"};
  }
  return Done{};
}

Result<Done> Protocol::allowsTeeth(Step step,
                                   std::span<const dentition::ToothSurfaces> teeth) const {
  if (teeth.empty()) return Error{ErrorCode::ruleStep, "name the teeth of this step"};
  for (const auto& [name, surfaces] : teeth) {
    const auto wrong = [words = name.words()](const std::string& why) {
      return Error{ErrorCode::ruleStep, base::join({words, why}, " ")};
    };
    const auto* tooth = find(name);
    if (tooth == nullptr) return wrong("is not isolated");
    if (std::ranges::count(teeth, name, &dentition::ToothSurfaces::tooth) != 1)
      return wrong("is named twice in one step");
    if (tooth->next >= Next::placed)
      return wrong("is " + std::string(base::displayName(tooth->next)) + "; nothing more is due");
    if (!isDue(*tooth, asNext(step)))
      return wrong(tooth->wet
                       ? "was contaminated; " + std::string(base::displayName(tooth->next)) +
                             " it again first"
                       : "needs \"" + std::string(base::displayName(tooth->next)) +
                             "\" next, not \"" + std::string(base::displayName(step)) + "\"");
    if (surfaces.isEmpty() || !tooth->surfaces.hasAll(surfaces))
      return wrong("is treated on " + dentition::words(tooth->surfaces) + "; name those surfaces");
    if (step != Step::cure && surfaces != tooth->surfaces)
      return wrong("takes this step on all its surfaces: " + dentition::words(tooth->surfaces));
  }
  return Done{};
}

bool Protocol::hasResult(const StepRun& run) const {
  const auto isOneOf = [&](std::initializer_list<StepResult> results) {
    return std::ranges::find(results, run.result) != results.end();
  };
  switch (run.step) {
  case Step::etch:
  case Step::cure:
    return isOneOf({StepResult::done, StepResult::interrupted, StepResult::shortAccepted});
  case Step::rinse:
    return isOneOf({StepResult::done, StepResult::shortAccepted});
  case Step::dry:
    // Frost is the look of etched enamel, and a glass ionomer goes on without etching.
    if (rules_.material == kit::MaterialKind::glassIonomer) return isOneOf({StepResult::done});
    return isOneOf({StepResult::frosty, StepResult::notFrosty, StepResult::frostyNotSeen});
  case Step::flow:
    return isOneOf({StepResult::done});
  case Step::check:
    return isOneOf({StepResult::passed, StepResult::addedThenPassed, StepResult::redoneThenPassed,
                    StepResult::notAchieved});
  }
  base::fail("no such step");
}

Result<Done> Protocol::allowsTime(const StepRun& run) const {
  if (run.result != StepResult::done) return Done{};
  if (run.step == Step::etch) {
    // A team may aim higher than the program's least, never lower.
    const auto least = std::max(etchTarget(run.teeth), run.target.value_or(Seconds{0}));
    if (isShort(run, least))
      return Error{ErrorCode::ruleStep, tooShort(run, least, "etch for at least " + shown(least))};
  }
  if (run.step == Step::rinse) {
    const auto least = std::max(rinseTarget(), run.target.value_or(Seconds{0}));
    if (isShort(run, least)) return Error{ErrorCode::ruleStep, tooShort(run, least, "rinse on")};
  }
  return Done{};
}

/// Etchant that stayed on too long is asked about after the rinse, when there is time to.
Result<Done> Protocol::allowsDry(const StepRun& run) const {
  if (!base::trim(run.reason).empty()) return Done{};
  for (const auto& named : run.teeth)
    if (const auto* tooth = find(named.tooth); tooth && tooth->etchedLong)
      return Error{ErrorCode::ruleReason, "the " + named.tooth.words() +
                                              " was etched for more than " + shown(etchLimit) +
                                              "; say why"};
  return Done{};
}

Result<Done> Protocol::allowsLamp(const std::optional<kit::LightId>& light) const {
  const bool lightCured = rules_.material == kit::MaterialKind::sealantLightCure;
  if (lightCured && !light)
    return Error{ErrorCode::ruleCure, "say which light cured this material"};
  if (!lightCured && light)
    return Error{ErrorCode::ruleCure, "this material sets without a light; record the wait alone"};
  return Done{};
}

Result<Done> Protocol::allowsCure(const StepRun& run, Seconds leastCure) const {
  if (auto fine = allowsLamp(run.light); !fine) return fine;
  if (run.result != StepResult::done) return Done{};
  if (leastCure <= Seconds{0})
    return Error{ErrorCode::ruleCure,
                 run.light
                     ? "set the cure time of this light and material first"
                     : "the manufacturer's setting time of this lot is not known: enter it, or "
                       "accept the short time with a reason"};
  // A team may aim higher than the makers, never lower.
  const auto least = std::max(leastCure, run.target.value_or(Seconds{0}));
  if (isShort(run, least))
    return Error{ErrorCode::ruleCure,
                 tooShort(run, least, "record it as interrupted and start a full one")};
  return Done{};
}

Seconds Protocol::etchTarget(const ToothProgress& tooth) const {
  if (adding_ || tooth.holds) return rules_.times.etchAgainAdding;
  if (tooth.etchReason == EtchReason::wetBeforeSealant || tooth.etchReason == EtchReason::notFrosty)
    return rules_.times.etchAgainWet;
  return std::max(rules_.times.etch, rules_.makersEtch);
}

Seconds Protocol::etchTarget(std::span<const dentition::ToothSurfaces> teeth) const {
  Seconds longest{0};
  for (const auto& named : teeth)
    if (const auto* tooth = find(named.tooth)) longest = std::max(longest, etchTarget(*tooth));
  return longest;
}

} // namespace gk::chairside
