#include "ui/chair/recheck_panel.h"

#include "reports/display_names.h"
#include "ui/drafts/mouth_faces.h"
#include "ui/field/stop_child.h"
#include "ui/support/text.h"
#include "ui/visit/doubtful_record.h"

#include <QLabel>
#include <QVBoxLayout>
#include <QVariant>

#include <algorithm>

namespace gk::ui {

using followup::Held;

namespace {

template <class E>
QString nameOfValue(E value) {
  return toQt(base::displayName(value));
}

/// All names but the first, which means "none".
template <class E>
QStringList reasons() {
  QStringList names;
  for (std::size_t i = 1; i < base::enumCount<E>; ++i)
    names += capital(nameOfValue(static_cast<E>(i)));
  return names;
}

} // namespace

RecheckPanel::RecheckPanel(ChairVisit& visit, QWidget* parent)
    : ChairPanel(visit, parent), title_(new QLabel(this)), story_(new QLabel(this)),
      answers_(new QLabel(this)), keys_(new KeyBar(3, this)) {
  setObjectName(u"recheckPanel"_s);
  title_->setObjectName(u"recheckTitle"_s);
  story_->setObjectName(u"recheckStory"_s);
  answers_->setObjectName(u"recheckAnswers"_s);
  title_->setProperty("look", u"head"_s);
  answers_->setProperty("look", u"answer"_s);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  for (auto* label : {title_, story_, answers_}) {
    label->setWordWrap(true);
    label->setTextFormat(Qt::PlainText);
    column->addWidget(label);
  }
  column->addWidget(keys_);
  column->addStretch();
}

void RecheckPanel::begin() {
  draft_.reset();
  prompted_.clear();
  isReported_ = false;
  skipped_ = false;
}

bool RecheckPanel::hasWork() const {
  return !skipped_ && file().card.recheck.allows &&
         !toRecheck(file().earlier, file().day.id).empty();
}

std::vector<TileFace> RecheckPanel::faces() const {
  return facesOf({.notation = visit().notation(),
                  .placements = file().placements,
                  .earlier = file().earlier,
                  .checking = draft_ ? &*draft_ : nullptr});
}

void RecheckPanel::next() {
  const auto open = toRecheck(file().earlier, file().day.id);
  draft_.reset();
  if (open.empty()) return;
  openDraft(open.front());
  visit().map.select(open.front().placement.value.tooth);
}

void RecheckPanel::openDraft(const session::EarlierPlacement& earlier) {
  draft_.emplace(earlier);
  if (isReported_) draft_->setKind(followup::CheckKind::reportedLoss);
}

void RecheckPanel::startOver() {
  const auto same = draft_->earlier();
  openDraft(same);
  refresh();
}

/// For one that would not be looked at now but for the report: its looks are counted apart.
void RecheckPanel::turnReported() {
  isReported_ = !isReported_;
  draft_->setKind(isReported_ ? std::optional(followup::CheckKind::reportedLoss) : std::nullopt);
  refresh();
}

void RecheckPanel::refresh() {
  const auto open = toRecheck(file().earlier, file().day.id);
  const bool stillOpen = draft_ && std::ranges::any_of(open, [&](const auto& one) {
                           return one.placement.stamp.entry ==
                                  draft_->earlier().placement.stamp.entry; // not corrected since
                         });
  if (!stillOpen) next();
  // The cursor on the map chooses another tooth to check.
  for (const auto& one : open)
    if (draft_ && one.placement.value.tooth == visit().map.selected() &&
        one.placement.value.tooth != draft_->earlier().placement.value.tooth)
      openDraft(one);
  if (!draft_) return;
  const auto& earlier = draft_->earlier();
  const auto& placement = earlier.placement.value;
  title_->setText(capital(toQt(placement.tooth.shown(visit().notation()))));
  const auto* lot = file().lot(placement.sealant);
  // The program's name for a material says its tint; whoever placed it is not said.
  auto story = u"Sealed %1 at %2, %3, with %4. Feel for it: clear sealant is hard to see. %5 "
               "to check."_s.arg(toQt(earlier.placedOn.words()), toQt(earlier.school),
                                 toQt(dentition::words(placement.surfaces)),
                                 lot ? toQt(lot->material) : u"a lot not known"_s,
                                 QString::number(open.size()));
  if (visit().by().author == placement.placedBy)
    story += u" You placed it yourself: the check counts and is recorded as non-blinded."_s;
  story_->setText(story);
  QStringList lines;
  for (const auto surface : placement.surfaces.values()) {
    if (!earlier.left.has(surface)) {
      lines += u"   "_s + capital(nameOfValue(surface)) + u": sealed again since, not asked here"_s;
      continue;
    }
    const auto held = draft_->held(surface);
    lines += (draft_->surface() == surface ? u"> "_s : u"   "_s) + capital(nameOfValue(surface)) +
             u": "_s + (held == Held::notSealed ? u"?"_s : nameOfValue(held).toUpper());
  }
  if (const auto kind = draft_->kind()) {
    const auto prompt = toQt(draft_->prompt());
    lines += u"Check: "_s + nameOfValue(*kind) + (prompt.isEmpty() ? prompt : u": "_s + prompt);
  }
  if (draft_->isComplete()) {
    const auto check = draft_->build(file().child.id, file().day.id, visit().date());
    lines +=
        u"Health: "_s + nameOfValue(check.health) + u", lift test: "_s + nameOfValue(check.lift);
    lines += u"Action: "_s + nameOfValue(check.action).toUpper();
  }
  answers_->setText(lines.join(u'\n'));
  const bool complete = draft_->isComplete();
  const auto held = [this, complete](int key, const QString& label, const QString& name,
                                     Held found) {
    return KeyAction{key, label, name, [this, found] { answer(found); }, KeyLook::plain, !complete};
  };
  keys_->setActions(
      {{Qt::Key_8, u"Fully retained, whole tooth"_s, u"wholeToothButton"_s,
        [this] { wholeTooth(); }, KeyLook::main, !complete},
       held(Qt::Key_5, u"Fully retained"_s, u"wholeButton"_s, Held::whole),
       held(Qt::Key_6, u"Partially retained"_s, u"partButton"_s, Held::part),
       held(Qt::Key_4, u"Missing"_s, u"lostButton"_s, Held::lost),
       held(Qt::Key_0, u"Not assessable"_s, u"cannotAssessButton"_s, Held::cannotAssess),
       {Qt::Key_T, u"Tooth health"_s, u"healthButton"_s,
        [this] {
          QStringList options;
          for (const auto name : base::displayNamesOf<followup::ToothHealth>())
            options += capital(toQt(name));
          visit().ask.choose(
              u"Tooth health?"_s, options,
              [this](int chosen) {
                draft_->setHealth(static_cast<followup::ToothHealth>(chosen));
                refresh();
              },
              {}, AskKeys::marked);
        }},
       {Qt::Key_J, u"Action"_s, u"actionButton"_s,
        [this] {
          draft_->changeAction();
          refresh();
        },
        KeyLook::plain, complete},
       {Qt::Key_K, u"Kind of check"_s, u"checkKindButton"_s, [this] { askKind(); }, KeyLook::plain,
        !followup::isWithin({}, earlier.placedOn, visit().date())},
       {Qt::Key_L, isReported_ ? u"Not for a reported loss"_s : u"Here for a reported loss"_s,
        u"reportedLossButton"_s, [this] { turnReported(); }},
       {Qt::Key_Q, u"Start over"_s, u"recheckAgainButton"_s, [this] { startOver(); }},
       {Qt::Key_Return, u"Record"_s, u"recordCheckButton"_s, [this] { record(); }, KeyLook::main,
        complete},
       {Qt::Key_Y, u"Skip recheck"_s, u"skipRecheckButton"_s, [this] {
          skipped_ = true;
          Q_EMIT finished();
        }}});
}

void RecheckPanel::answer(Held held) {
  draft_->answer(held);
  follow();
}

void RecheckPanel::wholeTooth() {
  const bool untouched = draft_->held(draft_->earlier().left.values().front()) == Held::notSealed;
  draft_->restIsWhole();
  if (untouched)
    record();
  else
    follow();
}

void RecheckPanel::follow() {
  refresh();
  if (!draft_->isComplete()) return;
  if (draft_->wantsWhy())
    askWhy();
  else if (draft_->wantsLift())
    askLift();
}

void RecheckPanel::askWhy() {
  visit().ask.choose(
      u"Why can it not be assessed?"_s, reasons<followup::CannotAssess>(),
      [this](int chosen) {
        const auto why = static_cast<followup::CannotAssess>(chosen + 1);
        const auto leave = [this, why] {
          draft_->setWhy(why);
          follow();
        };
        if (why == followup::CannotAssess::recordDoubtful)
          findToothOf(visit(), draft_->earlier().placement, leave);
        else
          leave();
      },
      {}, AskKeys::marked);
}

void RecheckPanel::askLift() {
  visit().ask.choose(
      u"Try to lift the remaining sealant."_s,
      {u"Holds: repair"_s, u"Lifts off: reseal"_s, u"Not tested"_s},
      [this](int chosen) {
        using followup::LiftTest;
        draft_->setLift(chosen == 0   ? LiftTest::held
                        : chosen == 1 ? LiftTest::lifted
                                      : LiftTest::notDone);
        refresh();
      },
      {}, AskKeys::marked);
}

void RecheckPanel::askKind() {
  visit().ask.choose(
      u"What kind of check is it?"_s,
      {u"Unplanned: the student is here anyway"_s, u"Short-term sample"_s,
       u"Short-term, triggered: something prompted it"_s},
      [this](int chosen) {
        if (chosen == 2) return askPrompt();
        isReported_ = false;
        draft_->setKind(chosen == 1 ? std::optional(followup::CheckKind::shortTermSample)
                                    : std::nullopt);
        refresh();
      },
      {}, AskKeys::marked);
}

void RecheckPanel::askPrompt() {
  visit().ask.write(u"What prompted it? Equipment, technique or material. No names."_s, prompted_,
                    [this](const QString& said) {
                      prompted_ = said;
                      isReported_ = false;
                      draft_->setKind(followup::CheckKind::shortTermTriggered, toStd(said));
                      refresh();
                    });
}

void RecheckPanel::record() {
  auto check = draft_->build(file().child.id, file().day.id, visit().date());
  check.blinded = visit().by().author != draft_->earlier().placement.value.placedBy;
  if (!visit().act([&] { return visit().book().enterCheck(visit().by(), check); })) return;
  if (!hasWork()) Q_EMIT finished();
}

bool RecheckPanel::undo() {
  if (!draft_ || !draft_->isBegun()) return false;
  startOver();
  return true;
}

void RecheckPanel::stopChild() {
  ui::stopChild(visit(), nullptr, [this] { Q_EMIT finished(); });
}

} // namespace gk::ui
