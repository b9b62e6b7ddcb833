#include "ui/chair/finish_panel.h"

#include "chairside/allergy.h"
#include "reports/display_names.h"
#include "ui/drafts/mouth_faces.h"
#include "ui/look/style.h"
#include "ui/support/text.h"
#include "ui/visit/doubtful_record.h"
#include "ui/visit/kit_choices.h"

#include <QLabel>
#include <QVBoxLayout>
#include <QVariant>

#include <algorithm>

namespace gk::ui {

using chairside::Bite;

namespace {

bool endsInLargeLetters() {
  return lookNow().percent > 120;
}

} // namespace

FinishPanel::FinishPanel(ChairVisit& visit, QWidget* parent)
    : ChairPanel(visit, parent), title_(new QLabel(this)), sealed_(new QLabel(this)),
      state_(new QLabel(this)), keys_(new KeyBar(4, this)) {
  setObjectName(u"finishPanel"_s);
  title_->setObjectName(u"finishTitle"_s);
  sealed_->setObjectName(u"finishSealed"_s);
  state_->setObjectName(u"finishState"_s);
  title_->setProperty("look", u"head"_s);
  sealed_->setProperty("look", u"small"_s);
  state_->setProperty("look", u"state"_s);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(4);
  for (auto* label : {title_, sealed_, state_}) {
    label->setWordWrap(true);
    label->setTextFormat(Qt::PlainText);
    column->addWidget(label);
  }
  column->addWidget(keys_);
  column->addStretch();
  // Of large letters there is room for what is not said yet and what ends the visit; the map has
  // the sealed teeth as well.
  style::whenDressed(sealed_, [this, column] {
    column->removeWidget(sealed_);
    column->insertWidget(endsInLargeLetters() ? column->indexOf(keys_) + 1 : 1, sealed_);
  });
}

/// What ends the visit is in sight, however long the words above it.
QWidget* FinishPanel::mustSee() const {
  return keys_->findChild<QWidget*>(u"finishButton"_s);
}

void FinishPanel::begin() {
  end_.reset();
  referralLeft_ = false;
}

std::vector<TileFace> FinishPanel::faces() const {
  MouthView view{.notation = visit().notation(),
                 .fields = file().fields,
                 .placements = file().placements,
                 .earlier = file().earlier};
  if (file().screening) view.findings = file().screening->value.teeth;
  return facesOf(view);
}

chairside::DayOutcome FinishPanel::outcome() const {
  std::vector<chairside::Placement> placements;
  for (const auto& placement : file().placements)
    placements.push_back(placement.value);
  std::optional<chairside::Screening> screening;
  if (file().screening) screening = file().screening->value;
  const bool rechecked = std::ranges::any_of(file().earlier, [&](const auto& one) {
    return one.newest && one.newest->value.day == file().day.id;
  });
  auto proposed = proposedOutcome(file().child.id, file().day.id, screening, placements, rechecked);
  if (end_) proposed.end = *end_;
  return proposed;
}

void FinishPanel::refresh() {
  std::vector<chairside::Placement> placements;
  for (const auto& placement : file().placements)
    placements.push_back(placement.value);
  const auto lines = readBack(placements, visit().notation());
  QStringList shown;
  for (const auto& line : lines)
    shown += capital(toQt(line));
  title_->setText(lines.empty() ? u"No teeth sealed today"_s : u"Review and finish"_s);
  sealed_->setText(shown.join(u'\n'));
  sealed_->setVisible(!shown.isEmpty());
  const bool varnished = file().varnished;
  const auto* lot = file().lot(visit().setup().varnish);
  const auto fits = lot ? chairside::checkAllergy(*lot, file().card.flags) : base::Done{};
  const auto proposed = outcome();
  state_->setText(
      (isSealed() ? afterCureWords() + u'\n' : QString()) +
      u"Varnish: %1\nOutcome: %2%3"_s.arg(
          varnished                     ? u"YES, recorded"_s
          : !file().card.varnish.allows ? u"NO, "_s + toQt(file().card.varnish.why)
          : !fits                       ? toQt(fits.error().detail) + u". Another lot: L"_s
                  : u"not yet, "_s + (lot ? toQt(kit::shown(*lot)) : u"choose a lot (L)"_s),
          toQt(base::displayName(proposed.end)).toUpper(),
          proposed.reason.empty() ? QString() : u" ("_s + toQt(proposed.reason) + u')') +
      referralWords());
  std::vector<KeyAction> actions(
      {{Qt::Key_5, u"Wiped, bite fine"_s, u"wipedButton"_s,
        [this] { afterCure(true, Bite::fine, {}); }, KeyLook::plain, isSealed()},
       {Qt::Key_6, u"Wiped, bite adjusted"_s, u"adjustedButton"_s,
        [this] { afterCure(true, Bite::adjusted, {}); }, KeyLook::plain, isSealed()},
       {Qt::Key_4, u"Skipped (reason)"_s, u"notWipedButton"_s, [this] { leaveOut(); },
        KeyLook::plain, isSealed()},
       {Qt::Key_V, u"Varnish applied"_s, u"varnishButton"_s,
        [this] { varnish(session::Confirmed::no); }, KeyLook::plain,
        !varnished && file().card.varnish.allows && fits.has_value()},
       {Qt::Key_D, u"Refer to dentist"_s, u"referButton"_s, [this] { refer({}); }, KeyLook::plain,
        proposedReferral().has_value() && !file().referral},
       {Qt::Key_L, u"Lot"_s, u"finishLotButton"_s, [this] { chooseLot(visit()); }},
       {Qt::Key_O, u"Team"_s, u"finishTeamButton"_s, [this] { chooseTeam(visit()); }},
       {Qt::Key_J, u"Other outcome"_s, u"outcomeButton"_s, [this] { changeEnd(); }},
       {Qt::Key_E, u"Findings"_s, u"finishFindingsButton"_s, [this] { Q_EMIT findingsWanted(); }},
       {Qt::Key_M, u"Wrong tooth"_s, u"moveToothButton"_s, [this] { moveSealant(visit()); },
        KeyLook::plain, !lines.empty()},
       {Qt::Key_R, u"Try again"_s, u"tryAgainButton"_s,
        [this] {
          visit().tryAgain(true);
          Q_EMIT visit().changed();
        },
        KeyLook::plain, !visit().stopped().empty()},
       {Qt::Key_Return, u"Finish"_s, u"finishButton"_s, [this] { end(); }, KeyLook::main}});
  if (endsInLargeLetters()) std::rotate(actions.begin() + 1, actions.end() - 1, actions.end());
  keys_->setActions(std::move(actions));
}

std::optional<followup::Referral> FinishPanel::proposedReferral() const {
  if (!file().screening) return std::nullopt;
  return followup::proposedReferral(file().screening->value, visit().date());
}

QString FinishPanel::referralWords() const {
  if (const auto& made = file().referral)
    return u"\nReferral: %1, by %2"_s.arg(toQt(base::displayName(made->value.to)),
                                          toQt(made->value.due.shortWords()));
  const auto proposed = proposedReferral();
  if (!proposed) return {};
  return u"\nReferral: not decided (%1)"_s.arg(toQt(proposed->reason));
}

/// Decided here it is in the letter and at the close-out; left to those, they ask for it.
void FinishPanel::refer(const std::function<void()>& then) {
  const auto proposed = proposedReferral();
  if (!proposed) return;
  QStringList options;
  for (const auto name : base::displayNamesOf<followup::ReferredTo>())
    options += capital(toQt(name));
  options += u"Decide at close-out"_s;
  visit().ask.choose(
      u"Refer for %1? See a dentist by %2. Where?"_s.arg(toQt(proposed->reason),
                                                         toQt(proposed->due.shortWords())),
      options, [this, proposed = *proposed, then, last = options.size() - 1](int chosen) {
        referralLeft_ = chosen == last;
        auto referral = proposed;
        referral.to = static_cast<followup::ReferredTo>(chosen);
        const auto make = [&] { return visit().book().enterReferral(visit().by(), referral); };
        if (!referralLeft_ && !visit().act(make)) return;
        if (then) then();
      });
}

bool FinishPanel::isSealed() const {
  return std::ranges::any_of(file().placements, [](const auto& placement) {
    return placement.value.attempt == chairside::Attempt::complete;
  });
}

QString FinishPanel::afterCureWords() const {
  if (!file().afterCure) return u"Surface wiped, bite checked: not yet"_s;
  const auto& after = file().afterCure->value;
  return u"Surface wiped: %1. Bite: %2"_s.arg(after.wiped ? u"YES"_s : u"NO"_s,
                                              toQt(base::displayName(after.bite))) +
         (after.note.empty() ? QString() : u" ("_s + toQt(after.note) + u')');
}

void FinishPanel::afterCure(bool wiped, Bite bite, const std::string& note) {
  const chairside::AfterCure after{file().child.id, file().day.id, wiped, bite, note};
  (void)visit().act([&] { return visit().book().enterAfterCure(visit().by(), after); });
}

void FinishPanel::leaveOut() {
  visit().ask.choose(
      u"What was not done?"_s,
      {u"Surface not wiped, bite fine"_s, u"Wiped, bite not checked"_s, u"Neither was done"_s},
      [this](int chosen) {
        visit().ask.write(u"Why?"_s, {}, [this, chosen](const QString& why) {
          afterCure(chosen == 1, chosen == 0 ? Bite::fine : Bite::notChecked, toStd(why));
        });
      });
}

void FinishPanel::varnish(session::Confirmed sooner) {
  const auto lot = visit().setup().varnish;
  if (!lot) {
    visit().strip.say(u"Choose a varnish lot first: L."_s);
    return;
  }
  const chairside::Varnish varnish{file().child.id, file().day.id, *lot};
  const auto done =
      visit().act([&] { return visit().book().varnish(visit().by(), varnish, sooner); });
  const bool mayConfirm = !done && done.error().code == base::ErrorCode::ruleVarnish &&
                          sooner == session::Confirmed::no;
  if (mayConfirm)
    visit().ask.choose(u"Apply varnish anyway?"_s, {u"No"_s, u"Yes, record it"_s},
                       [this](int chosen) {
                         if (chosen == 1) this->varnish(session::Confirmed::yes);
                       });
}

void FinishPanel::changeEnd() {
  QStringList options;
  for (const auto name : base::displayNamesOf<chairside::DayEnd>())
    options += capital(toQt(name));
  visit().ask.choose(u"Visit outcome?"_s, options, [this](int chosen) {
    end_ = static_cast<chairside::DayEnd>(chosen);
    refresh();
  });
}

void FinishPanel::end() {
  using chairside::DayEnd;
  const auto proposed = outcome();
  const bool wantsAfterCure =
      proposed.end == DayEnd::sealedComplete || proposed.end == DayEnd::sealedUnfinished;
  if (wantsAfterCure && isSealed() && !file().afterCure) {
    visit().strip.say(u"Answer first: surface wiped and bite checked? 5, 6 or 4."_s);
    return;
  }
  if (proposedReferral() && !file().referral && !referralLeft_ &&
      proposed.end <= DayEnd::recheckOnly)
    return refer([this] { this->end(); });
  const bool wantsReason =
      proposed.end == DayEnd::sealedUnfinished || proposed.end == DayEnd::screenedNotTreated;
  const auto end = [this](const chairside::DayOutcome& outcome) {
    if (visit().act([&] { return visit().book().endVisit(visit().by(), outcome); }))
      Q_EMIT visitEnded();
  };
  const auto write = [this, end](const chairside::DayOutcome& outcome) {
    const bool isSeen = outcome.end <= DayEnd::recheckOnly;
    if (isSeen && file().card.varnish.allows && !file().varnished)
      askVarnish(outcome, end);
    else
      end(outcome);
  };
  if (!wantsReason || !proposed.reason.empty()) {
    write(proposed);
    return;
  }
  visit().ask.write(u"Why?"_s, {}, [write, proposed](const QString& why) {
    auto said = proposed;
    said.reason = toStd(why);
    write(said);
  });
}

/// A varnish that the form allows is never left out without a word.
void FinishPanel::askVarnish(const chairside::DayOutcome& outcome, const EndVisit& then) {
  if (!visit().stoppedFor().empty()) { // said once is enough
    auto said = outcome;
    said.varnishSkipped = visit().stoppedFor();
    return then(said);
  }
  static const QStringList reasons{
      u"child declines"_s,   u"had varnish recently"_s, u"allergy or medical stop"_s,
      u"no lot available"_s, u"out of time"_s,          u"another reason"_s};
  QStringList options;
  for (const auto& reason : reasons)
    options += capital(reason);
  visit().ask.choose(u"The form allows varnish and none was applied. Why?"_s, options,
                     [this, outcome, then](int chosen) {
                       auto said = outcome;
                       if (chosen + 1 < reasons.size()) {
                         said.varnishSkipped = toStd(reasons[chosen]);
                         return then(said);
                       }
                       visit().ask.write(u"Why is no varnish applied?"_s, {},
                                         [said, then](const QString& why) mutable {
                                           said.varnishSkipped = toStd(why);
                                           then(said);
                                         });
                     });
}

void FinishPanel::stopChild() {
  changeEnd();
}

} // namespace gk::ui
