#include "base/text.h"
#include "session/session_write.h"

#include <algorithm>
#include <ranges>

namespace gk::session {

using base::Error;
using base::ErrorCode;
using roster::Service;
using roster::Task;

Result<chairside::SeatingId> Session::seat(By by, const chairside::Seating& seating) {
  const auto may = admit(Verb::seat, by, {.day = seating.day, .child = seating.child});
  if (!may) return may.error();
  const auto known = chairside::checkIdentifiers(seating.confirmed);
  if (!known) return known.error();
  if (!seating.assented)
    return Error{ErrorCode::ruleConsent, "the child did not say yes; end the visit as declined"};
  // Any one service will do to sit down; each act then asks for its own.
  auto allowed = mayTreat(seating.child, Service::screening, may->on());
  if (!allowed) {
    const auto recheck = mayTreat(seating.child, Service::recheckAndReplace, may->on());
    if (!recheck) return allowed.error();
  }
  return write(*may, seating.child, [&](store::Act& act) { return act.add(seating); });
}

Result<chairside::ScreeningId> Session::screen(By by, const chairside::Screening& screening) {
  const auto may = admit(Verb::screen, by, {.day = screening.day, .child = screening.child});
  if (!may) return may.error();
  auto program = this->program();
  if (!program) return program.error();
  const auto sound = chairside::checkScreening(screening, program->value);
  if (!sound) return sound.error();
  auto already = book_.current<chairside::Screening>(
      store::rowsOf("child", screening.child, "day", screening.day));
  if (!already) return already.error();
  if (!already->empty())
    return Error{ErrorCode::ruleTooth, "the child is screened today already; correct that instead"};
  return write(*may, screening.child, [&](store::Act& act) { return act.add(screening); });
}

Result<base::Done> Session::correctScreening(By by, const Recorded<chairside::Screening>& old,
                                             const chairside::Screening& screening,
                                             const std::string& reason) {
  const auto may = admit(Verb::correctScreening, by,
                         {.day = screening.day, .child = screening.child, .reason = reason});
  if (!may) return may.error();
  if (base::isBlank(reason)) return Error{ErrorCode::ruleReason, "a correction needs a reason"};
  auto program = this->program();
  if (!program) return program.error();
  const auto sound = chairside::checkScreening(screening, program->value);
  if (!sound) return sound.error();
  return write(*may, screening.child, [&](store::Act& act) {
    act.correct(old, screening, reason);
    return base::Done{};
  });
}

namespace {

/// The consent that a field's teeth ask for.
Service serviceFor(kit::MaterialKind material) {
  return material == kit::MaterialKind::glassIonomer ? Service::interimMaterial : Service::sealants;
}

/// Every tooth of the field must have been found fit and chosen at a screening of this child.
Result<base::Done> teethAreChosen(const chairside::Field& field,
                                  const std::vector<Recorded<chairside::Screening>>& screenings,
                                  const std::vector<Recorded<followup::RetentionCheck>>& checks) {
  for (const auto& [tooth, surfaces] : field.teeth) {
    const chairside::ToothFinding* chosen = nullptr;
    for (const auto& screening : screenings)
      for (const auto& finding : screening.value.teeth)
        if (finding.tooth == tooth) chosen = &finding;
    const bool replaced = std::ranges::any_of(checks, [](const auto& check) {
      return check.value.action == followup::CheckAction::repairToday ||
             check.value.action == followup::CheckAction::resealToday;
    });
    if (!chosen && replaced) continue;
    if (!chosen || !chairside::isTreatment(chosen->decision) || !chosen->toSeal.hasAll(surfaces))
      return Error{ErrorCode::ruleTooth,
                   "the " + tooth.words() + ", " + dentition::words(surfaces) +
                       ", was not chosen at the screening; change that first"};
  }
  return base::Done{};
}

} // namespace

Result<chairside::FieldId> Session::isolate(By by, const chairside::Field& field) {
  const auto may = admit(Verb::isolate, by, {.day = field.day, .child = field.child});
  if (!may) return may.error();
  const auto on = may->on();
  auto sealant = only<kit::Lot>(store::subjectIs(field.sealant), "sealant lot");
  if (!sealant) return sealant.error();
  if (!kit::isSealant(sealant->value.kind))
    return Error{ErrorCode::ruleMaterial, kit::shown(sealant->value) + " is not a sealant"};
  const auto shape = chairside::checkField(field, sealant->value.kind);
  if (!shape) return shape.error();
  if (const auto allowed = mayTreat(field.child, serviceFor(sealant->value.kind), on); !allowed)
    return allowed.error();
  if (const auto fits = lotFits(field.sealant, field.child, on); !fits) return fits.error();
  if (field.etchant)
    if (const auto fits = lotFits(*field.etchant, field.child, on); !fits) return fits.error();
  if (const auto holds = agreementHolds(field.day); !holds) return holds.error();
  const auto here = store::rowsOf("child", field.child, "day", field.day);
  auto screenings = book_.current<chairside::Screening>(here);
  if (!screenings) return screenings.error();
  auto checks = book_.current<followup::RetentionCheck>(here);
  if (!checks) return checks.error();
  if (const auto chosen = teethAreChosen(field, *screenings, *checks); !chosen)
    return chosen.error();
  if (const auto known = areAuthorized(field.child, field.teeth, on); !known) return known.error();
  return write(*may, field.child, [&](store::Act& act) { return act.add(field); });
}

Result<chairside::TimerId> Session::startTimer(By by, const chairside::TimerStart& start) {
  auto state = fieldState(start.field);
  if (!state) return state.error();
  const auto may = admit(Verb::startTimer, by,
                         {.day = state->field.value.day, .child = state->field.value.child});
  if (!may) return may.error();
  return write(*may, state->field.value.child, [&](store::Act& act) { return act.add(start); });
}

Result<chairside::StepId> Session::enterStep(By by, const chairside::StepRun& run) {
  auto state = fieldState(run.field);
  if (!state) return state.error();
  const auto may = admit(Verb::enterStep, by,
                         {.day = state->field.value.day, .child = state->field.value.child});
  if (!may) return may.error();
  const auto& field = state->field.value;
  const bool judged = run.result == chairside::StepResult::shortAccepted ||
                      run.result == chairside::StepResult::frostyNotSeen;
  if (judged)
    if (auto clinician = entitled(*by.author, Task::clinicianOverride, may->on()); !clinician)
      return clinician.error();
  if (const auto allowed = state->protocol.allows(run); !allowed) return allowed.error();
  // A word withdrawn meanwhile stops what is not begun; sealant that is on is finished.
  if (run.step == chairside::Step::etch)
    if (const auto known = areAuthorized(field.child, run.teeth, may->on()); !known)
      return known.error();
  if (run.lot)
    if (const auto fits = lotFits(*run.lot, field.child, may->on()); !fits) return fits.error();
  if (run.light)
    if (const auto fits = lightFits(*run.light, may->on(), run, may->author().value); !fits)
      return fits.error();
  std::vector<chairside::Placement> placements;
  if (run.step == chairside::Step::check) {
    state->protocol.apply(run);
    for (const auto& [tooth, surfaces] : run.teeth) {
      const auto type = placementType(field, tooth);
      if (!type) return type.error();
      const auto* progress = std::as_const(state->protocol).find(tooth);
      base::require(progress != nullptr, "an allowed check of a tooth outside the field");
      placements.push_back(
          chairside::summarize(field, *progress, run.field, *type, *by.author, run.reason));
    }
  }
  return write(*may, field.child, [&](store::Act& act) {
    const auto id = act.add(run);
    for (const auto& placement : placements)
      act.add(placement);
    return id;
  });
}

Result<chairside::WetId> Session::wet(By by, const chairside::Wet& event) {
  auto state = fieldState(event.field);
  if (!state) return state.error();
  const auto may =
      admit(Verb::wet, by, {.day = state->field.value.day, .child = state->field.value.child});
  if (!may) return may.error();
  if (event.teeth.empty()) return Error{ErrorCode::ruleTooth, "say which teeth were touched"};
  return write(*may, state->field.value.child, [&](store::Act& act) { return act.add(event); });
}

Result<base::Done> Session::stopTeeth(By by, chairside::FieldId field,
                                      const std::vector<dentition::Tooth>& teeth,
                                      const std::string& reason) {
  auto state = fieldState(field);
  if (!state) return state.error();
  const auto may =
      admit(Verb::stopTeeth, by,
            {.day = state->field.value.day, .child = state->field.value.child, .reason = reason});
  if (!may) return may.error();
  if (base::isBlank(reason)) return Error{ErrorCode::ruleReason, "say why these teeth are left"};
  std::vector<chairside::Placement> left;
  std::vector<dentition::Tooth> open;
  for (const auto& tooth : teeth) {
    const auto* progress = std::as_const(state->protocol).find(tooth);
    if (!progress)
      return Error{ErrorCode::ruleTooth, "the " + tooth.words() + " is not in this field"};
    const bool over = progress->next == chairside::Next::placed ||
                      progress->next == chairside::Next::notAchieved ||
                      progress->next == chairside::Next::stopped;
    if (!over) open.push_back(tooth);
  }
  if (open.empty()) return Error{ErrorCode::ruleStep, "these teeth are finished already"};
  state->protocol.stop(open);
  for (const auto& tooth : open) {
    const auto type = placementType(state->field.value, tooth);
    if (!type) return type.error();
    left.push_back(chairside::summarize(state->field.value,
                                        *std::as_const(state->protocol).find(tooth), field, *type,
                                        *by.author, reason));
  }
  return write(*may, state->field.value.child, [&](store::Act& act) {
    for (const auto& placement : left)
      act.add(placement);
    return base::Done{};
  });
}

Result<chairside::PlacementType> Session::placementType(const chairside::Field& field,
                                                        const dentition::Tooth& tooth) {
  using chairside::PlacementType;
  auto screenings =
      book_.current<chairside::Screening>(store::rowsOf("child", field.child, "day", field.day));
  if (!screenings) return screenings.error();
  for (const auto& screening : *screenings)
    for (const auto& finding : screening.value.teeth) {
      if (finding.tooth != tooth) continue;
      if (finding.decision == chairside::Decision::repair) return PlacementType::repair;
      if (finding.decision == chairside::Decision::reseal) return PlacementType::reseal;
      if (finding.decision == chairside::Decision::interim) return PlacementType::interim;
    }
  auto sealant = only<kit::Lot>(store::subjectIs(field.sealant), "sealant lot");
  if (!sealant) return sealant.error();
  if (sealant->value.kind == kit::MaterialKind::glassIonomer) return PlacementType::interim;
  if (field.adding) return PlacementType::repair;
  auto earlier = placements(field.child);
  if (!earlier) return earlier.error();
  auto type = PlacementType::fresh;
  for (const auto& placement : *earlier) {
    if (placement.value.tooth != tooth || placement.value.attempt != chairside::Attempt::complete)
      continue;
    type = placement.value.type == PlacementType::interim ? PlacementType::replacesInterim
                                                          : PlacementType::reseal;
  }
  return type;
}

Result<chairside::VarnishId> Session::varnish(By by, const chairside::Varnish& varnish,
                                              Confirmed confirmed) {
  const auto may = admit(Verb::varnish, by, {.day = varnish.day, .child = varnish.child});
  if (!may) return may.error();
  const auto on = may->on();
  if (const auto fits = lotFits(varnish.lot, varnish.child, on); !fits) return fits.error();
  auto states = fields(varnish.child, varnish.day);
  if (!states) return states.error();
  for (const auto& state : *states)
    if (state.protocol.next() != chairside::Next::placed)
      return Error{ErrorCode::ruleVarnish,
                   "varnish comes after the sealants: finish or stop the teeth in hand first"};
  const auto here = store::rowsOf("child", varnish.child, "day", varnish.day);
  auto screenings = book_.current<chairside::Screening>(here);
  if (!screenings) return screenings.error();
  auto placed = book_.current<chairside::Placement>(here);
  if (!placed) return placed.error();
  std::vector<chairside::Placement> today;
  for (const auto& placement : *placed)
    today.push_back(placement.value);
  for (const auto& screening : *screenings) {
    const auto inOrder = chairside::checkVarnishOrder(screening.value, today);
    if (!inOrder && confirmed == Confirmed::no) return inOrder.error();
  }
  auto program = this->program();
  if (!program) return program.error();
  auto earlier = book_.current<chairside::Varnish>(store::rowsOf("child", varnish.child));
  if (!earlier) return earlier.error();
  for (const auto& before : *earlier) {
    auto then = this->day(before.value.day);
    if (!then) return then.error();
    const int apart = base::daysBetween(then->value.date, on);
    if (apart < program->value.varnishIntervalDays && confirmed == Confirmed::no)
      return Error{ErrorCode::ruleVarnish, "the child had varnish " + std::to_string(apart) +
                                               " days ago; the program waits " +
                                               std::to_string(program->value.varnishIntervalDays) +
                                               ". Confirm to record it all the same"};
  }
  return write(*may, varnish.child, [&](store::Act& act) { return act.add(varnish); });
}

Result<chairside::OutcomeId> Session::endVisit(By by, const chairside::DayOutcome& outcome) {
  const auto may = admit(Verb::endVisit, by, {.day = outcome.day, .child = outcome.child});
  if (!may) return may.error();
  if (const auto fits = outcomeFits(outcome); !fits) return fits.error();
  auto states = fields(outcome.child, outcome.day);
  if (!states) return states.error();
  for (const auto& state : *states)
    if (state.protocol.next() != chairside::Next::placed)
      return Error{ErrorCode::ruleOutcome,
                   "teeth are still in hand: finish them, or stop them with a reason"};
  auto earlier = book_.current<chairside::DayOutcome>(
      store::rowsOf("child", outcome.child, "day", outcome.day));
  if (!earlier) return earlier.error();
  return write(*may, outcome.child, [&](store::Act& act) {
    if (earlier->empty()) return act.add(outcome);
    // The child came back: the newer word stands, the older stays in the history.
    act.correct(earlier->back(), outcome, "the visit went on");
    return earlier->back().id;
  });
}

} // namespace gk::session
