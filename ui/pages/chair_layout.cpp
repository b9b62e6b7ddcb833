#include "ui/pages/chair_page.h"

#include "ui/pages/field_panel.h"
#include "ui/pages/finish_panel.h"
#include "ui/pages/identity_panel.h"
#include "ui/pages/identity_view.h"
#include "ui/pages/medical_stop.h"
#include "ui/pages/recheck_panel.h"
#include "ui/pages/screening_panel.h"
#include "ui/support/scan.h"
#include "ui/support/style.h"
#include "ui/support/text.h"
#include "ui/support/touch.h"
#include "ui/widgets/timer_access.h"

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
constexpr int rightColumn = 580;
constexpr double mostOfPage = 0.5;

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
    : QWidget(parent), context_(context), header_(new QLabel), flags_(new QLabel),
      acting_(new QLabel), outer_(new QStackedWidget), headerRow_(buildHeader()),
      number_(new QLineEdit), right_(new QWidget), whoScroll_(makeScroll()),
      left_(new QStackedWidget), panels_(new QStackedWidget),
      hiddenWords_(new QLabel(u"Screen hidden. H shows it again."_s)), map_(new MouthMap),
      timer_(new TimerView(context.clock)), ask_(new AskBar),
      strip_(new MessageStrip(nullptr, MessageStrip::Room::kept)), always_(new KeyBar(8)),
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
  makeTimerAccessible();
  timer_->setAccessibleName(u"Timer"_s);
  for (QWidget* page : std::initializer_list<QWidget*>{neutral_, whoScroll_, work_})
    outer_->addWidget(page);
  always_->setObjectName(u"alwaysBar"_s);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(10, 6, 10, 6);
  column->setSpacing(6);
  column->addWidget(headerRow_);
  column->addWidget(outer_, 1);
  column->addWidget(strip_);
  column->addWidget(always_);
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
  auto* line = new QHBoxLayout(row);
  line->setContentsMargins(0, 0, 0, 0);
  line->addWidget(header_, 3);
  line->addWidget(flags_, 4);
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
  column->addWidget(timer_);
  column->addWidget(panels_, 1);
  column->addWidget(hiddenWords_);
  auto* row = new QHBoxLayout(page);
  row->setObjectName(u"chairRow"_s);
  row->setContentsMargins(0, 0, 0, 0);
  row->setSpacing(12);
  row->addWidget(left_, 1);
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

void ChairPage::resizeEvent(QResizeEvent* event) {
  QWidget::resizeEvent(event);
  shareWidth();
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
      {Qt::Key_W, u"Wet tooth"_s, u"wetButton"_s, [this] { panel_->wet(); }, KeyLook::alarm,
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
      {Qt::Key_P, u"Pause"_s, u"parkButton"_s, [this] { park(); }, KeyLook::plain, on}};
  // Beside the alert, which stands at the head of the page; the identity check has its own.
  if (inMouth && hasOpenFlag(visit_->file()))
    keys.push_back({flagKey, u"Decide stop"_s, u"decideStopButton"_s,
                    [this] { decideFlag(*visit_); }, KeyLook::alarm, !timer_->isRunning()});
  return keys;
}

} // namespace gk::ui
