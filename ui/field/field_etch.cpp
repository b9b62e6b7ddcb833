#include "ui/field/field_steps.h"
#include "ui/support/text.h"

#include <algorithm>
#include <map>

// Etchant on the tooth, and off it again: the etch, its limits, and the rinse that ends it.
namespace gk::ui {

using chairside::Next;
using chairside::Step;
using chairside::StepResult;
using chairside::StepRun;

QString FieldSteps::caution() const {
  if (!runs(Step::etch) || !visit_.timer.isRunning()) return {};
  const auto elapsed = visit_.timer.elapsed();
  if (elapsed > std::max(chairside::etchLimit, *running_->run.target))
    return u"PAST %1 s: RINSE NOW. After the rinse you are asked why."_s.arg(
        chairside::etchLimit.count());
  if (elapsed > std::max(chairside::etchCaution, *running_->run.target))
    return u"PAST %1 s: rinse now."_s.arg(chairside::etchCaution.count());
  return {};
}

bool FieldSteps::etchantIsOn() const {
  if (visit_.file().fieldInHand() == nullptr) return false;
  return runs(Step::etch) || !field().protocol.due(Next::rinse).empty();
}

/// Teeth may be etched for different reasons under one clock: a run for each reason.
FieldSteps::Runs FieldSteps::byReason(const StepRun& etch) const {
  std::map<chairside::EtchReason, Teeth> sorted;
  for (const auto& named : etch.teeth)
    if (const auto* progress = field().protocol.find(named.tooth))
      sorted[progress->etchReason].push_back(named);
  Runs runs;
  for (const auto& [why, teeth] : sorted) {
    runs.push_back(etch);
    runs.back().teeth = teeth;
    runs.back().etchReason = why;
  }
  return runs;
}

/// The rinse begins with the same key, and with it its clock.
void FieldSteps::endEtch(StepResult result, const std::string& reason) {
  const auto etched = byReason(takeRun(result, reason));
  const auto then = after(etched);
  const auto due = then.due(Next::rinse);
  if (due.empty())
    enter({.steps = etched});
  else
    startTimer(Step::rinse, due, then.rinseTarget(), etched);
  Q_EMIT visit_.changed();
}

void FieldSteps::askEtch() {
  if (visit_.timer.isReached()) {
    endEtch(StepResult::done, {});
    return;
  }
  // Etching goes on until the rinse, so the clock does too while this is asked.
  visit_.ask.choose(
      u"Etch under minimum. What happened?"_s,
      {u"Still etching"_s, u"Rinse and etch again"_s, u"Accept short time"_s}, [this](int chosen) {
        if (!runs(Step::etch) || chosen == 0) return;
        if (chosen == 1) {
          endEtch(StepResult::interrupted, "rinsed too early");
          return;
        }
        visit_.ask.write(u"Why is the short etch enough?"_s, {}, [this](const QString& why) {
          if (runs(Step::etch)) endEtch(StepResult::shortAccepted, toStd(why));
        });
      });
}

void FieldSteps::rinseNow(const std::string& reason, const std::function<void(const Runs&)>& then) {
  if (runs(Step::etch))
    endEtch(visit_.timer.isReached() ? StepResult::done : StepResult::interrupted, reason);
  else if (!isRinsing())
    startTimer(Step::rinse, field().protocol.due(Next::rinse), field().protocol.rinseTarget());
  if (!isRinsing()) return; // refused, and said so
  rinseAsked_ = true;
  visit_.ask.choose(
      u"RINSE NOW: etchant is on. Answer when it is rinsed off."_s,
      {u"Rinsed"_s, u"Could not be rinsed"_s},
      [this, reason, then](int chosen) {
        rinseAsked_ = false;
        if (!isRinsing()) return then({});
        const bool isWhole = chosen == 0 && visit_.timer.isReached();
        then({takeRun(isWhole ? StepResult::done : StepResult::shortAccepted,
                      chosen == 0 ? reason : "could not be rinsed: " + reason)});
      },
      [this] {
        rinseAsked_ = false;
        if (isRinsing() && visit_.timer.isReached()) reached();
      });
}

/// Goes on with the rinse that the key ends, if any: none is left out, and none is short unseen.
void FieldSteps::whenRinsed(const std::function<void(const Runs&)>& then) {
  if (!isRinsing()) {
    if (field().protocol.due(Next::rinse).empty())
      then({});
    else
      visit_.strip.say(u"Rinse first: Space starts the timer, T takes seconds timed by hand."_s);
    return;
  }
  visit_.ask.choose(u"Rinse under minimum. What happened?"_s,
                    {u"Still rinsing"_s, u"Accept short time"_s}, [this, then](int chosen) {
                      if (chosen == 0) return;
                      if (!isRinsing()) return then({}); // it ended by itself meanwhile
                      visit_.ask.write(u"Why is the short rinse enough?"_s, {},
                                       [this, then](const QString& why) {
                                         if (!isRinsing()) return then({});
                                         then({takeRun(StepResult::shortAccepted, toStd(why))});
                                       });
                    });
}

} // namespace gk::ui
