#include "ui/field/field_steps.h"

#include "base/contract.h"
#include "reports/display_names.h"
#include "session/light_reading.h"
#include "ui/support/text.h"

#include <algorithm>
#include <map>

namespace gk::ui {

using chairside::Next;
using chairside::Step;
using chairside::StepResult;
using chairside::StepRun;
using dentition::ToothSurfaces;

QString timedTeeth(const std::vector<ToothSurfaces>& teeth, bool withSurfaces,
                   dentition::Notation notation) {
  QStringList words;
  const bool isFew = teeth.size() <= 2;
  for (const auto& [tooth, surfaces] : teeth)
    words += toQt(isFew ? tooth.shown(notation) : tooth.number(notation));
  if (withSurfaces && teeth.size() == 1)
    words.back() += u' ' + toQt(dentition::words(teeth.front().surfaces));
  return isFew ? words.join(u"; "_s) : u"teeth "_s + words.join(u", "_s);
}

FieldSteps::FieldSteps(ChairVisit& visit, QObject* parent) : QObject(parent), visit_(visit) {
  connect(&visit_.timer, &TimerView::reachedTarget, this, &FieldSteps::reached);
  connect(&visit_.timer, &TimerView::ticked, this, &FieldSteps::look);
  connect(&visit_.timer, &TimerView::wallClockMoved, this, [this] {
    visit_.strip.post({u"The laptop's clock changed during a timed step."_s,
                       u"Nothing is lost; the step time is still correct."_s,
                       u"Check date and time after this child."_s});
  });
  connect(&visit_.timer, &TimerView::interrupted, this, [this] { interrupt("the laptop slept"); });
}

void FieldSteps::begin() {
  together_ = false;
  rinseAsked_ = false;
  lightReason_.reset();
}

const session::FieldState& FieldSteps::field() const {
  const auto* inHand = visit_.file().fieldInHand();
  base::require(inHand != nullptr, "no field in hand");
  return *inHand;
}

bool FieldSteps::hasLamp() const {
  const auto* lot = visit_.file().lot(field().field.value.sealant);
  return lot && lot->kind == kit::MaterialKind::sealantLightCure;
}

bool FieldSteps::wasInterrupted() const {
  const auto& timer = field().running;
  return timer && !running_ && timer->value.step != Step::rinse;
}

std::vector<ToothSurfaces> FieldSteps::next() const {
  const auto& protocol = field().protocol;
  const auto now = step();
  if (now == Next::cure) return nextExposure(protocol, visit_.map.selected(), together_, hasLamp());
  std::vector<ToothSurfaces> due;
  for (const auto& progress : protocol.teeth())
    if (progress.next == now) due.push_back({progress.tooth, progress.surfaces});
  return due;
}

base::Seconds FieldSteps::target() const {
  switch (step()) {
  case Next::etch:
    return field().protocol.etchTarget(next());
  case Next::rinse:
    return field().protocol.rinseTarget();
  case Next::flow:
  case Next::cure:
    return cureTarget(field().protocol);
  case Next::dry:
  case Next::check:
  case Next::placed:
  case Next::notAchieved:
  case Next::stopped:
    return base::Seconds{0};
  }
  base::fail("no such step");
}

base::Seconds FieldSteps::cureTarget(const chairside::Protocol& protocol) const {
  const auto light = hasLamp() ? visit_.setup().light : std::nullopt;
  auto lot = sealantLot();
  for (const auto& named : protocol.due(Next::cure))
    lot = protocol.find(named.tooth)->sealant.value_or(lot);
  const auto least = visit_.book().cureTarget(lot, light);
  if (!least) visit_.strip.post(describe(least.error()));
  return least.value_or(base::Seconds{0});
}

StepRun FieldSteps::blank(Step step, std::vector<ToothSurfaces> teeth) const {
  StepRun run{.field = field().field.id,
              .step = step,
              .teeth = std::move(teeth),
              .lasted = {},
              .target = {},
              .timer = {},
              .light = {},
              .lot = {},
              .reason = {}};
  const auto& setup = visit_.setup();
  if (step == Step::etch) run.lot = setup.etchant;
  if (step == Step::flow) run.lot = sealantLot();
  if (step == Step::cure && hasLamp()) run.light = setup.light;
  if (run.light && lightReason_ && lightReason_->first == *run.light)
    run.reason = lightReason_->second;
  return run;
}

kit::LotId FieldSteps::sealantLot() const {
  const auto own = field().field.value.sealant;
  const auto carried = visit_.setup().sealant;
  const auto* one = visit_.file().lot(own);
  const auto* other = visit_.file().lot(carried);
  return one && other && one->kind == other->kind ? *carried : own;
}

QString FieldSteps::lightTrouble() const {
  if (!hasLamp()) return {};
  const auto id = visit_.setup().light;
  const auto* light = visit_.file().light(id);
  if (!light) return u"Choose a light first: K."_s;
  if (lightReason_ && lightReason_->first == *id) return {};
  if (!light->inService) return u"Light "_s + toQt(light->tag) + u" is out of service."_s;
  const auto red = session::readsRed(visit_.book(), *id, visit_.date());
  if (!red) return inOneLine(describe(red.error()));
  if (!*red) return {};
  return u"Light "_s + toQt(light->tag) + u" reads RED today."_s;
}

chairside::Protocol FieldSteps::after(const Runs& runs) const {
  auto protocol = field().protocol;
  for (const auto& run : runs)
    protocol.apply(run);
  return protocol;
}

bool FieldSteps::enter(const session::ChairWork& work) {
  return visit_.act([&] { return visit_.book().work(visit_.by(), work); }).has_value();
}

/// The sealant that the pedal says is on, where it does.
FieldSteps::Runs FieldSteps::flowed() const {
  const auto due = field().protocol.due(Next::flow);
  if (step() != Next::flow || due.empty()) return {};
  return {blank(Step::flow, due)};
}

/// Asked before the light is on the tooth: a cure that the book refuses afterwards helps no one.
void FieldSteps::startCure(const Runs& ended) {
  const auto start = [this](const Runs& first) {
    auto before = first;
    for (const auto& run : flowed())
      before.push_back(run);
    const auto then = after(before);
    startTimer(Step::cure, nextExposure(then, visit_.map.selected(), together_, hasLamp()),
               cureTarget(then), before);
  };
  const auto trouble = lightTrouble();
  const auto light = visit_.setup().light;
  if (trouble.isEmpty()) {
    start(ended);
    return;
  }
  if (!ended.empty() && !enter({.steps = ended})) return;
  if (!visit_.file().light(light)) {
    visit_.strip.say(trouble);
    return;
  }
  visit_.ask.write(trouble + u" Use another (Esc, K), or a clinician gives a reason to use it:"_s,
                   {}, [this, light, start](const QString& why) {
                     lightReason_.emplace(*light, toStd(why));
                     start({});
                   });
}

void FieldSteps::pedal() {
  if (visit_.timer.isRunning()) {
    if (!running_ || !visit_.timer.accepts()) return;
    // During a cure a second press is a bounce or a habit, unless it is held.
    if (runs(Step::etch))
      askEtch();
    else if (isRinsing())
      visit_.strip.say(u"Rinse timer running; it stops by itself. Then: dull and frosty?"_s);
    else
      heldSince_ = visit_.context().clock.steady();
    return;
  }
  if (wasInterrupted()) {
    noteInterrupted();
    return;
  }
  const auto now = step();
  // Etchant that is on since an interrupted etch comes off before the next one.
  const auto on = field().protocol.due(Next::rinse);
  if (now == Next::etch && !on.empty())
    startTimer(Step::rinse, on, field().protocol.rinseTarget());
  else if (now == Next::etch)
    startTimer(Step::etch, next(), target());
  if (now == Next::rinse) startTimer(Step::rinse, next(), target());
  if (now == Next::dry)
    visit_.strip.say(u"Dull and frosty? 5 yes, 4 no. Timer stopped. Answer to continue."_s);
  if (now == Next::flow || now == Next::cure) startCure({});
}

/// At each tick: a pedal held for a second starts the cure over; an etch that is too long is said.
void FieldSteps::look() {
  constexpr base::Milliseconds held{1000};
  if (const auto words = caution(); !words.isEmpty()) visit_.timer.remind(words);
  if (!heldSince_ || !runs(Step::cure)) return;
  if (visit_.context().clock.steady() - *heldSince_ < held) return;
  heldSince_.reset();
  startCure({takeRun(StepResult::interrupted, "started over")});
}

void FieldSteps::startTimer(Step step, const Teeth& teeth, base::Seconds target,
                            const Runs& before) {
  auto run = blank(step, teeth);
  run.target = target;
  run.source = chairside::TimeSource::timer;
  const auto title = capital(toQt(base::displayName(step))) + u": "_s +
                     timedTeeth(teeth, step == Step::cure, visit_.notation());
  const session::ChairWork work{
      .steps = before, .timer = chairside::TimerStart{run.field, step, teeth, target, run.light}};
  const auto made = visit_.act([&] { return visit_.book().work(visit_.by(), work); });
  if (!made) return;
  run.timer = made->timer;
  running_ = Running{run};
  heldSince_.reset();
  visit_.timer.start(title, target);
  Q_EMIT visit_.changed();
}

StepRun FieldSteps::takeRun(StepResult result, std::string reason) {
  base::require(running_.has_value(), "no timer runs");
  auto run = running_->run;
  run.lasted = visit_.timer.stop();
  run.result = result;
  if (!reason.empty()) run.reason = std::move(reason);
  running_.reset();
  return run;
}

/// A cure and a rinse end by themselves.
void FieldSteps::reached() {
  if (runs(Step::cure)) endCure(StepResult::done, {});
  if (!isRinsing() || rinseAsked_) return;
  auto run = takeRun(StepResult::done, {});
  // What was stopped meanwhile is not rinsed any more.
  const auto due = field().protocol.due(Next::rinse);
  std::erase_if(run.teeth,
                [&](const auto& named) { return std::ranges::find(due, named) == due.end(); });
  if (!run.teeth.empty()) enter(run);
  Q_EMIT visit_.changed();
}

void FieldSteps::endCure(StepResult result, const std::string& reason) {
  if (enter(takeRun(result, reason))) cured_ = cureNow();
  Q_EMIT visit_.changed();
}

FieldSteps::Runs FieldSteps::halt(const std::string& reason) {
  if (!running_) return {};
  const auto run = takeRun(StepResult::interrupted, reason);
  if (run.step == Step::rinse) return {}; // half a rinse is none
  return run.step == Step::etch ? byReason(run) : Runs{run};
}

void FieldSteps::interrupt(const std::string& reason) {
  if (!running_) return;
  const bool wasRinse = isRinsing();
  const auto ended = halt(reason);
  if (!ended.empty()) enter({.steps = ended});
  if (wasRinse) visit_.strip.say(u"Rinse timer stopped: rinse again. Space starts it."_s);
  Q_EMIT visit_.changed();
}

void FieldSteps::lightStopped() {
  if (!running_ || running_->run.step != Step::cure) return;
  const auto run =
      takeRun(StepResult::interrupted, hasLamp() ? "the light stopped" : "the timer was stopped");
  // Whoever leaves the question has not taken it short: the seconds are on record either way.
  const auto stopped = [this, run] { enter(run); };
  const auto takeShort = [this, run](const QString& why) {
    auto taken = run;
    taken.result = StepResult::shortAccepted;
    taken.reason = toStd(why);
    enter(taken);
  };
  visit_.ask.choose(
      u"The cure stopped at %1 s of %2 s."_s
          .arg(static_cast<double>(run.lasted->count()) / 1000.0, 0, 'f', 1)
          .arg(run.target->count()),
      {u"Cure again in full"_s, u"Accept short time"_s},
      [this, stopped, takeShort](int chosen) {
        if (chosen == 0) return stopped();
        visit_.ask.write(u"Why is the short cure enough?"_s, {}, takeShort, stopped);
      },
      stopped);
  Q_EMIT visit_.changed();
}

void FieldSteps::noteInterrupted() {
  if (!wasInterrupted()) return;
  const auto timer = *field().running;
  auto run = blank(timer.value.step, timer.value.teeth);
  run.result = StepResult::interrupted;
  run.target = timer.value.target;
  run.light = timer.value.light;
  run.timer = timer.id;
  run.source = chairside::TimeSource::timer;
  run.lasted = base::Milliseconds{0}; // how long it truly ran, no one saw
  run.reason = "it was running when the program stopped; it does not count";
  enter({.steps = run.step == Step::etch ? byReason(run) : Runs{run}});
}

void FieldSteps::toggleTogether() {
  together_ = !together_;
  Q_EMIT visit_.changed();
}

} // namespace gk::ui
