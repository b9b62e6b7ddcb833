#include "ui/pages/field_steps.h"

#include "base/text.h"
#include "ui/support/text.h"

#include <algorithm>
#include <map>

// What a person answers between the timers: frosty, flowed, checked, wet.
namespace gk::ui {

using chairside::Next;
using chairside::Step;
using chairside::StepResult;
using chairside::WetCause;
using dentition::Tooth;
using dentition::ToothSurfaces;

namespace {

QString words(const Tooth& tooth) {
  return capital(toQt(tooth.words()));
}

QStringList words(const std::vector<Tooth>& teeth) {
  QStringList out;
  for (const auto& tooth : teeth)
    out += words(tooth);
  return out;
}

std::vector<Tooth> names(const std::vector<ToothSurfaces>& teeth) {
  std::vector<Tooth> out;
  for (const auto& named : teeth)
    out.push_back(named.tooth);
  return out;
}

} // namespace

/// Rinsed teeth and teeth that are rinsed already are dried together.
bool FieldSteps::rinse() {
  const auto due = field().protocol.due(Next::rinse);
  return due.empty() || enter(blank(Step::rinse, due));
}

void FieldSteps::dry(const std::vector<Tooth>& dull) {
  if (!rinse()) return;
  const bool hasFrost =
      visit_.file().lot(field().field.value.sealant)->kind != kit::MaterialKind::glassIonomer;
  std::vector<ToothSurfaces> frosted;
  std::vector<ToothSurfaces> notFrosted;
  for (const auto& named : field().protocol.due(Next::dry))
    (std::ranges::find(dull, named.tooth) == dull.end() ? frosted : notFrosted).push_back(named);
  if (!frosted.empty()) {
    auto run = blank(Step::dry, frosted);
    run.result = hasFrost ? StepResult::frosty : StepResult::done;
    if (!enter(run)) return;
  }
  if (!notFrosted.empty()) {
    auto run = blank(Step::dry, notFrosted);
    run.result = StepResult::notFrosty;
    enter(run);
  }
}

void FieldSteps::frosty() {
  dry({});
}

void FieldSteps::notFrosty() {
  const auto teeth = names(next());
  if (teeth.size() == 1) {
    dry(teeth);
    return;
  }
  auto options = words(teeth);
  options.prepend(u"All of them"_s);
  visit_.ask.choose(
      u"Which is not dull and frosty? It is etched again."_s, options, [this, teeth](int chosen) {
        dry(chosen == 0 ? teeth : std::vector{teeth[static_cast<std::size_t>(chosen - 1)]});
      });
}

void FieldSteps::frostyNotSeen() {
  visit_.ask.write(u"Why go on without having seen it frosty?"_s, {}, [this](const QString& why) {
    if (!rinse()) return;
    auto run = blank(Step::dry, field().protocol.due(Next::dry));
    run.result = StepResult::frostyNotSeen;
    run.reason = toStd(why);
    enter(run);
  });
}

void FieldSteps::flow() {
  if (const auto due = field().protocol.due(Next::flow); !due.empty())
    enter(blank(Step::flow, due));
}

void FieldSteps::check(StepResult result) {
  const auto due = field().protocol.due(Next::check);
  if (due.empty()) return;
  auto run = blank(Step::check, {meant(due, visit_.map.selected())});
  run.result = result;
  if (result != StepResult::notAchieved) {
    enter(run);
    return;
  }
  visit_.ask.write(u"Not achieved: what is wrong with the "_s +
                       toQt(run.teeth.front().tooth.words()) + u'?',
                   {}, [this, run](const QString& why) {
                     auto failed = run;
                     failed.reason = toStd(why);
                     enter(failed);
                   });
}

void FieldSteps::wet() {
  if (running_ && running_->run.step == Step::cure) interrupt("wet during the cure");
  askWet(WetCause::saliva);
}

void FieldSteps::askWet(WetCause cause) {
  auto teeth = unfinished(field().protocol);
  if (teeth.empty()) return;
  const auto here = std::ranges::find(teeth, visit_.map.selected());
  if (here != teeth.end()) std::rotate(teeth.begin(), here, here + 1);
  auto options = words(teeth);
  if (teeth.size() > 1) options += u"All of these"_s;
  options += u"Another cause"_s;
  visit_.ask.choose(
      u"WET: which teeth? Look at the neighbours too. Cause: "_s + toQt(base::nameOf(cause)),
      options, [this, teeth, cause, last = static_cast<int>(options.size()) - 1](int chosen) {
        const auto place = static_cast<std::size_t>(chosen);
        if (chosen == last) {
          QStringList causes;
          for (const auto name : base::enumNames<WetCause>)
            causes += capital(toQt(name));
          visit_.ask.choose(u"What made it wet?"_s, causes,
                            [this](int which) { askWet(static_cast<WetCause>(which)); });
          return;
        }
        noteWet(place < teeth.size() ? std::vector{teeth[place]} : teeth, cause);
      });
}

void FieldSteps::noteWet(const std::vector<Tooth>& teeth, WetCause cause) {
  std::map<chairside::WetStage, std::vector<Tooth>> byStage;
  for (const auto& tooth : teeth)
    byStage[field().protocol.stageOf(tooth)].push_back(tooth);
  const auto id = field().field.id;
  for (const auto& [stage, touched] : byStage) {
    const chairside::Wet event{id, touched, stage, cause, {}};
    if (!visit_.act([&] { return visit_.book().wet(visit_.by(), event); })) return;
  }
}

void FieldSteps::typeSeconds() {
  if (visit_.timer.isRunning() || wasInterrupted()) return;
  if (step() == Next::flow) flow();
  const auto now = step();
  if (now != Next::etch && now != Next::cure) return;
  auto run = blank(now == Next::etch ? Step::etch : Step::cure, next());
  run.target = target();
  run.source = chairside::TimeSource::typed;
  visit_.ask.write(u"How many seconds, by another clock? At least %1."_s.arg(run.target->count()),
                   {}, [this, run](const QString& text) {
                     const auto seconds = base::parseInt(toStd(text));
                     if (!seconds || *seconds < 1 || *seconds > 600) {
                       visit_.strip.say(u"Type whole seconds, 1 to 600. Nothing was written."_s);
                       return;
                     }
                     auto typed = run;
                     typed.lasted = base::Seconds(*seconds);
                     if (*seconds >= run.target->count()) {
                       enterTyped(typed);
                       return;
                     }
                     visit_.ask.write(u"That is short. Why is it enough? Esc: do it again."_s, {},
                                      [this, typed](const QString& why) {
                                        auto taken = typed;
                                        taken.result = StepResult::shortAccepted;
                                        taken.reason = toStd(why);
                                        enterTyped(taken);
                                      });
                   });
}

void FieldSteps::enterTyped(const chairside::StepRun& run) {
  if (run.step == Step::etch)
    enterEtch(run);
  else if (enter(run))
    cured_ = cureNow();
}

} // namespace gk::ui
