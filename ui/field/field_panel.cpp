#include "ui/field/field_panel.h"

#include "base/text/text.h"
#include "reports/display_names.h"
#include "ui/drafts/mouth_faces.h"
#include "ui/field/stop_child.h"
#include "ui/keys/step_track.h"
#include "ui/look/style.h"
#include "ui/look/touch.h"
#include "ui/support/text.h"
#include "ui/visit/agreement_lapse.h"
#include "ui/visit/dentist_call.h"
#include "ui/visit/kit_choices.h"

#include <QLabel>
#include <QVBoxLayout>
#include <QVariant>

#include <algorithm>

namespace gk::ui {

using chairside::DryGuard;
using chairside::Next;
using chairside::StepResult;

namespace {

const QString eyeReminder = u"Before the first cure: eye protection on child and team? Blue filter "
                            "up? Never look at the light."_s;

/// No lot tells it: gloves, dam and cups are no lots.
bool hasLatexStop(const session::IdentityCard& card) {
  return std::ranges::any_of(card.flags, [](const auto& flag) {
    return flag.value.kind == roster::FlagKind::latexAllergy &&
           flag.value.action == roster::FlagAction::stop;
  });
}

} // namespace

FieldPanel::FieldPanel(ChairVisit& visit, QWidget* parent)
    : ChairPanel(visit, parent), head_(new QWidget), title_(new QLabel(head_)),
      track_(new StepTrack(StepTrack::Shape::circles, head_)), teeth_(new QLabel(this)),
      guide_(new QLabel(this)), kit_(new QLabel(this)), inUse_(new KitLine(this)),
      keys_(new KeyBar(4, this)), kitKeys_(new KeyBar(4, this)),
      steps_(new FieldSteps(visit, this)) {
  setObjectName(u"fieldPanel"_s);
  title_->setObjectName(u"fieldTitle"_s);
  track_->setObjectName(u"fieldTrack"_s);
  teeth_->setObjectName(u"fieldTeeth"_s);
  guide_->setObjectName(u"fieldGuide"_s);
  kit_->setObjectName(u"fieldKit"_s);
  title_->setProperty("look", u"head"_s);
  guide_->setProperty("look", u"say"_s);
  teeth_->setProperty("look", u"state"_s);
  kit_->setProperty("look", u"small"_s);
  for (auto* label : {title_, guide_, teeth_, kit_}) {
    label->setWordWrap(true);
    label->setTextFormat(Qt::PlainText);
  }
  visit.timer.setAbove(teeth_); // read before any key
  auto* top = new QVBoxLayout(head_);
  top->setContentsMargins(0, 0, 0, 0);
  top->setSpacing(6);
  top->addWidget(title_);
  top->addWidget(track_);
  // The largest letters leave it no room; the title names the step.
  style::whenDressed(track_, [this] { track_->setVisible(lookNow().percent <= 150); });
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  constexpr int lines = 2; // words need no finger's room
  column->setSpacing(lines);
  for (QWidget* part : std::initializer_list<QWidget*>{keys_, kitKeys_, guide_, kit_})
    column->addWidget(part);
  column->insertSpacing(1, style::touchGap() - lines);
  column->addStretch();
}

void FieldPanel::begin() {
  order_ = visit().context().acting.habits().order;
  guards_ = chairside::DryGuardSet::all();
  guardNote_.clear();
  varnishGone_ = false;
  cleaned_.reset();
  cleaningNote_.clear();
  steps_->begin();
}

std::optional<WorkGroup> FieldPanel::group() const {
  if (!file().screening) return std::nullopt;
  auto passedOver = visit().begun();
  for (const auto& held : heldTeeth(visit()))
    passedOver.push_back(held.tooth);
  return nextGroup(file().screening->value, passedOver, order_);
}

bool FieldPanel::hasWork() const {
  return file().fieldInHand() != nullptr || group().has_value() || !heldTeeth(visit()).empty();
}

std::vector<TileFace> FieldPanel::faces() const {
  MouthView view{
      .notation = visit().notation(), .fields = file().fields, .placements = file().placements};
  if (file().screening) view.findings = file().screening->value.teeth;
  std::vector<dentition::ToothSurfaces> due;
  if (file().fieldInHand()) due = steps_->next();
  view.due = due;
  auto faces = facesOf(view);
  if (const auto next = file().fieldInHand() ? std::nullopt : group())
    for (auto& face : faces)
      face.isNext = std::ranges::find(next->teeth, face.tooth, &dentition::ToothSurfaces::tooth) !=
                    next->teeth.end();
  for (const auto& held : heldTeeth(visit()))
    for (auto& face : faces)
      if (face.tooth == held.tooth) {
        face.mark = Mark::sound; // no invitation to seal
        face.word = u"WAITING"_s;
        face.strip = u"dentist first"_s;
        face.spoken += u" Waiting for the dentist."_s;
      }
  return faces;
}

void FieldPanel::refresh() {
  teeth_->setVisible(file().fieldInHand() == nullptr);
  kit_->setVisible(!teeth_->isHidden() && group()); // nothing is used while teeth are held
  showTrack();
  showKitKeys();
  if (file().fieldInHand())
    showSteps();
  else if (const auto next = group())
    showIsolation(*next);
  else
    showHeld();
}

/// Nothing else is left to place: these teeth wait for the dentist's word.
void FieldPanel::showHeld() {
  title_->setText(u"Not authorized"_s);
  teeth_->setText(heldLine());
  sayInTimer(u"Call the dentist. Without authorization, leave them for another day."_s);
  keys_->setActions(dentistKeys(visit()));
}

QString FieldPanel::heldLine() const {
  const auto held = heldTeeth(visit());
  if (held.empty()) return {};
  return u"NOT AUTHORIZED by a dentist: "_s + toQt(dentition::shown(held, visit().notation()));
}

void FieldPanel::showIsolation(const WorkGroup& next) {
  title_->setText(toQt(next.title) + u": keep dry"_s);
  QStringList lines;
  for (const auto& [tooth, surfaces] : next.teeth)
    lines += capital(toQt(tooth.shown(visit().notation()))) + u": "_s +
             toQt(dentition::letters(surfaces));
  constexpr int eachItsLine = 3;
  auto words = lines.join(lines.size() <= eachItsLine ? u"\n"_s : u"; "_s);
  if (const auto held = heldLine(); !held.isEmpty()) words += u'\n' + held;
  teeth_->setText(words);
  const auto cleaned = toQt(base::displayName(cleaning()));
  auto guide = u"Cleaned (%1)? Tongue retracted, cheek retracted, no glove contact, cotton "
               "on both sides?"_s.arg(cleaned);
  if (!guards_.hasAll(chairside::DryGuardSet::all()))
    guide =
        u"Cleaned (%1)? Missing: "_s.arg(cleaned) + toQt(guardNote_) + u". The rest in place?"_s;
  if (next.interim) guide += u" Choose a glass ionomer lot (L)."_s;
  if (hasLatexStop(file().card))
    guide = u"LATEX ALLERGY: latex-free gloves, dam and cups only. "_s + guide;
  sayInTimer(guide);
  kit_->setText(setupWords(visit()));
  std::vector<KeyAction> actions{
      {Qt::Key_Return, u"Yes, all"_s, u"isolateButton"_s, [this] { isolate(); }, KeyLook::main},
      {Qt::Key_D, u"One missing"_s, u"guardButton"_s, [this] { missingGuard(); }},
      {Qt::Key_B, u"Cleaned with"_s, u"cleanedButton"_s, [this] { chooseCleaning(); }},
      {Qt::Key_M, u"Method"_s, u"methodButton"_s, [this] { chooseIsolation(visit()); }},
      {Qt::Key_C, u"Cheek, tongue"_s, u"holdersButton"_s, [this] { chooseHolders(visit()); }},
      {Qt::Key_R, u"2 or 4 hands"_s, u"handsButton"_s, [this] { changeHands(visit()); }},
      {Qt::Key_G, u"Other teeth"_s, u"orderButton"_s, [this] { changeOrder(); }}};
  const auto dentist = dentistKeys(visit());
  actions.insert(actions.end(), dentist.begin(), dentist.end());
  keys_->setActions(std::move(actions));
}

void FieldPanel::showSteps() {
  const auto now = steps_->step();
  title_->setText(stepTitle());
  inUse_->setText(otherKitWords(visit()), otherKitWords(visit(), KitWords::ofThisChild));
  guide_->setText(guidance());
  keys_->setActions(stepKeys());
  // Below several rows of keys the words are scrolled to: none of their letters begins in sight.
  const bool isHigh = keys_->heightForWidth(width()) > 2 * style::touch();
  guide_->setContentsMargins(0, isHigh ? style::touchGap() : 0, 0, 0);
  const bool cureIsNext = now == Next::flow || now == Next::cure;
  visit().timer.remind(cureIsNext && steps_->hasLamp() && !steps_->hasCured() ? eyeReminder
                                                                              : steps_->caution());
  if (visit().timer.isRunning()) return guide_->show();
  const bool isTimed = now == Next::etch || now == Next::rinse || cureIsNext;
  if (!isTimed || steps_->wasInterrupted()) return sayInTimer(guidance());
  guide_->show();
  visit().timer.ready(u"Ready: "_s + toQt(base::displayName(now)) + u", "_s +
                          timedTeeth(steps_->next(), now == Next::cure, visit().notation()),
                      steps_->target());
}

void FieldPanel::showKitKeys() {
  const bool free = !visit().timer.isRunning();
  kitKeys_->setActions({{Qt::Key_L, u"Lot"_s, u"lotButton"_s, [this] { chooseLot(visit()); },
                         KeyLook::plain, free, lotWords(visit())},
                        {Qt::Key_K, u"Light"_s, u"lightButton"_s, [this] { chooseLight(visit()); },
                         KeyLook::plain, free, lightWords(visit())},
                        {Qt::Key_O, u"Team"_s, u"teamButton"_s, [this] { chooseTeam(visit()); },
                         KeyLook::plain, free},
                        {Qt::Key_E, u"Findings"_s, u"findingsButton"_s,
                         [this] { Q_EMIT findingsWanted(); }, KeyLook::plain, free}});
}

std::vector<KeyAction> FieldPanel::stepKeys() {
  const auto result = [this](int key, const QString& label, const QString& name, StepResult what,
                             KeyLook look = KeyLook::plain) {
    return KeyAction{key, label, name, [this, what] { steps_->check(what); }, look};
  };
  std::vector<KeyAction> keys;
  const auto now = steps_->step();
  const bool runs = visit().timer.isRunning();
  if (steps_->wasInterrupted()) {
    keys = {{Qt::Key_Return, u"Log and continue"_s, u"noteInterruptedButton"_s,
             [this] { steps_->noteInterrupted(); }, KeyLook::main}};
  } else if (now == Next::etch) {
    keys = {{Qt::Key_Space, runs ? u"Rinse"_s : u"Start etch"_s, u"startTimerButton"_s,
             [this] { steps_->pedal(); }, KeyLook::main},
            {Qt::Key_T, u"Type seconds"_s, u"typeSecondsButton"_s,
             [this] { steps_->typeSeconds(); }, KeyLook::plain, !runs}};
  } else if (now == Next::dry && !isEtched()) {
    keys = {
        {Qt::Key_5, u"Yes, dry"_s, u"dryButton"_s, [this] { steps_->frosty(); }, KeyLook::main}};
  } else if (now == Next::rinse && !runs) {
    keys = {
        {Qt::Key_Space, u"Rinse"_s, u"startTimerButton"_s, [this] { steps_->pedal(); },
         KeyLook::main},
        {Qt::Key_T, u"Type seconds"_s, u"typeSecondsButton"_s, [this] { steps_->typeSeconds(); }}};
  } else if (now == Next::rinse || now == Next::dry) {
    keys = {{Qt::Key_5, u"Yes, frosty"_s, u"frostyButton"_s, [this] { steps_->frosty(); },
             KeyLook::main},
            {Qt::Key_4, u"Not frosty"_s, u"notFrostyButton"_s, [this] { steps_->notFrosty(); }},
            {Qt::Key_6, u"Not checked"_s, u"frostyNotSeenButton"_s,
             [this] { steps_->frostyNotSeen(); }}};
  } else if (now == Next::flow || now == Next::cure) {
    // A stop key is seen at any size of letters: nothing else stands above it meanwhile.
    if (runs)
      return {{Qt::Key_Escape, steps_->hasLamp() ? u"Light stopped"_s : u"Stop the timer"_s,
               u"lightStoppedButton"_s, [this] { steps_->lightStopped(); }, KeyLook::alarm}};
    const auto lamp = steps_->hasLamp();
    const auto start = now == Next::flow
                           ? (lamp ? u"Sealant placed: cure"_s : u"Sealant placed: let set"_s)
                           : (lamp ? u"Cure"_s : u"Let it set"_s);
    keys = {
        {Qt::Key_Space, start, u"startTimerButton"_s, [this] { steps_->pedal(); }, KeyLook::main},
        {Qt::Key_B, steps_->isTogether() ? u"One by one"_s : u"Both at once"_s, u"togetherButton"_s,
         [this] { steps_->toggleTogether(); }},
        {Qt::Key_T, u"Type seconds"_s, u"typeSecondsButton"_s, [this] { steps_->typeSeconds(); }}};
    if (now == Next::flow)
      keys.push_back(
          {Qt::Key_5, u"Placed, cure later"_s, u"flowButton"_s, [this] { steps_->flow(); }});
  } else if (now == Next::check) {
    keys = {result(Qt::Key_5, u"Pass"_s, u"passButton"_s, StepResult::passed, KeyLook::main),
            result(Qt::Key_8, u"Added, pass"_s, u"addedButton"_s, StepResult::addedThenPassed),
            result(Qt::Key_2, u"Redone, pass"_s, u"redoneButton"_s, StepResult::redoneThenPassed),
            result(Qt::Key_4, u"Not achieved"_s, u"notAchievedButton"_s, StepResult::notAchieved)};
  }
  return keys;
}

void FieldPanel::isolate() {
  const auto next = group();
  const auto& setup = visit().setup();
  const auto hold = visit().hold();
  if (!next) return;
  if (!setup.sealant) {
    visit().strip.say(u"Choose a sealant lot first: L."_s);
    return;
  }
  const auto* lot = file().lot(setup.sealant);
  const bool isClay = lot && lot->kind == kit::MaterialKind::glassIonomer;
  if (isClay != next->interim) {
    visit().strip.say(next->interim ? u"These teeth take a glass ionomer: choose its lot, L."_s
                                    : u"These teeth take a sealant, not a glass ionomer: L."_s);
    return;
  }
  if (file().varnished && !varnishGone_) {
    visit().ask.choose(u"Varnish is already on; nothing bonds through it."_s,
                       {u"Leave these teeth for now"_s, u"Cleaned off: continue"_s},
                       [this](int chosen) {
                         if (chosen == 0) return;
                         varnishGone_ = true;
                         isolate();
                       });
    return;
  }
  if (!agreementHolds(visit(), [this] { isolate(); })) return;
  std::vector<std::string> notes;
  for (const auto& note :
       {guardNote_, cleaned_ ? cleaningNote_ : std::string(),
        varnishGone_ ? std::string("varnish was on and was cleaned off first") : std::string()})
    if (!note.empty()) notes.push_back(note);
  chairside::Field field{.child = file().child.id,
                         .day = file().day.id,
                         .teeth = next->teeth,
                         .isolation = hold.isolation,
                         .guards = guards_,
                         .cheek = hold.cheek,
                         .tongue = hold.tongue,
                         .fourHanded = hold.fourHanded,
                         .assistant = setup.assistant,
                         .sealant = *setup.sealant,
                         .etchant = isClay ? std::nullopt : setup.etchant,
                         .note = base::join(notes, "; "),
                         .cleaned = cleaning()};
  const auto made = visit().act([&] { return visit().book().isolate(visit().by(), field); });
  if (!made) return;
  guards_ = chairside::DryGuardSet::all();
  guardNote_.clear();
  cleaned_.reset();
  cleaningNote_.clear();
  visit().map.select(field.teeth.front().tooth);
  Q_EMIT visit().changed();
}

void FieldPanel::missingGuard() {
  QStringList options;
  for (const auto name : base::displayNamesOf<DryGuard>())
    options += capital(toQt(name));
  visit().ask.choose(u"Which isolation item is missing?"_s, options, [this, options](int chosen) {
    visit().ask.write(options[chosen] + u": why not?"_s, {}, [this, chosen](const QString& why) {
      const auto guard = static_cast<DryGuard>(chosen);
      guards_.remove(guard);
      guardNote_ += (guardNote_.empty() ? "" : "; ") + std::string(base::displayName(guard)) +
                    ", " + toStd(why);
      refresh();
    });
  });
}

chairside::Cleaning FieldPanel::cleaning() const {
  return cleaned_.value_or(visit().setup().cleaned);
}

/// A method is carried on; what was left out, or done otherwise, is said of these teeth alone.
void FieldPanel::chooseCleaning() {
  using chairside::Cleaning;
  QStringList options;
  for (std::size_t i = 1; i < base::enumCount<Cleaning>; ++i)
    options += capital(toQt(base::displayName(static_cast<Cleaning>(i))));
  visit().ask.choose(u"Cleaned with what before the etch?"_s, options, [this](int chosen) {
    const auto method = static_cast<Cleaning>(chosen + 1);
    if (method != Cleaning::other && method != Cleaning::notCleaned) {
      cleaned_.reset();
      auto setup = visit().setup();
      setup.cleaned = method;
      visit().context().acting.change(setup);
      refresh();
      return;
    }
    visit().ask.write(
        method == Cleaning::other ? u"Cleaned with what?"_s : u"Not cleaned: why not?"_s, {},
        [this, method](const QString& said) {
          cleaned_ = method;
          cleaningNote_ =
              std::string(method == Cleaning::other ? "cleaned with " : "not cleaned: ") +
              toStd(said);
          refresh();
        });
  });
}

void FieldPanel::changeOrder() {
  const auto next = (static_cast<std::size_t>(order_) + 1) % base::enumCount<WorkOrder>;
  order_ = static_cast<WorkOrder>(next);
  refresh();
}

void FieldPanel::stopChild() {
  ui::stopChild(visit(), steps_, [this] { Q_EMIT finished(); });
}

bool FieldPanel::pedal() {
  if (!file().fieldInHand()) return false;
  steps_->pedal();
  return true;
}

void FieldPanel::wet() {
  if (file().fieldInHand())
    steps_->wet();
  else
    ChairPanel::wet();
}

} // namespace gk::ui
