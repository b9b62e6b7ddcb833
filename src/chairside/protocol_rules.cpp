#include "chairside/protocol.h"

#include "base/text.h"

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
  const std::string step(base::nameOf(run.step));
  const std::string found = run.lasted ? step + " ran " + shown(run, least)
                                       : step + " has no time and needs at least " + shown(least);
  return found + "; " + std::string(rather) + ", or take it short with a reason";
}

bool isShort(const StepRun& run, Seconds least) {
  return !run.lasted || *run.lasted < least;
}

} // namespace

Result<Done> Protocol::allows(const StepRun& run) const {
  if (auto fine = allowsTeeth(run); !fine) return fine;
  if (!hasResult(run))
    return Error{ErrorCode::ruleStep, "\"" + std::string(base::nameOf(run.result)) +
                                          "\" is no result of the step " +
                                          std::string(base::nameOf(run.step))};
  if (needsReason(run.result) && base::trim(run.reason).empty())
    return Error{ErrorCode::ruleReason,
                 "\"" + std::string(base::nameOf(run.result)) + "\" needs a clinician's reason"};
  return run.step == Step::cure ? allowsCure(run) : allowsTime(run);
}

Result<Done> Protocol::allowsTeeth(const StepRun& run) const {
  if (run.teeth.empty()) return Error{ErrorCode::ruleStep, "name the teeth of this step"};
  for (const auto& [name, surfaces] : run.teeth) {
    const auto wrong = [words = name.words()](const std::string& why) {
      return Error{ErrorCode::ruleStep, base::join({words, why}, " ")};
    };
    const auto* tooth = find(name);
    if (tooth == nullptr) return wrong("is not in this field");
    if (std::ranges::count(run.teeth, name, &dentition::ToothSurfaces::tooth) != 1)
      return wrong("is named twice in one step");
    if (tooth->next >= Next::placed)
      return wrong("is " + std::string(base::nameOf(tooth->next)) + "; nothing more is due");
    if (tooth->next != asNext(run.step))
      return wrong(tooth->wet
                       ? "was wet; " + std::string(base::nameOf(tooth->next)) + " it again first"
                       : "needs " + std::string(base::nameOf(tooth->next)) + " next, not " +
                             std::string(base::nameOf(run.step)));
    if (surfaces.isEmpty() || !tooth->surfaces.hasAll(surfaces))
      return wrong("is treated on " + dentition::words(tooth->surfaces) + "; name those surfaces");
    if (run.step != Step::cure && surfaces != tooth->surfaces)
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
  if (run.step == Step::rinse && run.lasted && isShort(run, rinseTarget()))
    return Error{ErrorCode::ruleStep, tooShort(run, rinseTarget(), "rinse on")};
  return Done{};
}

Result<Done> Protocol::allowsCure(const StepRun& run) const {
  const bool lightCured = rules_.material == kit::MaterialKind::sealantLightCure;
  if (lightCured && !run.light)
    return Error{ErrorCode::ruleCure, "say which light cured this material"};
  if (!lightCured && run.light)
    return Error{ErrorCode::ruleCure, "this material sets without a light; record the wait alone"};
  if (run.result != StepResult::done) return Done{};
  const auto least = run.target.value_or(Seconds{0});
  if (lightCured && least <= Seconds{0})
    return Error{ErrorCode::ruleCure, "set the cure time of this light and material first"};
  if (least > Seconds{0} && isShort(run, least))
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
