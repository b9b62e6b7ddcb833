#include "ui/windows/book_view.h"

#include "ui/board/day_board_page.h"
#include "ui/board/readiness_page.h"
#include "ui/board/today_page.h"
#include "ui/chair/chair_page.h"
#include "ui/close_out/close_out_page.h"
#include "ui/consent/form_desk_page.h"
#include "ui/desk/desk_page.h"
#include "ui/files/laptop_page.h"
#include "ui/help/help_overlay.h"
#include "ui/keys/cap_button.h"
#include "ui/keys/key_button.h"
#include "ui/keys/nav_rail.h"
#include "ui/keys/page_head.h"
#include "ui/look/look.h"
#include "ui/look/style.h"
#include "ui/planning/calendar_page.h"
#include "ui/prints/prints_page.h"
#include "ui/safety/cautions_page.h"
#include "ui/safety/incident_page.h"
#include "ui/support/scan.h"
#include "ui/support/speaker.h"
#include "ui/support/text.h"
#include "ui/support/turn_to.h"
#include "ui/totals/totals_page.h"
#include "ui/widgets/message_strip.h"
#include "ui/widgets/timer_view.h"
#include "ui/windows/cover_page.h"

#include <QApplication>
#include <QEvent>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QScrollArea>
#include <QShortcut>
#include <QStackedWidget>
#include <QVBoxLayout>

namespace gk::ui {

namespace {

/// At the usual size of letters; under it the chair's track of steps begins.
constexpr int chairHeadHeight = 48;

/// As high as the page that is up: Qt's own stack is as high as its highest.
class Pages final : public QStackedWidget {
 public:
  using QStackedWidget::QStackedWidget;
  [[nodiscard]] int heightForWidth(int width) const override {
    return currentWidget() ? currentWidget()->heightForWidth(width) : -1;
  }
};

} // namespace

BookView::BookView(session::Session session, base::Clock& clock, Prompter& prompter, LongWork& work,
                   std::chrono::milliseconds idle, QWidget* parent)
    : QWidget(parent),
      session_(std::move(session)), context_{session_, clock, prompter, acting_, work},
      stack_(std::make_unique<QStackedWidget>(this)),
      cover_(new CoverPage([this] { return runningTimer(); }, stack_.get())),
      work_(new QWidget(stack_.get())), rail_(new NavRail(work_)), pages_(new Pages(work_)),
      who_(new CapButton(work_)), careDate_(wordsLabel({}, u"notice"_s, u"careDate"_s, work_)),
      running_(wordsLabel({}, u"counts"_s, u"runningTimer"_s, work_)),
      strip_(new MessageStrip(work_, MessageStrip::Room::kept)) {
  setObjectName(u"bookView"_s);
  // Before any page hears of it: an act went well, so what went wrong before it is over.
  acted_ = session_.onChanged([this](const session::Change&) { strip_->settle(); });
  layOut();
  idle_.setSingleShot(true);
  idle_.setInterval(idle);
  connect(&idle_, &QTimer::timeout, this, &BookView::rest);
  beat_.setInterval(1000);
  connect(&beat_, &QTimer::timeout, this, &BookView::beat);
  connect(&reading_, &QTimer::timeout, this, &BookView::readOn);
  connect(cover_, &CoverPage::passphraseGiven, this, &BookView::unlock);
  connect(cover_, &CoverPage::pinGiven, this, &BookView::signInBy);
  connect(cover_, &CoverPage::passphraseWanted, this, [this] {
    session_.lock();
    lock(u"The names are locked"_s);
  });
  connect(&acting_, &Acting::changed, this, &BookView::showWho);
  connect(&work, &LongWork::changed, this, &BookView::followWork);
  work.askBefore([this] {
    return runningTimer().isEmpty() ? QString()
                                    : u"the chair timer is running; finish that step first"_s;
  });
  qApp->installEventFilter(this);
  lock(u"The names are locked"_s);
}

BookView::~BookView() {
  qApp->removeEventFilter(this);
  context_.work.disconnect(this);
  context_.work.askBefore({});
  context_.work.cancel();
  context_.work.awaitBook();
}

void BookView::layOut() {
  layOutPlaces();
  for (auto* page :
       {static_cast<Page*>(board_), static_cast<Page*>(closeOut_), static_cast<Page*>(today_),
        static_cast<Page*>(totals_), static_cast<Page*>(incident_), static_cast<Page*>(readiness_),
        static_cast<Page*>(laptop_), static_cast<Page*>(desk_), static_cast<Page*>(forms_),
        static_cast<Page*>(prints_), static_cast<Page*>(calendar_)})
    connectPage(page);
  connect(desk_, &DeskPage::boardWanted, this, [this] { turnTo(board_); });
  connect(board_, &DayBoardPage::childChosen, this, &BookView::toChair);
  connect(closeOut_, &CloseOutPage::childChosen, this, &BookView::toChair);
  connect(closeOut_, &CloseOutPage::incidentWanted, this,
          [this](const std::optional<roster::ChildId>& child) {
            turnTo(incident_);
            if (child && board_->day()) incident_->begin(board_->day()->id, child);
          });
  connect(closeOut_, &CloseOutPage::daySigned, this, &BookView::backUpSigned);
  connect(closeOut_, &CloseOutPage::savedElsewhere, this, &BookView::tellSaved);
  connect(laptop_, &LaptopPage::restoreWanted, this, &BookView::restoreWanted);
  connect(incident_, &IncidentPage::finished, this, &BookView::leaveIncident);
  connect(chair_, &ChairPage::finished, this, &BookView::leaveChair);
  chair_->beforeFirst([this](roster::DayId day) { return mayBeginDay(day); });
  connect(readiness_, &ReadinessPage::answered, this, [this] {
    turnTo(board_);
    strip_->say(u"The equipment check is done."_s);
  });
  catcher_ = new ScanCatcher(context_.clock, this);
  catcher_->letPass(board_->searchLine());
  catcher_->knows([this] { return lotCodes(); });
  changes_ = session_.onChanged([this](const session::Change&) {
    lotCodes_.reset();
    showCareDate();
    // Too many wrong PINs at a question lock the names; and the last tooth may be closed. Later, so
    // that nothing is locked in the middle of an act.
    if (idle_.isActive() && !session_.isUnlocked())
      QTimer::singleShot(0, this, [this] {
        if (idle_.isActive() && !session_.isUnlocked()) lock(u"The names are locked"_s);
      });
    if (namesHidden_) QTimer::singleShot(0, this, &BookView::beat);
  });
  connect(catcher_, &ScanCatcher::scanned, this, &BookView::scanned);
  connect(&acting_, &Acting::habitsChanged, this, [this] {
    catcher_->setPrefix(toQt(acting_.habits().scannerPrefix));
    if (acting_.habits().look != lookNow()) dress(acting_.habits().look);
  });
  const auto* timer = chair_->findChild<TimerView*>();
  connect(timer, &TimerView::ticked, this, &BookView::showRunning);
  connect(timer, &TimerView::stopped, this, &BookView::showRunning);
  running_->setWordWrap(false);
  running_->hide();

  help_ = new HelpOverlay(work_);
  connect(help_, &HelpOverlay::closed, this, [this] { takeKeys(); });
  connect(help_, &HelpOverlay::passed, this, [this](QKeyEvent* event) {
    QKeyEvent again(event->type(), event->key(), event->modifiers(), event->text());
    QCoreApplication::sendEvent(chair_, &again);
  });

  auto* across = new QHBoxLayout(work_);
  across->setContentsMargins(0, 0, 0, 0);
  across->setSpacing(0);
  across->addWidget(rail_);
  auto* column = new QVBoxLayout;
  column->setSpacing(6);
  across->addLayout(column, 1);
  column->addWidget(top_);
  column->addWidget(careDate_);
  careDate_->setContentsMargins(18, 0, 18, 0); // as the pages stand
  careDate_->hide();
  auto* scroll = new QScrollArea(work_);
  scroll->setObjectName(u"pagesScroll"_s);
  scroll->setWidget(pages_);
  scroll->setWidgetResizable(true);
  scroll->setFrameShape(QFrame::NoFrame);
  scroll->setFocusPolicy(Qt::NoFocus);
  column->addWidget(scroll, 1);
  column->addWidget(strip_);
  stack_->addWidget(work_);
  stack_->addWidget(cover_);
  wait_ = wordsLabel(u"The logbook is busy. Ctrl+. cancels; nothing is changed then."_s, u"title"_s,
                     u"waitPage"_s, stack_.get());
  stack_->addWidget(wait_);
  auto* whole = new QVBoxLayout(this);
  whole->setContentsMargins(0, 0, 0, 0);
  whole->addWidget(stack_.get());
}

void BookView::showRail() {
  const auto* page = pages_->currentWidget();
  const bool isAtChild = page == chair_ && chair_->isOccupied();
  rail_->setVisible(!isAtChild);
  top_->setVisible(!isAtChild);
  // The chair has a line of its own; what the window says meanwhile lies over its track of steps.
  strip_->layOver(isAtChild ? std::optional(style::px(chairHeadHeight)) : std::nullopt);
  // First what goes: two heads at once would widen the window.
  for (const auto& [one, head] : heads_)
    if (one != page) head->hide();
  for (const auto& [one, head] : heads_)
    if (one == page) head->show();
}

void BookView::connectPage(Page* page) {
  connect(page, &Page::failed, strip_, [this](const Message& message) {
    strip_->post(message);
    // Later, so that no page waits in the middle of its own act.
    if (message.bookMoved) QTimer::singleShot(0, this, [this] { saveElsewhere(); });
  });
  connect(page, &Page::said, strip_, [this](const QString& words) {
    strip_->settle();
    strip_->say(words);
  });
}

void BookView::turnTo(QWidget* page) {
  if (namesHidden_ && page != chair_) return lock(lockedIdle());
  const auto& day = board_->day();
  // A day just signed is no longer the open one, and its papers are still to be packed.
  if (page == closeOut_ && day) closeOut_->chooseDay(day->id);
  if (page == chair_ && day && !chair_->isOccupied()) chair_->openDay(day->id);
  if (page == readiness_) readiness_->chooseDay(day ? std::optional(day->id) : std::nullopt);
  if (page == incident_ && pages_->currentWidget() != incident_) {
    beforeIncident_ = pages_->currentWidget();
    incident_->begin(day ? std::optional(day->id) : std::nullopt, chair_->occupant());
  }
  strip_->settle();
  help_->shut();
  if (page != board_) board_->searchLine()->clear(); // what was looked for is found
  ui::turnTo(*pages_, *page);
  for (const auto& [one, button] : buttons_)
    if (one != page) button->setChecked(false);
  for (const auto& [one, button] : buttons_)
    if (one == page) button->setChecked(true);
  showWho();
  showCareDate();
  page->setFocus();
  showRunning();
}

void BookView::showWho() {
  const auto& setup = acting_.now();
  const bool isNamed = setup.author.has_value();
  who_->setWords(u"F5"_s, isNamed ? teamWords(session_, setup) : u"No provider selected"_s,
                 CapButton::Cap::after);
  who_->setSub(isNamed ? kitWords(session_, setup) : u"choose the team"_s);
  who_->setSign(isNamed ? Icon::team : Icon::ask);
  who_->setAccessibleName((isNamed ? u"At work: "_s : QString()) + setupWords(session_, setup) +
                          u", key F5"_s);
  style::wear(*who_, isNamed ? u"chip"_s : u"ask"_s);
  showRail();
}

void BookView::toChair(roster::ChildId child, roster::DayId day) {
  const auto from = pages_->currentWidget();
  strip_->settle();
  turnTo(chair_);
  // Where it cannot, its own strip says why.
  if (chair_->take(child, day)) cameFrom_ = from;
  showRail();
}

void BookView::leaveChair() {
  // What the chair said last, such as why no one was seated, is read where one goes.
  const auto said = chair_->findChild<MessageStrip*>()->text();
  turnTo(cameFrom_ ? cameFrom_ : board_);
  board_->pointAtNext();
  strip_->say(said);
}

void BookView::leaveIncident(const QString& words) {
  turnTo(beforeIncident_ ? beforeIncident_ : board_);
  strip_->say(words);
}

void BookView::toggleHidden() {
  if (stack_->currentWidget() == work_) {
    cover_->hideScreen();
    stack_->setCurrentWidget(cover_);
    cover_->setFocus();
    setFocus();
  } else if (!cover_->isLock()) {
    stack_->setCurrentWidget(work_);
    pages_->currentWidget()->setFocus();
  }
}

QString BookView::runningTimer() const {
  const auto* timer = chair_ ? chair_->findChild<TimerView*>() : nullptr;
  return timer && timer->isRunning() ? timer->text() : QString();
}

/// Digits alone; whose cure it is stands in the chair.
void BookView::showRunning() {
  const auto numerals = runningTimer();
  running_->setVisible(!numerals.isEmpty() && pages_->currentWidget() != chair_);
  running_->setText(u"Timer "_s + numerals);
}

void BookView::hearOn(Speaker& speaker) {
  auto* timer = chair_->findChild<TimerView*>();
  connect(timer, &TimerView::cue, &speaker,
          [this, &speaker](Cue what) { speaker.play(what, acting_.habits().volume); });
  connect(laptop_, &LaptopPage::soundWanted, &speaker,
          [this, &speaker](Cue what) { speaker.play(what, acting_.habits().volume); });
  connect(&speaker, &Speaker::silent, this, [this] {
    auto habits = acting_.habits();
    habits.flash = true;
    acting_.keep(habits);
    strip_->say(u"This laptop has no sound for the timer: it flashes instead."_s);
  });
}

void BookView::warn(const QString& words) {
  strip_->post({words, {}, {}}, MessageStrip::Until::dismissed);
}

bool BookView::mayBeginDay(roster::DayId day) {
  if (askedReady_ == day) return true;
  const auto answers = session_.readiness(day);
  const auto lines = session_.board(day);
  // What cannot be read is said by what comes next; readiness never blocks care.
  if (!answers || !lines || answers->size() == base::enumCount<kit::ReadinessItem>) return true;
  for (const auto& line : *lines)
    if (line.place != session::Place::waiting && line.place != session::Place::absent) return true;
  askedReady_ = day;
  const auto question =
      u"The equipment check is not done: %1 of %2. Do it now? No continues with the child."_s
          .arg(answers->size())
          .arg(base::enumCount<kit::ReadinessItem>);
  if (!context_.prompter.confirm(question)) return true;
  turnTo(readiness_);
  return false;
}

void BookView::keyPressEvent(QKeyEvent* event) {
  // The button that hides is itself hidden by the cover.
  if (event->key() == Qt::Key_F11 && stack_->currentWidget() == cover_)
    toggleHidden();
  else if (event->key() == Qt::Key_Escape)
    strip_->dismiss();
  else
    QWidget::keyPressEvent(event);
}

bool BookView::eventFilter(QObject* watched, QEvent* event) {
  const auto type = event->type();
  if (idle_.isActive() && (type == QEvent::KeyPress || type == QEvent::MouseButtonPress ||
                           type == QEvent::Wheel || type == QEvent::TouchBegin))
    idle_.start();
  // A trouble that says "(Esc)" has that key before what a page does with it; at the chair the key
  // stops a light first.
  if (type == QEvent::ShortcutOverride && strip_->hasTrouble() && !chair_->isVisible() &&
      watched->isWidgetType() && isAncestorOf(static_cast<QWidget*>(watched)) &&
      static_cast<QKeyEvent*>(event)->key() == Qt::Key_Escape) {
    event->accept();
    return true;
  }
  if (type == QEvent::KeyPress && stack_->currentWidget() == work_ && watched->isWidgetType()) {
    const auto* key = static_cast<QKeyEvent*>(event);
    if (catcher_->takes(watched, *key)) return true;
    if (asksForHelp(*watched, *key)) {
      showHelp();
      return true;
    }
  }
  return QWidget::eventFilter(watched, event);
}

} // namespace gk::ui
