#include "base/text/text.h"
#include "session/session_write.h"

#include <algorithm>
#include <functional>
#include <map>

namespace gk::session {

using base::Error;
using base::ErrorCode;
using roster::Task;

/// Work of one child while it is judged: the fields as the rows so far would leave them, and how
/// each row is written when all of them are found right.
struct Session::Bench {
  explicit Bench(By whose) : by(whose) {}

  /// Every row is of the same child on the same day.
  Result<base::Done> isOf(roster::ChildId whose, roster::DayId when) {
    if (!child) {
      child = whose;
      day = when;
    }
    if (child == whose && day == when) return base::Done{};
    return Error{ErrorCode::ruleIdentity, "one act is of one child on one day"};
  }
  /// The act goes by its weightiest row: what undo may not take back comes before what it may.
  void take(const Admission& one) {
    const auto weight = [](const Admission& row) {
      const auto verb = row.verb();
      return verb == Verb::withdrawConsent ? 3 : verb == Verb::stopTeeth ? 2 : 1;
    };
    if (!may || weight(one) > weight(*may)) may = one;
  }
  void add(chairside::Placement placement) {
    rows.emplace_back([placement](store::Act& act, Worked&) { act.add(placement); });
    placements.push_back(std::move(placement));
  }

  [[nodiscard]] base::Date on() const { return may.value().on(); }

  By by;
  std::optional<roster::ChildId> child{};
  std::optional<roster::DayId> day{};
  std::optional<Admission> may{}; ///< of the row that names the whole act
  std::map<chairside::FieldId, FieldState> fields{};
  std::vector<chairside::Placement> placements{};
  std::vector<std::function<void(store::Act&, Worked&)>> rows{};
};

/// Each row is held against the table as the verb that it is.
Result<FieldState*> Session::inHand(Bench& bench, Verb verb, chairside::FieldId field,
                                    std::optional<std::string_view> reason) {
  auto here = bench.fields.find(field);
  if (here == bench.fields.end()) {
    auto state = fieldState(field);
    if (!state) return state.error();
    here = bench.fields.emplace(field, std::move(*state)).first;
  }
  const auto& value = here->second.field.value;
  if (const auto same = bench.isOf(value.child, value.day); !same) return same.error();
  const auto may =
      admit(verb, bench.by, {.day = value.day, .child = value.child, .reason = reason});
  if (!may) return may.error();
  bench.take(*may);
  return &here->second;
}

Result<base::Seconds> Session::leastOf(const FieldState& state, chairside::Step step,
                                       std::span<const dentition::ToothSurfaces> teeth,
                                       const std::optional<kit::LightId>& light) {
  using chairside::Step;
  if (step == Step::etch) return state.protocol.etchTarget(teeth);
  if (step == Step::rinse) return state.protocol.rinseTarget();
  base::Seconds least{0};
  if (step != Step::cure) return least;
  for (const auto& named : teeth) {
    const auto* tooth = state.protocol.find(named.tooth);
    const auto own = state.field.value.sealant;
    const auto target = cureTarget(tooth ? tooth->sealant.value_or(own) : own, light);
    if (!target) return target.error();
    least = std::max(least, *target);
  }
  return least;
}

/// A form or a dentist's word withdrawn meanwhile stops what is not begun: before the etch, or the
/// drying of what is not etched. Sealant that is on is finished, and etchant that is on is rinsed.
Result<base::Done> Session::mayBegin(const Bench& bench, const FieldState& state,
                                     chairside::Step step,
                                     const std::vector<dentition::ToothSurfaces>& teeth) {
  using chairside::Step;
  const auto& field = state.field.value;
  std::vector<dentition::ToothSurfaces> begun;
  for (const auto& named : teeth) {
    const auto* tooth = state.protocol.find(named.tooth);
    if (tooth == nullptr || tooth->flowed || tooth->holds || tooth->etchantOn) continue;
    const bool isFirst = step == Step::etch || (step == Step::dry && tooth->etches == 0);
    if (isFirst) begun.push_back(named);
  }
  if (begun.empty()) return base::Done{};
  const auto sealant = only<kit::Lot>(store::subjectIs(field.sealant), "sealant lot");
  if (!sealant) return sealant.error();
  if (auto may = mayTreat(field.child, serviceFor(sealant->value.kind), bench.on()); !may)
    return may;
  return areAuthorized(field.child, begun, bench.on());
}

/// An etch takes an etchant, every later step the material that its field was isolated for.
Result<base::Done> Session::runLotFits(const chairside::StepRun& run, const chairside::Field& field,
                                       base::Date on) {
  const bool isEtch = run.step == chairside::Step::etch;
  // Left out, it is the field's own, which may have been set aside since.
  auto lot = run.lot;
  if (!lot && isEtch) lot = field.etchant;
  if (!lot && run.step == chairside::Step::flow) lot = field.sealant;
  if (!lot) return base::Done{};
  if (isEtch) return lotFits(*lot, kit::MaterialKind::etchant, field.child, on);
  const auto planned = only<kit::Lot>(store::subjectIs(field.sealant), "sealant lot");
  if (!planned) return planned.error();
  return lotFits(*lot, planned->value.kind, field.child, on);
}

Result<base::Done> Session::judge(Bench& bench, chairside::StepRun run) {
  using chairside::Step;
  using chairside::StepResult;
  auto found = inHand(bench, Verb::enterStep, run.field);
  if (!found) return found.error();
  auto& state = **found;
  const auto& field = state.field.value;
  const bool judged =
      run.result == StepResult::shortAccepted || run.result == StepResult::frostyNotSeen;
  if (judged)
    if (auto clinician = entitled(*bench.by.author, Task::clinicianOverride, bench.on());
        !clinician)
      return clinician.error();
  const auto least = leastOf(state, run.step, run.teeth, run.light);
  if (!least) return least.error();
  if (const auto allowed = state.protocol.allows(run, *least); !allowed) return allowed.error();
  if (const auto may = mayBegin(bench, state, run.step, run.teeth); !may) return may.error();
  if (const auto fits = runLotFits(run, field, bench.on()); !fits) return fits.error();
  if (run.light)
    if (const auto fits = lightFits(*run.light, bench.on(), run, bench.may->author().value); !fits)
      return fits.error();
  if (*least > base::Seconds{0})
    run.target = std::max(*least, run.target.value_or(base::Seconds{0}));
  state.protocol.apply(run);
  bench.rows.emplace_back(
      [run](store::Act& act, Worked& made) { made.steps.push_back(act.add(run)); });
  if (run.step != Step::check) return base::Done{};
  for (const auto& named : run.teeth) {
    const auto type = placementType(field, named.tooth);
    if (!type) return type.error();
    const auto* progress = std::as_const(state.protocol).find(named.tooth);
    base::require(progress != nullptr, "an allowed check of a tooth outside the field");
    bench.add(
        chairside::summarize(field, *progress, run.field, *type, *bench.by.author, run.reason));
  }
  return base::Done{};
}

Result<base::Done> Session::judge(Bench& bench, const chairside::Wet& wet) {
  auto state = inHand(bench, Verb::wet, wet.field);
  if (!state) return state.error();
  if (const auto allowed = (*state)->protocol.allows(wet); !allowed) return allowed.error();
  (*state)->protocol.apply(wet);
  bench.rows.emplace_back(
      [wet](store::Act& act, Worked& made) { made.wets.push_back(act.add(wet)); });
  return base::Done{};
}

Result<base::Done> Session::judge(Bench& bench, const ChairStop& stop) {
  auto found = inHand(bench, Verb::stopTeeth, stop.field, stop.reason);
  if (!found) return found.error();
  auto& state = **found;
  if (const auto allowed = state.protocol.allowsStop(stop.teeth); !allowed) return allowed.error();
  std::vector<dentition::Tooth> open;
  for (const auto& tooth : stop.teeth)
    if (std::as_const(state.protocol).find(tooth)->next < chairside::Next::placed)
      open.push_back(tooth);
  if (open.empty()) return Error{ErrorCode::ruleStep, "these teeth are finished already"};
  state.protocol.stop(open);
  for (const auto& tooth : open) {
    const auto type = placementType(state.field.value, tooth);
    if (!type) return type.error();
    bench.add(chairside::summarize(state.field.value, *std::as_const(state.protocol).find(tooth),
                                   stop.field, *type, *bench.by.author, stop.reason));
  }
  return base::Done{};
}

/// A light that reads red is asked about before it is on the tooth, and refused with its cure.
Result<base::Done> Session::judge(Bench& bench, chairside::TimerStart start) {
  auto state = inHand(bench, Verb::startTimer, start.field);
  if (!state) return state.error();
  if (const auto allowed = (*state)->protocol.allows(start); !allowed) return allowed.error();
  const auto least = leastOf(**state, start.step, start.teeth, start.light);
  if (!least) return least.error();
  start.target = std::max(start.target, *least);
  if (const auto may = mayBegin(bench, **state, start.step, start.teeth); !may) return may.error();
  (*state)->protocol.apply(start);
  bench.rows.emplace_back([start](store::Act& act, Worked& made) { made.timer = act.add(start); });
  return base::Done{};
}

Result<base::Done> Session::judge(Bench& bench, const chairside::DayOutcome& outcome,
                                  Confirmed confirmed) {
  if (const auto same = bench.isOf(outcome.child, outcome.day); !same) return same.error();
  const auto may = admit(Verb::endVisit, bench.by, {.day = outcome.day, .child = outcome.child});
  if (!may) return may.error();
  bench.take(*may);
  if (const auto fits = outcomeFits(outcome, bench.placements); !fits) return fits.error();
  auto states = fields(outcome.child, outcome.day);
  if (!states) return states.error();
  for (const auto& state : *states) {
    const auto here = bench.fields.find(state.field.id);
    const auto& protocol = here == bench.fields.end() ? state.protocol : here->second.protocol;
    if (protocol.next() < chairside::Next::placed)
      return Error{ErrorCode::ruleOutcome,
                   "teeth are still isolated: finish them, or stop them with a reason"};
  }
  if (confirmed == Confirmed::no)
    if (const auto whole = isCareComplete(outcome, may->on()); !whole) return whole.error();
  auto earlier = book_.current<chairside::DayOutcome>(
      store::rowsOf("child", outcome.child, "day", outcome.day));
  if (!earlier) return earlier.error();
  bench.rows.emplace_back([outcome, was = std::move(*earlier)](store::Act& act, Worked& made) {
    if (was.empty()) {
      made.outcome = act.add(outcome);
      return;
    }
    // The child came back: the newer word stands, the older stays in the history.
    made.outcome = was.back().id;
    replaceAll(act, was, outcome, "the visit was resumed");
  });
  return base::Done{};
}

Result<Worked> Session::work(By by, const ChairWork& work) {
  Bench bench(by);
  for (const auto& run : work.steps)
    if (const auto fine = judge(bench, run); !fine) return fine.error();
  for (const auto& wet : work.wets)
    if (const auto fine = judge(bench, wet); !fine) return fine.error();
  for (const auto& stop : work.stops)
    if (const auto fine = judge(bench, stop); !fine) return fine.error();
  if (const auto& change = work.findings) {
    const auto& said = change->screening;
    if (const auto same = bench.isOf(said.child, said.day); !same) return same.error();
    const auto may = mayCorrect(by, change->old, said, change->reason);
    if (!may) return may.error();
    bench.take(*may);
    bench.rows.emplace_back([change = *change](store::Act& act, Worked&) {
      act.correct(change.old, change.screening, change.reason);
    });
  }
  if (const auto& word = work.withdrawal) {
    if (bench.child && *bench.child != word->child)
      return Error{ErrorCode::ruleIdentity, "one act is of one child on one day"};
    const auto may = admit(Verb::withdrawConsent, by, {.child = word->child, .reason = word->how});
    if (!may) return may.error();
    bench.take(*may);
    auto forms = formsToWithdraw(word->child, word->how);
    if (!forms) return forms.error();
    bench.rows.emplace_back([forms = std::move(*forms), how = word->how](store::Act& act, Worked&) {
      withdrawForms(act, forms, how);
    });
  }
  if (work.timer)
    if (const auto fine = judge(bench, *work.timer); !fine) return fine.error();
  if (work.outcome)
    if (const auto fine = judge(bench, *work.outcome, Confirmed::no); !fine) return fine.error();
  if (bench.rows.empty()) return Worked{};
  if (work.withdrawal && bench.child && *bench.child != work.withdrawal->child)
    return Error{ErrorCode::ruleIdentity, "one act is of one child on one day"};
  const auto child = bench.child ? bench.child : std::optional(work.withdrawal->child);
  return write(*bench.may, child, [&](store::Act& act) {
    Worked made;
    for (const auto& row : bench.rows)
      row(act, made);
    return made;
  });
}

Result<chairside::TimerId> Session::startTimer(By by, const chairside::TimerStart& start) {
  const auto made = work(by, {.timer = start});
  if (!made) return made.error();
  return *made->timer;
}

Result<chairside::StepId> Session::enterStep(By by, const chairside::StepRun& run) {
  const auto made = work(by, {.steps = {run}});
  if (!made) return made.error();
  return made->steps.front();
}

Result<chairside::WetId> Session::wet(By by, const chairside::Wet& event) {
  const auto made = work(by, {.wets = {event}});
  if (!made) return made.error();
  return made->wets.front();
}

Result<base::Done> Session::stopTeeth(By by, chairside::FieldId field,
                                      const std::vector<dentition::Tooth>& teeth,
                                      const std::string& reason) {
  const auto made = work(by, {.stops = {{field, teeth, reason}}});
  if (!made) return made.error();
  return base::Done{};
}

Result<base::Done> Session::enterAfterCure(By by, const chairside::AfterCure& after) {
  const auto may = admit(Verb::enterAfterCure, by, {.day = after.day, .child = after.child});
  if (!may) return may.error();
  if (const auto said = chairside::checkAfterCure(after); !said) return said.error();
  const auto here = store::rowsOf("child", after.child, "day", after.day);
  auto placed = book_.current<chairside::Placement>(here);
  if (!placed) return placed.error();
  const bool isSealed = std::ranges::any_of(
      *placed, [](const auto& one) { return one.value.attempt == chairside::Attempt::complete; });
  if (!isSealed)
    return Error{ErrorCode::ruleStep, "no sealant was placed today whose surface could be wiped"};
  auto earlier = book_.current<chairside::AfterCure>(here);
  if (!earlier) return earlier.error();
  return write(*may, after.child, [&](store::Act& act) {
    return replaceAll(act, std::move(*earlier), after, "entered again");
  });
}

Result<chairside::OutcomeId> Session::endVisit(By by, const chairside::DayOutcome& outcome,
                                               Confirmed confirmed) {
  Bench bench(by);
  if (const auto fine = judge(bench, outcome, confirmed); !fine) return fine.error();
  return write(*bench.may, outcome.child, [&](store::Act& act) {
    Worked made;
    for (const auto& row : bench.rows)
      row(act, made);
    return *made.outcome;
  });
}

} // namespace gk::session
