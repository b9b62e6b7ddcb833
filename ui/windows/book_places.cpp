#include "ui/board/day_board_page.h"
#include "ui/board/readiness_page.h"
#include "ui/board/today_page.h"
#include "ui/chair/chair_page.h"
#include "ui/close_out/close_out_page.h"
#include "ui/consent/form_desk_page.h"
#include "ui/desk/desk_page.h"
#include "ui/files/laptop_page.h"
#include "ui/help/help_overlay.h"
#include "ui/help/help_text.h"
#include "ui/keys/cap_button.h"
#include "ui/keys/key_button.h"
#include "ui/keys/nav_rail.h"
#include "ui/keys/page_head.h"
#include "ui/look/style.h"
#include "ui/planning/calendar_page.h"
#include "ui/prints/prints_page.h"
#include "ui/safety/cautions_page.h"
#include "ui/safety/incident_page.h"
#include "ui/support/page_keys.h"
#include "ui/support/text.h"
#include "ui/totals/totals_page.h"
#include "ui/windows/book_view.h"
#include "ui/windows/cover_page.h"

#include <QApplication>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QPlainTextEdit>
#include <QShortcut>
#include <QStackedWidget>

// The places of the window: five on the rail, the others reached from the board and the desk, and
// what is at hand in each of them.
namespace gk::ui {

namespace {

QString keyWords(Qt::Key key) {
  return QKeySequence(key).toString(QKeySequence::NativeText);
}

} // namespace

void BookView::layOutPlaces() {
  board_ = new DayBoardPage(context_, pages_);
  chair_ = new ChairPage(context_, pages_);
  closeOut_ = new CloseOutPage(context_, pages_);
  incident_ = new IncidentPage(context_, pages_);
  readiness_ = new ReadinessPage(context_, pages_);
  laptop_ = new LaptopPage(context_, pages_);
  desk_ = new DeskPage(context_, pages_);
  forms_ = new FormDeskPage(context_, pages_);
  prints_ = new PrintsPage(context_, pages_);
  calendar_ = new CalendarPage(context_, pages_);
  today_ = new TodayPage(context_, pages_);
  totals_ = new TotalsPage(context_, pages_);

  top_ = new QWidget(work_);
  auto* row = new QHBoxLayout(top_);
  row->setContentsMargins(18, 10, 18, 0);
  row->setSpacing(10);
  row->addStretch(0);
  row->addWidget(running_, 0, Qt::AlignTop);
  who_->setObjectName(u"toToday"_s);
  who_->setFocusPolicy(Qt::NoFocus);
  row->addWidget(who_, 0, Qt::AlignTop);

  using Part = NavRail::Part;
  const auto onRail = [&](Part part, Icon icon, const QString& words, Qt::Key key,
                          const QString& name) {
    return rail_->add(part, icon, words, keyWords(key), name);
  };
  auto* board = onRail(Part::places, Icon::board, u"Day board"_s, Qt::Key_F1, u"toBoard"_s);
  addPage(board_, board, Qt::Key_F1);
  addPage(chair_, onRail(Part::places, Icon::chair, u"Chair"_s, Qt::Key_F2, u"toChair"_s),
          Qt::Key_F2);
  addPage(closeOut_,
          onRail(Part::places, Icon::closeOut, u"Close-out"_s, Qt::Key_F3, u"toCloseOut"_s),
          Qt::Key_F3);
  addPage(totals_, onRail(Part::places, Icon::totals, u"Totals"_s, Qt::Key_F4, u"toTotals"_s),
          Qt::Key_F4);
  auto* desk = onRail(Part::places, Icon::desk, u"Desk"_s, Qt::Key_F8, u"toDesk"_s);
  addPage(today_, who_, Qt::Key_F5, board);
  addPage(readiness_, board_->checkKey(), Qt::Key_F9, board);
  addPage(forms_, desk_->formsKey(), QKeySequence(Qt::CTRL | Qt::Key_F), desk);
  connect(desk_->formsKey(), &QAbstractButton::clicked, forms_, &FormDeskPage::toForms);
  addPage(prints_, desk_->printsKey(), QKeySequence(Qt::CTRL | Qt::Key_P), desk);
  addPage(calendar_, desk_->calendarKey(), QKeySequence(Qt::CTRL | Qt::Key_T), desk);
  addPage(laptop_, desk_->settingsKey(), Qt::Key_F10, desk);
  addPage(new CautionsPage(pages_), desk_->safetyKey(), Qt::Key_F6, desk);
  addPage(desk_, desk, Qt::Key_F8);
  addPage(incident_, onRail(Part::foot, Icon::flag, u"Incident"_s, Qt::Key_F7, u"toIncident"_s),
          Qt::Key_F7);
  auto* help = onRail(Part::foot, Icon::note, u"Help"_s, Qt::Key_Question, u"showHelp"_s);
  help->setFocusPolicy(Qt::NoFocus);
  connect(help, &QAbstractButton::clicked, this, &BookView::showHelp);
  tellKeys(*rail_, {{u"?, Shift+F1"_s, u"Keys of this page, and help"_s}});
  auto* hide =
      addKey(onRail(Part::foot, Icon::hide, u"Hide"_s, Qt::Key_F11, u"hideScreen"_s), Qt::Key_F11);
  auto* locking =
      addKey(onRail(Part::foot, Icon::lock, u"Lock"_s, Qt::Key_F12, u"lockNow"_s), Qt::Key_F12);
  connect(hide, &QAbstractButton::clicked, this, &BookView::toggleHidden);
  connect(locking, &QAbstractButton::clicked, this, [this] { lock(u"The names are locked"_s); });
}

void BookView::addPage(QWidget* page, QAbstractButton* button, const QKeySequence& key,
                       QAbstractButton* home) {
  button->setFocusPolicy(Qt::NoFocus);
  addKey(button, key);
  pages_->addWidget(page);
  auto* lit = home ? home : button;
  lit->setCheckable(true);
  buttons_.emplace_back(page, lit);
  connect(button, &QAbstractButton::clicked, this, [this, page] { turnTo(page); });
  const auto* cap = qobject_cast<const CapButton*>(button);
  const auto words = page == today_                 ? u"Team and supplies"_s
                     : button == board_->checkKey() ? u"Equipment check"_s
                     : cap                          ? cap->words()
                                                    : button->text();
  QWidget* head = page->findChild<PageHead*>();
  if (!head) head = new PageHead(wordsLabel(words, u"title"_s, {}, work_), nullptr, work_);
  static_cast<QHBoxLayout*>(top_->layout())->insertWidget(static_cast<int>(heads_.size()), head, 1);
  head->hide(); // until its page is up, so that no other takes its room
  heads_.emplace_back(page, head);
  names_.emplace_back(page, words);
}

/// The key is the window's and not the button's: it works while the rail is out of the way.
QAbstractButton* BookView::addKey(QAbstractButton* button, const QKeySequence& key) {
  auto* shortcut = new QShortcut(key, work_);
  shortcut->setAutoRepeat(false);
  const auto* cap = qobject_cast<const CapButton*>(button);
  shortcut->setWhatsThis(button == who_                 ? u"Team and supplies"_s
                         : button == board_->checkKey() ? u"Equipment check"_s
                         : cap                          ? cap->words()
                                                        : button->text());
  connect(shortcut, &QShortcut::activated, button, &QAbstractButton::click);
  return button;
}

bool BookView::asksForHelp(const QObject& watched, const QKeyEvent& key) const {
  if (help_->isOpen() || QApplication::activeModalWidget()) return false;
  if (key.key() == Qt::Key_F1 && key.modifiers() == Qt::ShiftModifier) return true;
  if (key.text() != u"?"_s) return false;
  // No number and no name has a question mark; other lines may.
  if (&watched == board_->searchLine()) return board_->searchLine()->text().isEmpty();
  const auto* line = qobject_cast<const QLineEdit*>(&watched);
  const auto* words = qobject_cast<const QPlainTextEdit*>(&watched);
  return !(line && line->isVisible()) && !words;
}

void BookView::showHelp() {
  const auto* page = pages_->currentWidget();
  QString place;
  for (const auto& [one, name] : names_)
    if (one == page) place = name;
  help_->open(place, helpOn(page->objectName()), page == chair_);
}

} // namespace gk::ui
