#include "ui/pages/finish_panel.h"

#include "chairside/allergy.h"
#include "ui/models/mouth_faces.h"
#include "ui/pages/doubtful_record.h"
#include "ui/pages/kit_choices.h"
#include "ui/support/text.h"

#include <QLabel>
#include <QVBoxLayout>
#include <QVariant>

#include <algorithm>

namespace gk::ui {

FinishPanel::FinishPanel(ChairVisit& visit, QWidget* parent)
    : ChairPanel(visit, parent), title_(new QLabel(this)), sealed_(new QLabel(this)),
      state_(new QLabel(this)), keys_(new KeyBar(3, this)) {
  setObjectName(u"finishPanel"_s);
  title_->setObjectName(u"finishTitle"_s);
  sealed_->setObjectName(u"finishSealed"_s);
  state_->setObjectName(u"finishState"_s);
  title_->setProperty("look", u"head"_s);
  sealed_->setProperty("look", u"read"_s);
  state_->setProperty("look", u"answer"_s);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  for (auto* label : {title_, sealed_, state_}) {
    label->setWordWrap(true);
    label->setTextFormat(Qt::PlainText);
    column->addWidget(label);
  }
  column->addWidget(keys_);
  column->addStretch();
}

void FinishPanel::begin() {
  wiped_ = false;
  end_.reset();
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
  title_->setText(lines.empty() ? u"Nothing was sealed today"_s : u"Read back and look"_s);
  sealed_->setText(shown.join(u'\n'));
  sealed_->setVisible(!shown.isEmpty());
  const bool varnished = file().varnished;
  const auto* lot = file().lot(visit().setup().varnish);
  const auto fits = lot ? chairside::checkAllergy(*lot, file().card.flags) : base::Done{};
  const auto proposed = outcome();
  state_->setText(
      (lines.empty() ? QString() : u"Surface wiped: %1\n"_s.arg(wiped_ ? u"YES"_s : u"not yet"_s)) +
      u"Varnish: %1\nOutcome: %2%3"_s.arg(
          varnished                     ? u"YES, recorded"_s
          : !file().card.varnish.allows ? u"NO, "_s + toQt(file().card.varnish.why)
          : !fits                       ? toQt(fits.error().detail) + u". Another lot: L"_s
                  : u"not yet, "_s + (lot ? toQt(kit::shown(*lot)) : u"choose a lot (L)"_s),
          toQt(base::nameOf(proposed.end)).toUpper(),
          proposed.reason.empty() ? QString() : u" ("_s + toQt(proposed.reason) + u')'));
  keys_->setActions(
      {{Qt::Key_5, u"Surface wiped"_s, u"wipedButton"_s,
        [this] {
          wiped_ = true;
          refresh();
        },
        KeyLook::plain, !lines.empty() && !wiped_},
       {Qt::Key_V, u"Varnish is on"_s, u"varnishButton"_s,
        [this] { varnish(session::Confirmed::no); }, KeyLook::plain,
        !varnished && file().card.varnish.allows && fits.has_value()},
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
    visit().ask.choose(u"Varnish all the same?"_s, {u"No"_s, u"Yes, record it"_s},
                       [this](int chosen) {
                         if (chosen == 1) this->varnish(session::Confirmed::yes);
                       });
}

void FinishPanel::changeEnd() {
  QStringList options;
  for (const auto name : base::enumNames<chairside::DayEnd>)
    options += capital(toQt(name));
  visit().ask.choose(u"How did the day end for this child?"_s, options, [this](int chosen) {
    end_ = static_cast<chairside::DayEnd>(chosen);
    refresh();
  });
}

void FinishPanel::end() {
  using chairside::DayEnd;
  const auto proposed = outcome();
  const bool wantsReason =
      proposed.end == DayEnd::sealedUnfinished || proposed.end == DayEnd::screenedNotTreated;
  const auto write = [this](const chairside::DayOutcome& outcome) {
    if (visit().act([&] { return visit().book().endVisit(visit().by(), outcome); }))
      Q_EMIT visitEnded();
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

void FinishPanel::stopChild() {
  changeEnd();
}

} // namespace gk::ui
