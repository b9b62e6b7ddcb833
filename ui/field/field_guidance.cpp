#include "base/contract.h"
#include "reports/display_names.h"
#include "ui/field/field_panel.h"
#include "ui/keys/step_track.h"
#include "ui/support/text.h"

#include <QLabel>

#include <algorithm>
#include <array>

// What the panel says of the step that is due.
namespace gk::ui {

using chairside::Next;

QString FieldPanel::guidance() const {
  if (steps_->wasInterrupted()) {
    const auto& timer = *steps_->field().running;
    return u"The "_s + toQt(base::displayName(timer.value.step)) + u" of the "_s +
           toQt(timer.value.teeth.front().tooth.words()) +
           u" was running when the program stopped: INTERRUPTED, "_s +
           (timer.value.step == chairside::Step::cure ? u"NOT CURED"_s : u"NOT ETCHED"_s) +
           u". This step does not count."_s;
  }
  switch (steps_->step()) {
  case Next::etch:
    return visit().timer.isRunning() ? u"Etching. Press Space when you start rinsing."_s
                                     : u"Start timer when etchant is on all teeth."_s;
  case Next::rinse:
    return (steps_->isRinsing() ? u"Rinse at least %1 s; the timer stops by itself. Then "_s
                                : u"Rinse at least %1 s: start the timer. Then "_s)
               .arg(steps_->field().protocol.rinseTarget().count()) +
           u"fresh cotton rolls, dry. DULL AND FROSTY?"_s + fluorosisWords();
  case Next::dry:
    return isEtched() ? u"Fresh cotton rolls, dry. DULL AND FROSTY?"_s + fluorosisWords()
                      : u"Dry the teeth and keep them dry."_s;
  case Next::flow:
    return steps_->hasLamp() ? u"Apply sealant from one end, no bubbles. Then cure."_s
                             : u"Mix, apply from one end, no bubbles. It sets by itself."_s;
  case Next::cure:
    if (!steps_->hasLamp()) return u"It sets without a light. Keep it dry."_s;
    if (visit().timer.isRunning()) return u"Curing. The timer stops by itself."_s;
    return steps_->isTogether()
               ? u"BOTH SURFACES AT ONCE, this child only: one cure per tooth."_s
               : u"Hold the tip as close as possible. Start the timer for each cure."_s;
  case Next::check: {
    const auto due = steps_->field().protocol.due(Next::check);
    return capital(toQt(meant(due, visit().map.selected()).tooth.words())) +
           u": covered, no voids, edge holds? Still isolated?"_s;
  }
  case Next::placed:
  case Next::notAchieved:
  case Next::stopped:
    return {};
  }
  base::fail("no such step");
}

/// A glass ionomer goes on teeth that are dried and not etched.
bool FieldPanel::isEtched() const {
  return steps_->field().protocol.teeth().front().etches > 0;
}

/// Fluorosis is white before any etching, so the look of the whole crown says nothing.
QString FieldPanel::fluorosisWords() const {
  using chairside::Enamel;
  if (!file().screening) return {};
  for (const auto& named : steps_->field().field.value.teeth)
    for (const auto& finding : file().screening->value.teeth)
      if (finding.tooth == named.tooth &&
          (finding.enamel == Enamel::fluorosisMild || finding.enamel == Enamel::fluorosisPitted))
        return u" Fluorosis, "_s + toQt(named.tooth.words()) +
               u": already white; judge the etched pits only."_s;
  return {};
}

std::optional<bool> FieldPanel::isOnRight() const {
  std::vector<dentition::ToothSurfaces> teeth;
  if (const auto* field = file().fieldInHand())
    teeth = field->field.value.teeth;
  else if (const auto next = group())
    teeth = next->teeth;
  if (teeth.empty()) return std::nullopt;
  const bool right = teeth.front().tooth.isRight();
  const bool isOneSide =
      std::ranges::all_of(teeth, [right](const auto& one) { return one.tooth.isRight() == right; });
  return isOneSide ? std::optional(right) : std::nullopt;
}

void FieldPanel::showTrack() {
  using State = StepTrack::State;
  std::vector<StepTrack::Step> steps;
  for (const auto& words :
       {u"Isolate"_s, u"Etch"_s, u"Rinse"_s, u"Frosty"_s, u"Place"_s, u"Cure"_s, u"Check"_s})
    steps.push_back({words, State::later});
  std::size_t now = 0;
  bool isAgain = false;
  if (file().fieldInHand()) {
    constexpr std::array order{Next::etch, Next::rinse, Next::dry,
                               Next::flow, Next::cure,  Next::check};
    for (std::size_t i = 0; i < order.size(); ++i)
      if (steps_->step() == order[i]) now = i + 1;
    isAgain = std::ranges::any_of(steps_->field().protocol.teeth(),
                                  [](const auto& tooth) { return tooth.wet; });
    if (!isEtched() && now > 2) // a glass ionomer
      for (std::size_t place = 1; place <= 3; ++place)
        steps[place].state = State::none;
  }
  for (std::size_t i = 0; i < now; ++i)
    if (steps[i].state == State::later) steps[i].state = State::done;
  steps[now].state = isAgain ? State::again : State::now;
  track_->setSteps(std::move(steps));
}

/// Nothing is timed now: what is to be done stands in the timer's place, which stays where it is.
void FieldPanel::sayInTimer(const QString& words) {
  guide_->setText(words);
  guide_->hide();
  if (visit().timer.isRunning()) return;
  visit().timer.remind({});
  visit().timer.ready(words, base::Seconds{0});
}

} // namespace gk::ui
