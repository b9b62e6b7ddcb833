#include "reports/display_names.h"
#include "ui/field/field_steps.h"

#include "base/text/text.h"
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

/// Etchant that lay on too long is asked about now that it is off.
void FieldSteps::enterDry(Runs runs) {
  std::optional<Tooth> late;
  for (const auto& run : runs)
    for (const auto& named : run.teeth)
      if (const auto* progress = field().protocol.find(named.tooth);
          progress != nullptr && progress->etchedLong && run.step == Step::dry)
        late = named.tooth;
  const bool isSaid = std::ranges::all_of(
      runs, [](const auto& run) { return run.step != Step::dry || !run.reason.empty(); });
  if (!late || isSaid) {
    enter({.steps = std::move(runs)});
    return;
  }
  visit_.ask.write(
      u"The etch of the "_s + toQt(late->words()) +
          u" lasted more than %1 s. Why?"_s.arg(chairside::etchLimit.count()),
      {},
      [this, runs](const QString& why) {
        auto said = runs;
        for (auto& run : said)
          if (run.step == Step::dry) run.reason = toStd(why);
        enter({.steps = said});
      },
      [this, runs] {
        Runs rinsed; // its clock was stopped for this
        for (const auto& run : runs)
          if (run.step == Step::rinse) rinsed.push_back(run);
        if (!rinsed.empty()) enter({.steps = rinsed});
      });
}

void FieldSteps::dry(const std::vector<Tooth>& dull, const Runs& rinsed) {
  const bool hasFrost =
      visit_.file().lot(field().field.value.sealant)->kind != kit::MaterialKind::glassIonomer;
  std::vector<ToothSurfaces> frosted;
  std::vector<ToothSurfaces> notFrosted;
  for (const auto& named : after(rinsed).due(Next::dry))
    (std::ranges::find(dull, named.tooth) == dull.end() ? frosted : notFrosted).push_back(named);
  auto runs = rinsed;
  if (!frosted.empty()) {
    runs.push_back(blank(Step::dry, frosted));
    runs.back().result = hasFrost ? StepResult::frosty : StepResult::done;
  }
  if (!notFrosted.empty()) {
    runs.push_back(blank(Step::dry, notFrosted));
    runs.back().result = StepResult::notFrosty;
  }
  enterDry(std::move(runs));
}

void FieldSteps::frosty() {
  whenRinsed([this](const Runs& rinsed) { dry({}, rinsed); });
}

void FieldSteps::notFrosty() {
  whenRinsed([this](const Runs& rinsed) {
    const auto teeth = names(after(rinsed).due(Next::dry));
    if (teeth.size() == 1) {
      dry(teeth, rinsed);
      return;
    }
    auto options = words(teeth);
    options.prepend(u"All of them"_s);
    visit_.ask.choose(
        u"Which is not dull and frosty? It is re-etched."_s, options,
        [this, teeth, rinsed](int chosen) {
          dry(chosen == 0 ? teeth : std::vector{teeth[static_cast<std::size_t>(chosen - 1)]},
              rinsed);
        },
        [this, rinsed] {
          if (!rinsed.empty()) enter({.steps = rinsed}); // the clock was stopped for it
        });
  });
}

void FieldSteps::frostyNotSeen() {
  whenRinsed([this](const Runs& rinsed) {
    visit_.ask.write(
        u"Why continue without a frosty check?"_s, {},
        [this, rinsed](const QString& why) {
          auto runs = rinsed;
          runs.push_back(blank(Step::dry, after(rinsed).due(Next::dry)));
          runs.back().result = StepResult::frostyNotSeen;
          runs.back().reason = toStd(why);
          enter({.steps = runs});
        },
        [this, rinsed] {
          if (!rinsed.empty()) enter({.steps = rinsed});
        });
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
  if (runs(Step::cure)) interrupt("contaminated during the cure");
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
  visit_.ask.choose(u"Contamination: which teeth? Check adjacent teeth too. Cause: "_s +
                        toQt(base::displayName(cause)),
                    options,
                    [this, teeth, cause, last = static_cast<int>(options.size()) - 1](int chosen) {
                      const auto place = static_cast<std::size_t>(chosen);
                      if (chosen == last) {
                        QStringList causes;
                        for (const auto name : base::displayNamesOf<WetCause>())
                          causes += capital(toQt(name));
                        visit_.ask.choose(u"What contaminated it?"_s, causes, [this](int which) {
                          askWet(static_cast<WetCause>(which));
                        });
                        return;
                      }
                      noteWet(place < teeth.size() ? std::vector{teeth[place]} : teeth, cause);
                    });
}

void FieldSteps::noteWet(const std::vector<Tooth>& teeth, WetCause cause) {
  std::map<chairside::WetStage, std::vector<Tooth>> byStage;
  for (const auto& tooth : teeth)
    byStage[field().protocol.stageOf(tooth)].push_back(tooth);
  session::ChairWork work;
  for (const auto& [stage, touched] : byStage)
    work.wets.push_back({field().field.id, touched, stage, cause, {}});
  enter(work);
}

void FieldSteps::typeSeconds() {
  if (visit_.timer.isRunning() || wasInterrupted()) return;
  const auto now = step();
  const auto before = flowed(); // the same answer says that the sealant is on
  const auto then = after(before);
  const bool isEtchant = now == Next::etch || now == Next::rinse;
  if (!isEtchant && now != Next::flow && now != Next::cure) return;
  auto run = isEtchant ? blank(now == Next::etch ? Step::etch : Step::rinse, next())
                       : blank(Step::cure,
                               nextExposure(then, visit_.map.selected(), together_, hasLamp()));
  run.target = isEtchant ? target() : cureTarget(then);
  run.source = chairside::TimeSource::typed;
  visit_.ask.write(u"Seconds timed by hand (minimum %1):"_s.arg(run.target->count()), {},
                   [this, run, before](const QString& text) {
                     const auto seconds = base::parseInt(toStd(text));
                     if (!seconds || *seconds < 1 || *seconds > 600) {
                       visit_.strip.say(u"Type whole seconds, 1 to 600. Nothing was saved."_s);
                       return;
                     }
                     auto typed = run;
                     typed.lasted = base::Seconds(*seconds);
                     if (*seconds >= run.target->count()) {
                       enterTyped(before, typed);
                       return;
                     }
                     visit_.ask.write(u"Under minimum. Why is it enough? Esc: do it again."_s, {},
                                      [this, typed, before](const QString& why) {
                                        auto taken = typed;
                                        taken.result = StepResult::shortAccepted;
                                        taken.reason = toStd(why);
                                        enterTyped(before, taken);
                                      });
                   });
}

void FieldSteps::enterTyped(const Runs& before, const chairside::StepRun& run) {
  auto runs = before;
  for (const auto& part : run.step == Step::etch ? byReason(run) : Runs{run})
    runs.push_back(part);
  if (enter({.steps = runs}) && run.step == Step::cure) cured_ = cureNow();
}

} // namespace gk::ui
