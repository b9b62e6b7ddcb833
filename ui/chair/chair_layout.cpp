#include "ui/chair/chair_page.h"

#include "ui/chair/finish_panel.h"
#include "ui/chair/identity_panel.h"
#include "ui/chair/identity_view.h"
#include "ui/chair/recheck_panel.h"
#include "ui/chair/screening_panel.h"
#include "ui/field/field_panel.h"
#include "ui/keys/step_track.h"
#include "ui/look/style.h"
#include "ui/look/touch.h"
#include "ui/models/identity_words.h"
#include "ui/support/page_keys.h"
#include "ui/support/scan.h"
#include "ui/support/text.h"
#include "ui/visit/medical_stop.h"
#include "ui/widgets/timer_access.h"

#include <QEvent>
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QScrollArea>
#include <QStackedWidget>
#include <QVariant>

#include <algorithm>

// How the chair page is put together: what stands where, and who tells whom.
namespace gk::ui {

namespace {

/// At the usual size of letters; and never so wide that the map is none.
constexpr int rightColumn = 640;
constexpr int headHeight = 48; ///< half grown with the letters
constexpr int side = 14;       ///< left and right of all
constexpr int between = 7;     ///< the rows of the page
constexpr double mostOfPage = 0.49;

/// Out of the way until large letters need it; its keys are Ctrl and an arrow.
QScrollArea* makeScroll() {
  auto* scroll = new QScrollArea;
  scroll->setWidgetResizable(true);
  scroll->setFrameShape(QFrame::NoFrame);
  scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  scroll->setFocusPolicy(Qt::NoFocus);
  return scroll;
}

} // namespace

ChairPage::ChairPage(Context& context, QWidget* parent)
    : QWidget(parent), context_(context), header_(new QLabel), placeWords_(new QLabel),
      flags_(new QLabel), acting_(new QLabel), outer_(new QStackedWidget),
      headerRow_(buildHeader()), track_(new StepTrack(StepTrack::Shape::pills, nullptr)),
      trackRow_(new QWidget), number_(new QLineEdit), right_(new QWidget), leftSide_(new QWidget),
      whoScroll_(makeScroll()), left_(new QStackedWidget), panels_(new QStackedWidget),
      hiddenWords_(new QLabel(u"Screen hidden. H shows it again."_s)), map_(new MouthMap),
      timer_(new TimerView(context.clock)), ask_(new AskBar),
      strip_(new MessageStrip(this, MessageStrip::Room::kept)), always_(new KeyBar(9)),
      visit_(new ChairVisit(context, *ask_, *strip_, *timer_, *map_, this)), who_(new IdentityView),
      blank_(new QWidget), identity_(new IdentityPanel(*visit_, nullptr)),
      screening_(new ScreeningPanel(*visit_, nullptr)),
      recheck_(new RecheckPanel(*visit_, nullptr)), field_(new FieldPanel(*visit_, nullptr)),
      finish_(new FinishPanel(*visit_, nullptr)), neutral_(buildNeutral()), work_(buildWork()) {
  setObjectName(u"chairPage"_s);
  whoScroll_->setObjectName(u"identityScroll"_s);
  whoScroll_->setWidget(identity_);
  setFocusPolicy(Qt::StrongFocus);
  setAccessibleName(u"Chair"_s);
  tellKeys(*map_, {{u"7 9 1 3"_s, u"A corner; again: its 2nd molar"_s},
                   {u"Arrow keys"_s, u"The tooth beside"_s}});
  tellKeys(*always_,
           {{u"Shift+U"_s, u"Redo"_s}, {u"Ctrl+Up, Ctrl+Down"_s, u"Scroll in large letters"_s}});
  makeTimerAccessible();
  timer_->setAccessibleName(u"Timer"_s);
  for (QWidget* page : std::initializer_list<QWidget*>{neutral_, whoScroll_, work_})
    outer_->addWidget(page);
  always_->setObjectName(u"alwaysBar"_s);
  always_->setOneRow();
  always_->installEventFilter(this);
  outer_->installEventFilter(this);
  identity_->cardScroll()->installEventFilter(this);
  track_->setObjectName(u"visitTrack"_s);
  auto* steps = new QHBoxLayout(trackRow_);
  steps->setContentsMargins(side, 0, side, 0);
  steps->addWidget(track_);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 8);
  column->setSpacing(between);
  column->addWidget(headerRow_);
  column->addWidget(trackRow_);
  const auto inset = [&](QWidget* widget, int stretch) {
    auto* row = new QHBoxLayout;
    // The last key of a panel and the first that is always there are apart as any two keys.
    row->setContentsMargins(side, 0, side, stretch > 0 ? style::touchGap() - between : 0);
    row->addWidget(widget);
    column->addLayout(row, stretch);
  };
  inset(outer_, 1);
  inset(always_, 0);
  field_->inUse()->setParent(this);
  strip_->raise();
  connectPanels();
  goOn();
}

QWidget* ChairPage::buildHeader() {
  auto* row = new QWidget;
  header_->setObjectName(u"chairHeader"_s);
  header_->setProperty("look", u"head"_s);
  header_->setTextFormat(Qt::PlainText);
  flags_->setObjectName(u"chairStop"_s);
  flags_->setProperty("look", u"stop"_s);
  flags_->setTextFormat(Qt::PlainText);
  for (auto* label : {header_, flags_})
    label->setWordWrap(true);
  acting_->setObjectName(u"chairActing"_s);
  placeWords_->setObjectName(u"chairPlace"_s);
  row->setObjectName(u"chairHead"_s);
  row->setAttribute(Qt::WA_StyledBackground);
  style::whenDressed(row, [row] { row->setFixedHeight((headHeight + style::px(headHeight)) / 2); });
  auto* line = new QHBoxLayout(row);
  line->setContentsMargins(side + 4, 2, side, 2);
  line->setSpacing(18);
  header_->setWordWrap(false);
  line->addWidget(header_);
  line->addWidget(placeWords_);
  line->addWidget(flags_, 1);
  line->addStretch(0);
  line->addWidget(acting_, 0, Qt::AlignRight | Qt::AlignVCenter);
  return row;
}

QWidget* ChairPage::buildNeutral() {
  auto* page = new QWidget;
  auto* words = new QLabel(
      u"No child in the chair.\nScan the slip, or type a number or a name, then Enter."_s);
  words->setProperty("look", u"call"_s);
  words->setWordWrap(true);
  number_->setObjectName(u"childNumberEdit"_s);
  number_->setAccessibleName(u"Child's number or name"_s);
  style::whenDressed(number_, [this] {
    number_->setMaximumWidth(style::px(480));
    number_->setMinimumHeight(style::touch());
  });
  auto* column = new QVBoxLayout(page);
  column->addStretch();
  column->addWidget(words);
  column->addWidget(number_);
  column->addStretch(2);
  return page;
}

QWidget* ChairPage::buildWork() {
  auto* page = new QWidget;
  left_->addWidget(map_);
  left_->addWidget(who_);
  who_->setMinimumWidth(1); // long names in large letters never widen the page
  left_->addWidget(blank_);
  for (QWidget* panel :
       std::initializer_list<QWidget*>{screening_, recheck_, field_, finish_, ask_}) {
    // Each scrolls by itself: a stack is as high as the highest of its pages.
    auto* scroll = makeScroll();
    scroll->setObjectName(u"panelScroll"_s);
    scroll->setWidget(panel);
    panels_->addWidget(scroll);
  }
  hiddenWords_->setProperty("look", u"head"_s);
  hiddenWords_->setWordWrap(true);
  hiddenWords_->hide();
  auto* column = new QVBoxLayout(right_);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(8);
  column->addWidget(field_->head());
  column->addWidget(timer_);
  column->addWidget(panels_, 1);
  column->addWidget(hiddenWords_);
  auto* row = new QHBoxLayout(page);
  row->setObjectName(u"chairRow"_s);
  row->setContentsMargins(0, 0, 0, 0);
  row->setSpacing(12);
  auto* lefts = new QVBoxLayout(leftSide_);
  lefts->addWidget(left_);
  row->addWidget(leftSide_, 1);
  row->addWidget(right_);
  style::whenDressed(this, [this] { shareWidth(); });
  return page;
}

/// The keys and the timer change sides; the mouth never does.
void ChairPage::takeSide() {
  auto* row = static_cast<QBoxLayout*>(work_->layout());
  row->setDirection(context_.acting.habits().strip == Side::left ? QBoxLayout::RightToLeft
                                                                 : QBoxLayout::LeftToRight);
  timer_->flashes(context_.acting.habits().flash || context_.acting.habits().volume == 0);
}

void ChairPage::shareWidth() {
  right_->setFixedWidth(std::min(style::px(rightColumn), static_cast<int>(width() * mostOfPage)));
}

/// The alert is never cut: where large letters leave it no room, its own give way down to 18 px,
/// then the words beside it, which the card (I) has too, then the alert's second half.
void ChairPage::fitFlags() {
  constexpr int least = 18;  // pixels
  constexpr int apart = 18;  // as the head has it
  constexpr int edges = 100; // of the head and of the label itself
  for (auto* beside : {placeWords_, acting_})
    beside->setVisible(!beside->text().isEmpty());
  if (flags_->isHidden() || !visit_->isOn()) return;
  flags_->setStyleSheet({});
  flags_->ensurePolished();
  const int wished = flags_->font().pixelSize();
  const auto size = [&](const QString& words) {
    int room = width() - edges;
    for (const auto* beside : {header_, placeWords_, acting_})
      if (!beside->isHidden()) room -= beside->sizeHint().width() + apart;
    auto letters = flags_->font();
    for (int pixels = wished; pixels >= least; --pixels) {
      letters.setPixelSize(pixels);
      if (QFontMetrics(letters).horizontalAdvance(words) <= room) return pixels;
    }
    return 0;
  };
  const auto& card = visit_->file().card;
  auto words = flagLines(card, roster::FlagAction::stop).join(u"; "_s);
  int pixels = size(words);
  for (auto* beside : {acting_, placeWords_})
    if (pixels == 0) {
      beside->hide();
      pixels = size(words);
    }
  if (pixels == 0) {
    words = flagNames(card, roster::FlagAction::stop).join(u"; "_s);
    pixels = std::max(size(words), least);
  }
  flags_->setText(words);
  if (pixels < wished) flags_->setStyleSheet(u"font-size: %1px; padding: 2px 10px"_s.arg(pixels));
}

void ChairPage::resizeEvent(QResizeEvent* event) {
  QWidget::resizeEvent(event);
  shareWidth();
  placeStrip();
  fitFlags();
}

/// The line of messages lies under the map, always as high; longer words grow upward over the map
/// and never over a key. The identity check has no map: there it lies over the track of steps, and
/// grows over the head, whose words the card has too.
void ChairPage::placeStrip() {
  strip_->growsUp(true);
  const int high = strip_->height() + 6;
  const QMargins room(0, 0, 0, high);
  if (leftSide_->layout()->contentsMargins() != room) leftSide_->layout()->setContentsMargins(room);
  if (outer_->currentWidget() == whoScroll_) {
    // Without a track it lies over the foot of the card, above what is asked.
    auto* card = identity_->cardScroll();
    const int foot =
        trackRow_->isHidden() ? card->mapTo(this, QPoint(0, card->height())).y() : outer_->y() - 2;
    strip_->setGeometry(side, foot - strip_->height(), width() - 2 * side, strip_->height());
    return;
  }
  const bool isLeft = right_->x() > leftSide_->x();
  const int wide = panel_ && outer_->currentWidget() == work_
                       ? width() - 2 * side - right_->width() - 12
                       : width() - 2 * side;
  strip_->setGeometry(isLeft || wide == width() - 2 * side ? side : width() - side - wide,
                      always_->y() - high, wide, strip_->height());
  // Below the map, in the line that a message lies over for as long as it is up.
  field_->inUse()->setGeometry(strip_->geometry().adjusted(12, 0, -12, 0));
}

bool ChairPage::eventFilter(QObject* watched, QEvent* event) {
  if (event->type() == QEvent::Move || event->type() == QEvent::Resize) placeStrip();
  return QWidget::eventFilter(watched, event);
}

void ChairPage::connectPanels() {
  takeSide();
  connect(&context_.acting, &Acting::habitsChanged, this, &ChairPage::takeSide);
  connect(visit_, &ChairVisit::changed, this, &ChairPage::goOn);
  connect(map_, &MouthMap::selectionChanged, this, &ChairPage::refresh);
  connect(map_, &MouthMap::surfacePressed, this, [this](dentition::Surface surface) {
    if (panel_ && !ask_->isAsking()) panel_->pick(surface);
  });
  connect(timer_, &TimerView::reachedTarget, this, &ChairPage::refresh);
  connect(ask_, &AskBar::opened, this, &ChairPage::makeRoomToAsk);
  connect(ask_, &AskBar::closed, this, &ChairPage::endAsking);
  connect(identity_, &ChairPanel::finished, this, [this] {
    seated_ = true;
    goOn();
  });
  for (ChairPanel* panel : std::initializer_list<ChairPanel*>{screening_, recheck_, field_})
    connect(panel, &ChairPanel::finished, this, [this] {
      editing_ = false;
      // Ended without a screening: the child's day is over.
      const auto place = placeOf(visit_->file().child.id, *day_);
      if (place == session::Place::absent || place == session::Place::done)
        park();
      else
        goOn();
    });
  connect(identity_, &IdentityPanel::codeTyped, this,
          [this](const QString& code) { scanned(readScan(code)); });
  connect(identity_, &IdentityPanel::sentAway, this, [this] { park(); });
  connect(finish_, &FinishPanel::visitEnded, this, [this] { park(); });
  const auto editFindings = [this] {
    editing_ = true;
    goOn();
  };
  connect(field_, &FieldPanel::findingsWanted, this, editFindings);
  connect(finish_, &FinishPanel::findingsWanted, this, editFindings);
}

std::vector<KeyAction> ChairPage::alwaysKeys() {
  const bool on = panel_ != nullptr;
  const bool inMouth = on && panel_ != identity_;
  std::vector<KeyAction> keys{
      {Qt::Key_W, u"Contaminated"_s, u"wetButton"_s, [this] { panel_->wet(); }, KeyLook::filled,
       inMouth},
      {Qt::Key_X, u"Stop child"_s, u"stopChildButton"_s, [this] { panel_->stopChild(); },
       KeyLook::alarm, on},
      {Qt::Key_Tab, u"Next"_s, u"nextToothButton"_s, [this] { nextTooth(); }, KeyLook::plain,
       inMouth},
      {Qt::Key_U, u"Undo"_s, u"undoButton"_s, [this] { undo(); }, KeyLook::plain, on},
      {Qt::Key_N, u"Note"_s, u"noteButton"_s, [this] { panel_->addNote(); }, KeyLook::plain,
       inMouth},
      {Qt::Key_I, u"Info"_s, u"whoButton"_s, [this] { toggleWho(); }, KeyLook::plain, inMouth},
      {Qt::Key_H, u"Hide"_s, u"hideButton"_s, [this] { toggleHidden(); }, KeyLook::plain, on},
      {Qt::Key_P, u"Pause visit"_s, u"parkButton"_s, [this] { park(); }, KeyLook::plain, on}};
  // For the alert that stands at the head of the page. Decided, it keeps its place, so that no
  // other key moves. One word, so that large letters do not make the whole row higher.
  const bool isOpen = on && hasOpenFlag(visit_->file());
  wasFlagged_ = on && (wasFlagged_ || isOpen);
  if (wasFlagged_)
    keys.push_back({flagKey, u"Resolve"_s, u"decideStopButton"_s, [this] { decideFlag(*visit_); },
                    KeyLook::alarm, isOpen && !timer_->isRunning()});
  return keys;
}

/// Where the visit is. Its steps are the same for every child; what is not for this one says so.
void ChairPage::showTrack() {
  using State = StepTrack::State;
  // Large letters take its room at the identity check, which is the first step in any case, and
  // that of the head, whose words the card has.
  const bool isCrowded = panel_ == identity_ && lookNow().percent > 120;
  headerRow_->setVisible(panel_ != nullptr && !hidden_ && !isCrowded);
  trackRow_->setVisible(panel_ != nullptr && !hidden_ && !isCrowded);
  if (!panel_) return;
  std::vector<StepTrack::Step> steps;
  for (const auto& words : {u"Identity"_s, u"Screen"_s, u"Plan"_s, u"Right side"_s, u"Left side"_s,
                            u"Varnish"_s, u"Finish"_s})
    steps.push_back({words, State::later});
  const auto& file = visit_->file();
  std::size_t now = 0;
  if (panel_ == screening_) now = screening_->isAtPlan() ? 2 : 1;
  if (panel_ == recheck_) now = 1;
  if (panel_ == field_) now = field_->isOnRight().value_or(true) ? 3 : 4;
  if (panel_ == finish_) now = file.varnished || !file.card.varnish.allows ? 6 : 5;
  for (std::size_t i = 0; i < now; ++i)
    steps[i].state = State::done;
  if (file.screening) {
    const auto isChosen = [&](bool right) {
      return std::ranges::any_of(file.screening->value.teeth, [right](const auto& finding) {
        return finding.tooth.isRight() == right && chairside::isTreatment(finding.decision);
      });
    };
    if (!isChosen(true)) steps[3].state = State::none;
    if (!isChosen(false)) steps[4].state = State::none;
  }
  if (!file.card.varnish.allows) steps[5].state = State::none;
  steps[now].state = State::now;
  track_->setSteps(std::move(steps));
}

} // namespace gk::ui
