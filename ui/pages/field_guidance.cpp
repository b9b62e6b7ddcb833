#include "base/contract.h"
#include "ui/pages/field_panel.h"
#include "ui/support/text.h"

// What the panel says of the step that is due.
namespace gk::ui {

using chairside::Next;

QString FieldPanel::guidance() const {
  if (steps_->wasInterrupted()) {
    const auto& timer = *steps_->field().running;
    return u"A "_s + toQt(base::nameOf(timer.value.step)) + u" of the "_s +
           toQt(timer.value.teeth.front().tooth.words()) +
           u" was running when the program stopped: INTERRUPTED, "_s +
           (timer.value.step == chairside::Step::cure ? u"NOT CURED"_s : u"NOT ETCHED"_s) +
           u". Nothing of it counts."_s;
  }
  switch (steps_->step()) {
  case Next::etch:
    return visit().timer.isRunning()
               ? u"Etching. The clock runs until you say that the rinse begins."_s
               : u"Start when the last tooth has its etchant; the clock runs to the rinse."_s;
  case Next::rinse:
    return (steps_->isRinsing() ? u"Rinse at least %1 s; the clock ends by itself. Then "_s
                                : u"Rinse at least %1 s: start its clock. Then "_s)
               .arg(steps_->field().protocol.rinseTarget().count()) +
           u"fresh rolls, dry. DULL AND FROSTY?"_s + fluorosisWords();
  case Next::dry:
    return isEtched() ? u"Fresh rolls, dry. DULL AND FROSTY?"_s + fluorosisWords()
                      : u"Dry the teeth, keep them so."_s;
  case Next::flow:
    return steps_->hasLamp() ? u"Flow from one end, no bubbles; then the light."_s
                             : u"Mix, flow from one end, no bubbles; then it sets by itself."_s;
  case Next::cure:
    if (!steps_->hasLamp()) return u"It sets without a light. Keep it dry."_s;
    if (visit().timer.isRunning()) return u"Curing. It ends by itself."_s;
    return steps_->isTogether()
               ? u"BOTH SURFACES AT ONCE, for this child: one exposure for each tooth."_s
               : u"Tip as close as can be. Start for each exposure."_s;
  case Next::check: {
    const auto due = steps_->field().protocol.due(Next::check);
    return capital(toQt(meant(due, visit().map.selected()).tooth.words())) +
           u": covered, no voids, does the edge lift? Still isolated?"_s;
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
               u": white already; judge the etched pits alone."_s;
  return {};
}

} // namespace gk::ui
