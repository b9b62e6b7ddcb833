#include "base/text/text.h"
#include "chairside/allergy.h"
#include "session/session_write.h"

#include <algorithm>
#include <ranges>

namespace gk::session {

using base::Error;
using base::ErrorCode;
using roster::Service;

Result<chairside::SeatingId> Session::seat(By by, const chairside::Seating& seating,
                                           const std::vector<roster::MedicalFlag>& flagged) {
  const auto may = admit(Verb::seat, by, {.day = seating.day, .child = seating.child});
  if (!may) return may.error();
  const auto named = chairside::checkIdentifiers(seating.confirmed);
  if (!named) return named.error();
  if (!seating.assented)
    return Error{ErrorCode::ruleConsent, "the child did not assent; end the visit as declined"};
  if (const auto history = chairside::checkHistory(seating); !history) return history.error();
  if (!flagged.empty() && seating.historyUnchanged)
    return Error{ErrorCode::ruleReason, "an alert is new, so record a health change"};
  for (const auto& flag : flagged)
    if (flag.child != seating.child)
      return Error{ErrorCode::ruleIdentity, "the new alert is another child's"};
  auto known = flags(seating.child);
  if (!known) return known.error();
  if (const auto heard = chairside::checkHeard(seating.heard, *known); !heard) return heard.error();
  // Any one service will do to sit down; each act then asks for its own.
  auto allowed = mayTreat(seating.child, Service::screening, may->on());
  if (!allowed) {
    const auto recheck = mayTreat(seating.child, Service::recheckAndReplace, may->on());
    if (!recheck) return allowed.error();
  }
  return write(*may, seating.child, [&](store::Act& act) {
    auto seated = seating;
    for (const auto& flag : flagged) {
      const auto id = act.add(flag);
      if (chairside::isAlert(flag)) seated.heard.push_back(id); // whoever types it has heard it
    }
    return act.add(seated);
  });
}

Result<chairside::ScreeningId> Session::screen(By by, const chairside::Screening& screening) {
  const auto may = admit(Verb::screen, by, {.day = screening.day, .child = screening.child});
  if (!may) return may.error();
  auto program = this->program();
  if (!program) return program.error();
  const auto sound = chairside::checkScreening(screening, program->value);
  if (!sound) return sound.error();
  if (const auto why = resealsAreExplained(screening, nullptr); !why) return why.error();
  auto already = book_.current<chairside::Screening>(
      store::rowsOf("child", screening.child, "day", screening.day));
  if (!already) return already.error();
  if (!already->empty())
    return Error{ErrorCode::ruleTooth, "the child is screened today already; correct that instead"};
  return write(*may, screening.child, [&](store::Act& act) { return act.add(screening); });
}

Result<Admission> Session::mayCorrect(By by, const Recorded<chairside::Screening>& old,
                                      const chairside::Screening& screening,
                                      const std::string& reason) {
  auto may = admit(Verb::correctScreening, by,
                   {.day = screening.day, .child = screening.child, .reason = reason});
  if (!may) return may;
  if (base::isBlank(reason)) return Error{ErrorCode::ruleReason, "a correction needs a reason"};
  const auto now = asItStands(old);
  if (!now) return now.error();
  if (now->value.child != screening.child || now->value.day != screening.day)
    return Error{ErrorCode::ruleIdentity, "findings stay with their child and their day"};
  auto program = this->program();
  if (!program) return program.error();
  const auto sound = chairside::checkScreening(screening, program->value);
  if (!sound) return sound.error();
  if (const auto why = resealsAreExplained(screening, &now->value); !why) return why.error();
  return may;
}

/// A recheck of the day says why by itself; of a correction only what is new is asked about.
Result<base::Done> Session::resealsAreExplained(const chairside::Screening& screening,
                                                const chairside::Screening* old) {
  using chairside::ResealWhy;
  const auto isOpen = [](const chairside::ToothFinding& finding) {
    return finding.decision == chairside::Decision::reseal &&
           finding.resealWhy == ResealWhy::notSaid;
  };
  if (std::ranges::none_of(screening.teeth, isOpen)) return base::Done{};
  auto checked = teethChecked(screening.child, screening.day);
  if (!checked) return checked.error();
  for (const auto& finding : screening.teeth) {
    if (!isOpen(finding)) continue;
    const bool wasOpen = old && std::ranges::any_of(old->teeth, [&](const auto& before) {
                           return before.tooth == finding.tooth && isOpen(before);
                         });
    const bool isChecked = std::ranges::any_of(*checked, [&](const auto& check) {
      return check.tooth == finding.tooth && check.action == followup::CheckAction::resealToday;
    });
    if (!wasOpen && !isChecked)
      return Error{ErrorCode::ruleReason, "say why the " + finding.tooth.words() +
                                              " is resealed: missing, lifted, partly missing"};
  }
  return base::Done{};
}

Result<base::Done> Session::correctScreening(By by, const Recorded<chairside::Screening>& old,
                                             const chairside::Screening& screening,
                                             const std::string& reason) {
  const auto may = mayCorrect(by, old, screening, reason);
  if (!may) return may.error();
  return write(*may, screening.child, [&](store::Act& act) {
    act.correct(old, screening, reason);
    return base::Done{};
  });
}

Result<std::vector<Session::CheckedTooth>> Session::teethChecked(roster::ChildId child,
                                                                 roster::DayId day) {
  auto checks = book_.current<followup::RetentionCheck>(store::rowsOf("child", child, "day", day));
  if (!checks) return checks.error();
  std::vector<CheckedTooth> teeth;
  for (const auto& check : *checks) {
    auto placement =
        only<chairside::Placement>(store::subjectIs(check.value.placement), "placement");
    if (!placement) return placement.error();
    teeth.push_back({placement->value.tooth, placement->value.surfaces, check.value.action});
  }
  return teeth;
}

/// Every tooth of the field must have been found fit and chosen at a screening of this child, or
/// be the one that a recheck of the day lets be repaired or resealed.
Result<base::Done> Session::teethAreChosen(const chairside::Field& field) {
  auto screenings =
      book_.current<chairside::Screening>(store::rowsOf("child", field.child, "day", field.day));
  if (!screenings) return screenings.error();
  auto checked = teethChecked(field.child, field.day);
  if (!checked) return checked.error();
  for (const auto& named : field.teeth) {
    const chairside::ToothFinding* chosen = nullptr;
    for (const auto& screening : *screenings)
      for (const auto& finding : screening.value.teeth)
        if (finding.tooth == named.tooth) chosen = &finding;
    const bool replaced = std::ranges::any_of(*checked, [&](const auto& check) {
      return check.tooth == named.tooth && check.surfaces.hasAll(named.surfaces) &&
             (check.action == followup::CheckAction::repairToday ||
              check.action == followup::CheckAction::resealToday);
    });
    if (!chosen && replaced) continue;
    if (!chosen || !chairside::isTreatment(chosen->decision) ||
        !chosen->toSeal.hasAll(named.surfaces))
      return Error{ErrorCode::ruleTooth,
                   "the " + named.tooth.words() + ", " + dentition::words(named.surfaces) +
                       ", was not chosen at the screening; change that first"};
  }
  return base::Done{};
}

/// The short etch is for sealant placed at this visit and for no older one.
Result<base::Done> Session::addsToToday(const chairside::Field& field) {
  if (!field.adding) return base::Done{};
  auto placed =
      book_.current<chairside::Placement>(store::rowsOf("child", field.child, "day", field.day));
  if (!placed) return placed.error();
  for (const auto& named : field.teeth) {
    const bool isSealed = std::ranges::any_of(*placed, [&](const auto& one) {
      return one.value.tooth == named.tooth && one.value.attempt == chairside::Attempt::complete;
    });
    if (!isSealed)
      return Error{ErrorCode::ruleTooth,
                   "the " + named.tooth.words() +
                       " was not sealed at this visit: an older sealant gets the full etch"};
  }
  return base::Done{};
}

/// A tooth is in one field at a time, and is sealed once a day but to add to it.
Result<base::Done> Session::teethAreFree(const chairside::Field& field) {
  const auto states = fields(field.child, field.day);
  if (!states) return states.error();
  for (const auto& named : field.teeth)
    for (const auto& state : *states) {
      const auto* tooth = state.protocol.find(named.tooth);
      if (tooth == nullptr) continue;
      if (tooth->next < chairside::Next::placed)
        return Error{ErrorCode::ruleTooth, "the " + named.tooth.words() +
                                               " is already isolated; finish or stop it first"};
      const auto type = placementType(field, named.tooth);
      if (!type) return type.error();
      const bool isMeant = field.adding || *type == chairside::PlacementType::repair;
      if (tooth->next == chairside::Next::placed && !isMeant)
        return Error{ErrorCode::ruleTooth,
                     "the " + named.tooth.words() + " was sealed at this visit; add to it instead"};
    }
  return base::Done{};
}

Result<chairside::FieldId> Session::isolate(By by, const chairside::Field& field) {
  const auto may = admit(Verb::isolate, by, {.day = field.day, .child = field.child});
  if (!may) return may.error();
  const auto on = may->on();
  auto sealant = only<kit::Lot>(store::subjectIs(field.sealant), "sealant lot");
  if (!sealant) return sealant.error();
  if (!kit::isSealant(sealant->value.kind))
    return Error{ErrorCode::ruleMaterial, kit::shown(sealant->value) + " is not a sealant"};
  const auto kind = sealant->value.kind;
  const auto shape = chairside::checkField(field, kind);
  if (!shape) return shape.error();
  if (const auto allowed = mayTreat(field.child, serviceFor(kind), on); !allowed)
    return allowed.error();
  if (const auto fits = lotFits(field.sealant, kind, field.child, on); !fits) return fits.error();
  if (field.etchant)
    if (const auto fits = lotFits(*field.etchant, kit::MaterialKind::etchant, field.child, on);
        !fits)
      return fits.error();
  if (const auto holds = agreementHolds(field.day); !holds) return holds.error();
  if (const auto chosen = teethAreChosen(field); !chosen) return chosen.error();
  if (const auto adds = addsToToday(field); !adds) return adds.error();
  if (const auto free = teethAreFree(field); !free) return free.error();
  if (const auto known = areAuthorized(field.child, field.teeth, on); !known) return known.error();
  return write(*may, field.child, [&](store::Act& act) { return act.add(field); });
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
  const auto checked = teethChecked(field.child, field.day);
  if (!checked) return checked.error();
  for (const auto& one : *checked) {
    if (one.tooth != tooth) continue;
    if (one.action == followup::CheckAction::repairToday) return PlacementType::repair;
    if (one.action == followup::CheckAction::resealToday) return PlacementType::reseal;
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
  if (const auto fits = lotFits(varnish.lot, kit::MaterialKind::varnish, varnish.child, on); !fits)
    return fits.error();
  auto states = fields(varnish.child, varnish.day);
  if (!states) return states.error();
  for (const auto& state : *states)
    if (state.protocol.next() != chairside::Next::placed)
      return Error{ErrorCode::ruleVarnish,
                   "varnish comes after the sealants: finish or stop the isolated teeth first"};
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
      return Error{ErrorCode::ruleVarnish, "the child had varnish " +
                                               base::counted(apart, "day", "days") +
                                               " ago; the program waits " +
                                               std::to_string(program->value.varnishIntervalDays) +
                                               ". Confirm to record it anyway"};
  }
  return write(*may, varnish.child, [&](store::Act& act) { return act.add(varnish); });
}

} // namespace gk::session
