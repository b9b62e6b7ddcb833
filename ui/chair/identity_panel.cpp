#include "ui/chair/identity_panel.h"

#include "chairside/allergy.h"
#include "ui/asking/own_pin.h"
#include "ui/chair/identity_view.h"
#include "ui/field/stop_child.h"
#include "ui/support/text.h"
#include "ui/visit/medical_stop.h"

#include <QKeyEvent>
#include <QLabel>
#include <QScrollArea>
#include <QVBoxLayout>
#include <QVariant>

#include <algorithm>

namespace gk::ui {

using chairside::Identifier;

namespace {

constexpr int leastCard = 90; ///< of the card in sight, in pixels

/// Takes what the keys leave: it never asks for the whole of its card, which gives way or scrolls.
class CardScroll final : public QScrollArea {
 public:
  using QScrollArea::QScrollArea;
  [[nodiscard]] QSize sizeHint() const override { return {leastCard, leastCard}; }
};

} // namespace

IdentityPanel::IdentityPanel(ChairVisit& visit, QWidget* parent)
    : ChairPanel(visit, parent), view_(new IdentityView(this)), asked_(new QLabel(this)),
      keys_(new KeyBar(4, this)), lookUp_(new QLabel(this)) {
  setObjectName(u"identityPanel"_s);
  asked_->setObjectName(u"identityAsked"_s);
  asked_->setWordWrap(true);
  asked_->setProperty("look", u"answer"_s);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(8);
  // What is asked and the keys are always in sight; the card scrolls where letters are large.
  scroll_ = new CardScroll(this);
  scroll_->setWidget(view_);
  scroll_->setWidgetResizable(true);
  scroll_->setFrameShape(QFrame::NoFrame);
  scroll_->setFocusPolicy(Qt::NoFocus);
  scroll_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  scroll_->setMinimumHeight(leastCard);
  scroll_->viewport()->installEventFilter(this);
  column->addWidget(scroll_, 1);
  lookUp_->setObjectName(u"identityLookUp"_s);
  lookUp_->setTextFormat(Qt::PlainText);
  lookUp_->setWordWrap(true);
  lookUp_->setProperty("look", u"notice"_s);
  lookUp_->hide();
  column->addWidget(asked_);
  column->addWidget(lookUp_);
  column->addWidget(keys_);
}

/// A label that wraps asks for more height than it needs in this width, and would push keys away.
/// The letters of what is asked give way before the card is cut.
void IdentityPanel::fitWords() {
  constexpr int least = 20; // pixels, as of all that is said at the chair
  constexpr int step = 2;
  asked_->setStyleSheet({});
  asked_->ensurePolished();
  const int card = view_->leastHeight(scroll_->viewport()->width());
  for (int pixels = asked_->font().pixelSize();; pixels -= step) {
    int others = keys_->heightForWidth(width()) + layout()->spacing();
    for (auto* words : {asked_, lookUp_}) {
      // An empty label has no height for a width.
      words->setMinimumHeight(std::max(0, words->heightForWidth(width())));
      if (!words->isHidden()) others += words->minimumHeight() + layout()->spacing();
    }
    if (height() - others >= card || pixels - step < least) break;
    asked_->setStyleSheet(u"font-size: %1px"_s.arg(pixels - step));
    asked_->ensurePolished();
  }
  layout()->activate();
  view_->fit(scroll_->viewport()->size());
}

void IdentityPanel::resizeEvent(QResizeEvent* event) {
  ChairPanel::resizeEvent(event);
  fitWords();
}

bool IdentityPanel::eventFilter(QObject* watched, QEvent* event) {
  if (event->type() == QEvent::Resize) view_->fit(scroll_->viewport()->size());
  return ChairPanel::eventFilter(watched, event);
}

void IdentityPanel::begin() {
  confirmed_ = {};
  heard_.clear();
  changed_.clear();
  flagged_.clear();
  typed_.clear();
}

void IdentityPanel::startOver() {
  // What has changed and which alerts were read stays: it was said of the child who is shown.
  confirmed_ = {};
  typed_.clear();
  refresh();
}

bool IdentityPanel::press(const QKeyEvent& event) {
  // A scanner that types by the number pad holds Alt, and may find its lock off.
  constexpr auto chords =
      Qt::ControlModifier | Qt::AltModifier | Qt::MetaModifier | Qt::KeypadModifier;
  if (gather(event)) return true;
  const bool isEnter = event.key() == Qt::Key_Return || event.key() == Qt::Key_Enter;
  if (!isEnter && (event.modifiers() & chords)) return false;
  return keys_->press(event);
}

/// Digits and dashes begin a number; once begun, every sign belongs to it.
bool IdentityPanel::gather(const QKeyEvent& event) {
  if (event.modifiers() & (Qt::ControlModifier | Qt::AltModifier | Qt::MetaModifier)) return false;
  const int key = event.key();
  if (!typed_.isEmpty()) {
    if (key == Qt::Key_Escape || key == Qt::Key_Backspace || key == Qt::Key_Return ||
        key == Qt::Key_Enter) {
      const auto code = typed_;
      if (key == Qt::Key_Backspace)
        typed_.chop(1);
      else
        typed_.clear();
      refresh();
      if (key == Qt::Key_Return || key == Qt::Key_Enter) Q_EMIT codeTyped(code);
      return true;
    }
  }
  const bool isDigit = key >= Qt::Key_0 && key <= Qt::Key_9;
  const auto sign = isDigit ? QString(QChar(key)) : event.text();
  const bool isSign = sign.size() == 1 && sign.front().isPrint() && !sign.front().isSpace();
  const bool begins = isDigit || sign == u"-"_s;
  if (!isSign || event.isAutoRepeat() || (typed_.isEmpty() && !begins)) return false;
  typed_ += sign;
  refresh();
  return true;
}

void IdentityPanel::refresh() {
  view_->setCard(file().card);
  const bool known = chairside::checkIdentifiers(confirmed_).has_value();
  const bool heard = chairside::checkHeard(heard_, file().card.flags).has_value();
  QStringList avoid = alertLines();
  if (!avoid.isEmpty() && !heard) avoid += u"Read it aloud to the team, then PgDown."_s;
  if (!changed_.empty()) avoid += u"Changed since the form: "_s + toQt(changed_);
  const auto before = avoid.isEmpty() ? QString() : avoid.join(u' ') + u'\n';
  asked_->setText(
      before +
      (known
           ? u"Two identifiers match. Ask: \"May we look at your teeth?\" and \"Has "
             "anything changed: illness, medicine, mouth sore?\""_s
           : u"Ask: \"What is your name?\" and wait for the answer. Never say the name first."_s));
  lookUp_->setText(u"Looking up: "_s + typed_ +
                   u"   Enter looks it up, Esc cancels. Only the arrow keys confirm identity."_s);
  lookUp_->setVisible(!typed_.isEmpty());
  std::vector<KeyAction> actions{
      {Qt::Key_Left, u"Name + birth date match"_s, u"identityBirthButton"_s,
       [this] { confirm(Identifier::birthDate); }},
      {Qt::Key_Right, u"Name + teacher/room match"_s, u"identityRoomButton"_s,
       [this] { confirm(Identifier::teacherOrRoom); }},
      {Qt::Key_Up, u"Name + name tag match"_s, u"identityTagButton"_s,
       [this] { confirm(Identifier::nameTag); }},
      {Qt::Key_Down, u"Name + slip match"_s, u"identitySlipButton"_s,
       [this] { confirm(Identifier::slipScan); }},
      {Qt::Key_Delete, u"No match: wrong child"_s, u"identityMismatchButton"_s,
       [this] { mismatch(); }, KeyLook::alarm},
      {Qt::Key_PageUp, u"Health change"_s, u"changedButton"_s, [this] { askChange(); }},
      {Qt::Key_Return,
       changed_.empty() ? u"Assent, no health changes: begin"_s
                        : u"Assent, change recorded: begin"_s,
       u"seatButton"_s, [this] { seat(); }, KeyLook::main, known && heard}};
  if (!heard)
    actions.insert(actions.begin(), {Qt::Key_PageDown, u"Alert read, material avoided"_s,
                                     u"alertButton"_s, [this] { readAlerts(); }, KeyLook::alarm});
  if (!file().card.screening.allows && !file().card.recheck.allows)
    actions.push_back({Qt::Key_V, u"No consent: clinician override"_s, u"overrideButton"_s,
                       [this] { overrideConsent(); }, KeyLook::alarm});
  keys_->setActions(std::move(actions));
  fitWords();
}

void IdentityPanel::confirm(Identifier second) {
  confirmed_.add(Identifier::spokenName).add(second);
  refresh();
}

void IdentityPanel::mismatch() {
  visit().strip.say(
      u"Identifiers did not match, so nothing was opened. Find the right child by number."_s);
  Q_EMIT sentAway();
}

void IdentityPanel::seat() {
  const chairside::Seating seating{.child = file().child.id,
                                   .day = file().day.id,
                                   .confirmed = confirmed_,
                                   .historyUnchanged = changed_.empty(),
                                   .changed = changed_,
                                   .heard = heard_};
  if (!visit().act([&] { return visit().book().seat(visit().by(), seating, flagged_); })) return;
  // A new alert belongs on the card, and forbids lots from now on.
  if (!flagged_.empty()) visit().begin(file().child.id, file().day.id);
  Q_EMIT finished();
}

QStringList IdentityPanel::alertLines() const {
  QStringList lines;
  for (const auto& flag : file().card.flags)
    if (chairside::isAlert(flag.value)) lines += toQt(chairside::avoidWords(flag.value)) + u'.';
  return lines;
}

void IdentityPanel::readAlerts() {
  for (const auto& flag : file().card.flags)
    if (chairside::isAlert(flag.value)) heard_.push_back(flag.id);
  refresh();
}

void IdentityPanel::askChange() {
  using roster::FlagAction;
  using roster::FlagKind;
  struct Option {
    QString words;
    std::optional<FlagKind> kind;
    FlagAction action;
  };
  static const std::vector<Option> options{
      {u"Allergy to resin (acrylate)"_s, FlagKind::acrylateAllergy, FlagAction::stop},
      {u"Allergy to latex"_s, FlagKind::latexAllergy, FlagAction::stop},
      {u"Reaction to rosin or adhesive bandage"_s, FlagKind::rosinReaction, FlagAction::stop},
      {u"Mouth sore"_s, FlagKind::mouthSore, FlagAction::ask},
      {u"Recent illness"_s, FlagKind::recentIllness, FlagAction::ask},
      {u"Something else"_s, std::nullopt, FlagAction::note}};
  QStringList words;
  for (const auto& option : options)
    words += option.words;
  visit().ask.choose(
      u"What has changed since the form?"_s, words,
      [this](int chosen) {
        const auto& option = options[static_cast<std::size_t>(chosen)];
        visit().ask.write(option.words + u": what was said, and by whom?"_s, {},
                          [this, option](const QString& said) {
                            noteChange(option.words, said, option.kind, option.action);
                          });
      },
      {}, AskKeys::arrows); // a code must not answer it
}

/// Kept until the child is seated: then it is written with the seating, as one act.
void IdentityPanel::noteChange(const QString& what, const QString& said,
                               std::optional<roster::FlagKind> kind, roster::FlagAction action) {
  changed_ += (changed_.empty() ? "" : "; ") + toStd(kind ? what + u": "_s + said : said);
  if (kind) flagged_.push_back({file().child.id, *kind, action, toStd(said), false, {}});
  refresh();
}

void IdentityPanel::overrideConsent() {
  const auto clinician = visit().by().author;
  if (!clinician) return visit().strip.say(u"Select the provider first (F5)."_s);
  visit().ask.write(
      u"Reason for treating without valid consent? The clinician's name and this "
      "reason appear in every report."_s,
      {}, [this, clinician](const QString& reason) {
        const roster::ConsentOverride taken{file().child.id, file().day.value.date, *clinician,
                                            toStd(reason.trimmed())};
        const auto own = askOwnPin(visit().context(), clinician, u"the consent override"_s);
        if (!own) return visit().strip.say(u"No override: no PIN was given."_s);
        const auto written =
            visit().act([&] { return visit().book().overrideConsent(visit().by(), taken, *own); });
        if (written && visit().begin(file().child.id, file().day.id)) refresh();
      });
}

void IdentityPanel::stopChild() {
  ui::stopChild(visit(), nullptr, [this] { Q_EMIT sentAway(); });
}

} // namespace gk::ui
