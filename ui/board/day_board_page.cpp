#include "ui/board/day_board_page.h"

#include "base/text/text.h"
#include "ui/board/authorization_form.h"
#include "ui/board/board_card.h"
#include "ui/board/late_form.h"
#include "ui/board/open_day_form.h"
#include "ui/board/runners_page.h"
#include "ui/files/backing_up.h"
#include "ui/keys/cap_button.h"
#include "ui/keys/key_button.h"
#include "ui/keys/page_head.h"
#include "ui/lists/board_delegate.h"
#include "ui/lists/last_column.h"
#include "ui/look/style.h"
#include "ui/models/readiness_words.h"
#include "ui/safety/withdrawal.h"
#include "ui/setup/first_day_page.h"
#include "ui/support/page_keys.h"
#include "ui/support/text.h"
#include "ui/support/turn_to.h"
#include "ui/widgets/day_bar.h"

#include <QEvent>
#include <QHeaderView>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QStackedWidget>
#include <QTableView>
#include <QVBoxLayout>

#include <algorithm>

namespace gk::ui {

using chairside::DayEnd;

DayBoardPage::DayBoardPage(Context& context, QWidget* parent)
    : Page(context, parent), stack_(new QStackedWidget(this)),
      openDay_(new OpenDayForm(context, stack_)), late_(new LateForm(context, stack_)),
      runners_(new RunnersPage(context, stack_)), dentist_(new AuthorizationForm(context, stack_)),
      title_(wordsLabel({}, u"title"_s, u"boardTitle"_s, this)),
      date_(wordsLabel({}, u"note"_s, u"boardDate"_s, this)), check_(new CapButton(this)),
      pace_(wordsLabel({}, u"note"_s, u"boardPace"_s, this)),
      ready_(wordsLabel({}, u"counts"_s, u"boardReady"_s, this)), counts_(new DayBar(this)),
      backup_(wordsLabel({}, u"asks"_s, u"boardBackup"_s, this)), search_(new QLineEdit(this)),
      table_(new QTableView(this)), card_(new BoardCard(this)), model_(new BoardModel(this)) {
  setObjectName(u"dayBoardPage"_s);
  layOut();
  for (auto* form : std::initializer_list<Page*>{openDay_, late_, runners_, dentist_})
    connect(form, &Page::failed, this, &Page::failed);
  const auto toBoard = [this] {
    turnTo(*stack_, *stack_->widget(0));
    search_->setFocus();
  };
  connect(openDay_, &OpenDayForm::backedOut, this, toBoard);
  connect(openDay_, &OpenDayForm::opened, this, [this, toBoard](roster::DayId day) {
    toBoard();
    chooseDay(day);
  });
  connect(late_, &LateForm::backedOut, this, toBoard);
  connect(runners_, &RunnersPage::backedOut, this, toBoard);
  connect(dentist_, &AuthorizationForm::backedOut, this, toBoard);
  for (auto* form : std::initializer_list<Page*>{runners_, dentist_})
    connect(form, &Page::said, this, &Page::said);
  connect(late_, &LateForm::entered, this, [this, toBoard](roster::ChildId child) {
    toBoard();
    refresh();
    restore(child);
    Q_EMIT said(u"The form is entered."_s);
  });
  connect(search_, &QLineEdit::textChanged, this, [this](const QString& text) {
    model_->search(text);
    restore(std::nullopt);
  });
  connect(search_, &QLineEdit::returnPressed, this, &DayBoardPage::take);
  search_->installEventFilter(this);
  table_->installEventFilter(this);
}

void DayBoardPage::layOut() {
  search_->setObjectName(u"boardSearch"_s);
  search_->setPlaceholderText(u"Number or name, or scan the slip, then Enter"_s);
  search_->setAccessibleName(u"Find a child by number or name"_s);
  search_->setClearButtonEnabled(true);
  table_->setObjectName(u"boardTable"_s);
  table_->setAccessibleName(u"The day's students"_s);
  table_->setModel(model_);
  table_->setItemDelegate(new BoardDelegate(table_));
  table_->setSelectionBehavior(QAbstractItemView::SelectRows);
  table_->setSelectionMode(QAbstractItemView::SingleSelection);
  table_->setTabKeyNavigation(false);
  table_->setShowGrid(false);
  table_->verticalHeader()->hide();
  auto* header = table_->horizontalHeader();
  header->setDefaultAlignment(Qt::AlignLeft | Qt::AlignVCenter);
  header->setSectionResizeMode(QHeaderView::Fixed);
  style::whenDressed(table_, [this] { fitTable(); });
  // A plan is read whole; alerts that have less room say how many more there are.
  new LastColumn(*table_, LastColumn::GivesWay{BoardModel::alerts, 120, 200});

  auto* board = new QWidget(stack_);
  const auto button = [&](const QString& words, Qt::Key key, const QString& name, auto act) {
    auto* made = keyButton(words, QKeySequence(Qt::ALT | key), name, board);
    connect(made, &QPushButton::clicked, this, act);
    return made;
  };
  auto* head = new PageHead(title_, date_, board);
  check_->setObjectName(u"toReadiness"_s);
  auto* otherDay = static_cast<CapButton*>(
      button(u"Other day"_s, Qt::Key_Y, u"boardOtherDay"_s, [this] { askForDay(); }));
  otherDay->setWords(u"Alt+Y"_s, u"Other day"_s, CapButton::Cap::after);
  otherDay->setSub(u"or a past one"_s);
  otherDay->setSign(Icon::calendar);
  otherDay->setProperty("look", u"chip"_s);
  head->add(check_);
  head->add(otherDay);
  // A form needs the room, and has its own keys.
  connect(stack_, &QStackedWidget::currentChanged, this, [this, otherDay](int at) {
    check_->setVisible(at == 0);
    otherDay->setVisible(at == 0);
  });
  auto* toChair = new CapButton(board);
  toChair->setWords(u"Enter"_s, u"To the chair"_s);
  toChair->setObjectName(u"boardTake"_s);
  toChair->setProperty("look", u"main"_s);
  toChair->setAutoDefault(false);
  connect(toChair, &QPushButton::clicked, this, &DayBoardPage::take);
  const auto end = [&](const QString& words, Qt::Key key, const QString& name, DayEnd how) {
    return button(words, key, name, [this, how] { note(how); });
  };
  byDentist_ = button(u"Dentist's exam"_s, Qt::Key_E, u"boardDentist"_s, [this] { enterExam(); });
  byDentist_->hide();
  auto* again =
      keyButton(u"Redo"_s, QKeySequence(Qt::ALT | Qt::SHIFT | Qt::Key_Z), u"boardRedo"_s, board);
  connect(again, &QPushButton::clicked, this, &DayBoardPage::redo);
  // In the order in which Tab comes to them.
  const std::vector<QPushButton*> outcomes{
      end(u"Absent"_s, Qt::Key_A, u"boardAbsent"_s, DayEnd::absent),
      end(u"Declined"_s, Qt::Key_D, u"boardDeclined"_s, DayEnd::declined),
      end(u"Out of time"_s, Qt::Key_R, u"boardNotReached"_s, DayEnd::notReached),
      end(u"Left school"_s, Qt::Key_L, u"boardLeft"_s, DayEnd::leftSchool),
      button(u"Withdraw consent"_s, Qt::Key_W, u"boardWithdraw"_s, [this] { withdraw(); }),
      byDentist_};
  card_->setKeys(
      toChair, outcomes,
      {button(u"Late form"_s, Qt::Key_N, u"boardLate"_s, [this] { lateForm(); }),
       button(u"From paper"_s, Qt::Key_P, u"boardPaper"_s, [this] { fromPaper(); }),
       button(u"Runner's list"_s, Qt::Key_U, u"boardRunners"_s, [this] { runnersList(); }),
       button(u"All visits"_s, Qt::Key_V, u"boardVisits"_s, [this] { showVisits(); }),
       button(u"Open a day"_s, Qt::Key_O, u"boardOpenDay"_s,
              [this] {
                turnTo(*stack_, *openDay_);
                openDay_->begin();
              }),
       button(u"Cancel day"_s, Qt::Key_X, u"boardCancelDay"_s, [this] { cancelDay(); }),
       button(u"Undo"_s, Qt::Key_Z, u"boardUndo"_s, [this] { undo(); }), again});

  auto* column = new QVBoxLayout(board);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(10);
  column->addWidget(head);
  column->addWidget(ready_);
  column->addWidget(backup_);
  backup_->hide();
  connect(&context().acting, &Acting::habitsChanged, this, &DayBoardPage::showBackup);
  counts_->setObjectName(u"boardCounts"_s);
  auto* body = new QBoxLayout(QBoxLayout::LeftToRight);
  body->setSpacing(12);
  auto* left = new QVBoxLayout;
  left->setSpacing(10);
  left->addWidget(counts_);
  left->addWidget(pace_);
  search_->setProperty("look", u"search"_s);
  left->addWidget(search_);
  left->addWidget(table_, 1);
  body->addLayout(left, 1);
  body->addWidget(card_);
  style::whenDressed(card_, [this, body, column, left] {
    const bool large = DayBar::isCondensed();
    body->setDirection(large ? QBoxLayout::TopToBottom : QBoxLayout::LeftToRight);
    for (auto* one : {column, left})
      one->setSpacing(large ? 6 : 10);
    backup_->setStyleSheet(large ? u"padding: 4px 12px"_s : QString());
    fitPace();
  });
  connect(table_->selectionModel(), &QItemSelectionModel::currentChanged, this,
          [this] { card_->show(current()); });
  column->addLayout(body, 1);
  stack_->insertWidget(0, board);
  stack_->addWidget(openDay_);
  stack_->addWidget(late_);
  stack_->addWidget(runners_);
  stack_->addWidget(dentist_);
  turnTo(*stack_, *board);
  auto* whole = new QVBoxLayout(this);
  whole->setContentsMargins(18, 4, 18, 0);
  whole->addWidget(stack_);
  setFocusProxy(search_);
  tellKeys(*table_, {{u"Up, Down"_s, u"Choose a student"_s}, {u"Letters, digits"_s, u"Search"_s}});
}

/// In large letters the rows and the heads of the columns give up room around their words, and what
/// is done with a student is scrolled to, so that six students are in sight on a small laptop.
void DayBoardPage::fitTable() {
  constexpr int shownRows = 6; // and the heading over them
  const bool large = DayBar::isCondensed();
  const int row = style::px(large ? 24 : 33);
  const int head = style::px(26);
  table_->verticalHeader()->setMinimumSectionSize(large ? row : -1);
  table_->verticalHeader()->setDefaultSectionSize(row);
  table_->horizontalHeader()->setMaximumHeight(large ? head : QWIDGETSIZE_MAX);
  const bool hasRoom = large && lookNow().percent <= 150;
  table_->setMinimumHeight(hasRoom ? head + (shownRows + 1) * row + 2 * table_->frameWidth() : 0);
  const std::array widths{76, 168, 54, 58, 42, 200};
  for (int column = 0; column < static_cast<int>(widths.size()); ++column)
    table_->setColumnWidth(column, style::px(widths[static_cast<std::size_t>(column)]));
}

void DayBoardPage::readDay() {
  day_.reset();
  const auto found = chosen_ ? book().day(*chosen_) : book().openDayNow();
  if (found)
    day_ = *found;
  else if (found.error().code != base::ErrorCode::notFound)
    Q_EMIT failed(describe(found.error()));
}

void DayBoardPage::refresh() {
  const auto kept = current();
  readDay();
  ready_->hide();
  pace_->hide();
  showBackup();
  if (!day_) {
    title_->setText(u"No school day is open"_s);
    date_->clear();
    counts_->say(u"Open a day with Alt+O, or view another with Alt+Y."_s);
    showReadiness(true);
    model_->show({});
    showMissing();
    return;
  }
  const auto program = book().program();
  const auto schools = book().schools();
  const auto closed = book().isSigned(day_->id);
  const auto lines = book().board(day_->id);
  if (!went(program) || !went(schools) || !went(closed) || !went(lines)) return;
  byDentist_->setVisible(chairside::waitsForDentist(program->value));
  const auto& day = day_->value;
  const auto school =
      std::ranges::find_if(*schools, [&](const auto& one) { return one.id == day.school; });
  title_->setText(school == schools->end() ? u"School day"_s : toQt(school->value.name));
  auto date = toQt(day.date.weekday() + ", " + day.date.words());
  if (day.team > 1) date += u", team %1"_s.arg(day.team);
  if (day.canceled) date += u". CANCELED: "_s + toQt(day.reason);
  if (*closed) date += u". SIGNED"_s;
  date_->setText(date);
  showPace(*lines);
  model_->show(*lines);
  using session::Place;
  using Fill = DayBar::Fill;
  std::vector<DayBar::Part> parts;
  for (const auto& [place, fill] : {std::pair(Place::done, Fill::strong),
                                    {Place::inChair, Fill::cured},
                                    {Place::parked, Fill::dashed},
                                    {Place::waiting, Fill::open},
                                    {Place::absent, Fill::sunk}})
    parts.push_back({placeWords(place), model_->countOf(place), fill});
  counts_->setParts(std::move(parts), model_->counts());
  showReadiness(*closed);
  restore(kept ? std::optional(kept->child) : std::nullopt);
}

/// What is lost with the laptop should never be more than a day.
void DayBoardPage::showBackup() {
  const auto late = book().dayNotBackedUp(lastBackup(context()));
  if (!went(late)) return;
  backup_->setVisible(late->has_value());
  if (*late)
    backup_->setText(u"⚠ No backup since the school day of %1. Back up now: F10, then Alt+U."_s.arg(
        toQt((*late)->words())));
}

void DayBoardPage::showMissing() {
  const auto list = firstDayNow(context());
  if (!went(list)) return;
  const auto missing = missingWords(*list);
  if (missing.isEmpty()) return;
  ready_->setText(u"Missing for a clinic day (F8, Desk, takes you there):\n"_s +
                  missing.join(u'\n'));
  ready_->show();
}

void DayBoardPage::showReadiness(bool closed) {
  const bool isAsked = day_ && !closed && !day_->value.canceled;
  QString trouble;
  if (isAsked) {
    const auto answers = book().readiness(day_->id);
    if (!went(answers)) return;
    trouble = readinessWords(*answers);
  }
  check_->setWords(u"F9"_s, u"Equipment check"_s, CapButton::Cap::after);
  check_->setSub(!isAsked ? u"for an open day"_s : trouble.isEmpty() ? u"ready"_s : trouble);
  check_->setSign(!isAsked ? Icon::shield : trouble.isEmpty() ? Icon::tick : Icon::ask);
  check_->setAccessibleName(check_->text());
  style::wear(*check_, trouble.isEmpty() ? u"chip"_s : u"ask"_s);
}

void DayBoardPage::restore(const std::optional<roster::ChildId>& child) {
  table_->clearSpans();
  for (const auto row : model_->headingRows())
    table_->setSpan(row, 0, 1, BoardModel::columns);
  auto row = child ? model_->rowOf(*child) : std::nullopt;
  // Row 0 is a heading; the first child stands under it.
  if (!row && model_->rowCount() > 1) row = 1;
  if (row) table_->setCurrentIndex(model_->index(*row, 0));
  card_->show(current());
}

void DayBoardPage::pointAtNext() {
  restore(std::nullopt);
}

void DayBoardPage::chooseDay(roster::DayId day) {
  chosen_ = day;
  refresh();
}

std::optional<session::BoardLine> DayBoardPage::current() const {
  return model_->lineAt(table_->currentIndex().row());
}

void DayBoardPage::take() {
  const auto text = search_->text().trimmed();
  if (!day_) return Q_EMIT said(u"Open a school day first: Alt+O."_s);
  if (!text.isEmpty() && model_->found().empty()) return takeFromBook(text);
  // Several fit: the arrow keys choose, so that Enter never takes one of two by chance.
  if (search_->hasFocus() && model_->found().size() > 1) {
    table_->setFocus();
    return Q_EMIT said(counted(std::ssize(model_->found()), "match", "matches") +
                       u". Choose with the arrow keys, then Enter."_s);
  }
  const auto line = wanted();
  if (!line) return;
  search_->clear();
  Q_EMIT childChosen(line->child, day_->id);
}

bool DayBoardPage::eventFilter(QObject* watched, QEvent* event) {
  if (event->type() == QEvent::KeyPress) {
    const auto* key = static_cast<QKeyEvent*>(event);
    const bool isUp = key->key() == Qt::Key_Up;
    if (watched == search_ && (isUp || key->key() == Qt::Key_Down)) {
      table_->setFocus();
      return true;
    }
    if (watched == table_ && (key->key() == Qt::Key_Return || key->key() == Qt::Key_Enter)) {
      take();
      return true;
    }
    // Typing starts a search wherever the keyboard is.
    if (watched == table_ && !key->text().isEmpty() && key->text().front().isLetterOrNumber() &&
        !(key->modifiers() & (Qt::AltModifier | Qt::ControlModifier))) {
      search_->setFocus();
      search_->setText(search_->text() + key->text());
      return true;
    }
  }
  return Page::eventFilter(watched, event);
}

} // namespace gk::ui
