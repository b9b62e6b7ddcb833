#include "base/contract.h"
#include "base/text/text.h"
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
using dentition::Tooth;

namespace {

/// "the upper right first molar and the lower right first molar".
QString theTeeth(const QStringList& names) {
  auto words = names;
  for (auto& name : words)
    name.prepend(u"the "_s);
  if (words.size() == 1) return words.front();
  const auto last = words.takeLast();
  return words.join(u", "_s) + u" and "_s + last;
}

QStringList toothNames(const std::vector<Tooth>& teeth) {
  QStringList names;
  for (const auto& tooth : teeth)
    names += toQt(tooth.words());
  return names;
}

/// Beside a tooth of the same kind its corner of the mouth is name enough: "lower right".
QStringList besides(const std::vector<Tooth>& rest, const std::vector<Tooth>& due) {
  const auto isAlike = [&](const Tooth& one) {
    return !one.isPrimary() && one.position() == due.front().position();
  };
  if (!std::ranges::all_of(rest, isAlike) || !std::ranges::all_of(due, isAlike))
    return toothNames(rest);
  QStringList names;
  for (const auto& tooth : rest)
    names +=
        (tooth.isUpper() ? u"upper "_s : u"lower "_s) + (tooth.isRight() ? u"right"_s : u"left"_s);
  return names;
}

/// What the step is for, and what is kept dry meanwhile.
struct Shares {
  std::vector<Tooth> due;
  std::vector<Tooth> rest;
  bool isAgain = false; ///< every one of them was etched before
};

Shares sharesOf(const chairside::Protocol& protocol, Next now) {
  Shares shares;
  for (const auto& tooth : protocol.teeth())
    if (tooth.next == now)
      shares.due.push_back(tooth.tooth);
    else if (tooth.next < Next::placed)
      shares.rest.push_back(tooth.tooth);
  shares.isAgain =
      now == Next::etch && std::ranges::all_of(shares.due, [&](const Tooth& tooth) {
        const auto* progress = protocol.find(tooth);
        return progress->etches > 0 && progress->etchReason != chairside::EtchReason::first;
      });
  return shares;
}

} // namespace

QString FieldPanel::stepTitle() const {
  const auto now = steps_->step();
  const auto [due, rest, isAgain] = sharesOf(steps_->field().protocol, now);
  auto step = isAgain ? u"Re-etch"_s : capital(toQt(base::displayName(now)));
  if (due.empty() || steps_->field().protocol.teeth().size() == 1) return step;
  if (now == Next::flow) step += u" on"_s;
  if (due.size() > 1) return step + u' ' + toQt(base::counted(due.size(), "tooth", "teeth"));
  // A second line would push the timer away: where the words are too long, the number says it.
  const auto whole = step + u' ' + toQt(due.front().words());
  title_->ensurePolished();
  return QFontMetrics(title_->font()).horizontalAdvance(whole) < head_->parentWidget()->width()
             ? whole
             : step + u" tooth "_s + toQt(due.front().number(visit().notation()));
}

QString FieldPanel::onlySome() const {
  const auto shares = sharesOf(steps_->field().protocol, steps_->step());
  if (shares.due.empty() || shares.rest.empty()) return {};
  return u" Keep "_s + theTeeth(besides(shares.rest, shares.due)) + u" dry."_s;
}

QString FieldPanel::guidance() const {
  if (steps_->wasInterrupted()) {
    const auto& timer = *steps_->field().running;
    return u"The "_s + toQt(base::displayName(timer.value.step)) + u" of the "_s +
           toQt(timer.value.teeth.front().tooth.words()) +
           u" was running when the program stopped: INTERRUPTED, "_s +
           (timer.value.step == chairside::Step::cure ? u"NOT CURED"_s : u"NOT ETCHED"_s) +
           u". This step does not count."_s;
  }
  const auto only = onlySome();
  const auto which = [&](Next step) {
    return theTeeth(toothNames(sharesOf(steps_->field().protocol, step).due));
  };
  switch (steps_->step()) {
  case Next::etch:
    if (visit().timer.isRunning()) return u"Etching. Press Space when you start rinsing."_s + only;
    return only.isEmpty() ? u"Start timer when etchant is on all teeth."_s
                          : u"Start timer when etchant is on "_s + which(Next::etch) + u'.' + only;
  case Next::rinse:
    return (steps_->isRinsing() ? u"Rinse at least %1 s; the timer stops by itself. Then "_s
                                : u"Rinse at least %1 s: start the timer. Then "_s)
               .arg(steps_->field().protocol.rinseTarget().count()) +
           u"fresh cotton rolls, dry. DULL AND FROSTY?"_s + only + fluorosisWords();
  case Next::dry:
    return isEtched() ? u"Fresh cotton rolls, dry. DULL AND FROSTY?"_s + only + fluorosisWords()
                      : u"Dry the teeth and keep them dry."_s;
  case Next::flow:
    if (!only.isEmpty())
      return (steps_->hasLamp() ? u"Apply sealant to %1, no bubbles. Then cure."_s
                                : u"Mix, apply to %1, no bubbles. It sets by itself."_s)
                 .arg(which(Next::flow)) +
             only;
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
