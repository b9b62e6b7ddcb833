#include "ui/chair/chair_page.h"

#include "ui/asking/pedal.h"
#include "ui/chair/finish_panel.h"
#include "ui/chair/identity_panel.h"
#include "ui/chair/identity_view.h"
#include "ui/chair/recheck_panel.h"
#include "ui/chair/screening_panel.h"
#include "ui/drafts/chair_work.h"
#include "ui/field/field_panel.h"
#include "ui/models/identity_words.h"
#include "ui/support/text.h"
#include "ui/support/turn_to.h"

#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QScrollArea>
#include <QScrollBar>
#include <QStackedWidget>
#include <QTimer>

#include <algorithm>

namespace gk::ui {

namespace {

/// The scroll area that a panel is in.
QWidget& around(QWidget& panel) {
  return *panel.parentWidget()->parentWidget(); // the one between is its viewport
}

} // namespace

void ChairPage::openDay(roster::DayId day) {
  day_ = day;
  emptyChair();
}

std::optional<session::Place> ChairPage::placeOf(roster::ChildId child, roster::DayId day) {
  const auto place = visit_->act([&] { return context_.session.place(child, day); });
  return place ? std::optional(*place) : std::nullopt;
}

bool ChairPage::begin(roster::ChildId child, roster::DayId day, bool asksWho) {
  if (visit_->isOn() && visit_->file().child.id == child) return true;
  if (visit_->isOn() && !mayLeave()) return false;
  if (beforeFirst_ && !beforeFirst_(day)) return false;
  const auto place = placeOf(child, day);
  if (!place || !visit_->begin(child, day)) return false;
  day_ = day;
  seated_ = *place == session::Place::inChair && !asksWho;
  editing_ = false;
  wasFlagged_ = false;
  for (ChairPanel* panel :
       std::initializer_list<ChairPanel*>{identity_, screening_, recheck_, field_, finish_})
    panel->begin();
  map_->select(dentition::toothAt(16));
  goOn();
  setFocus();
  return true;
}

std::optional<roster::ChildId> ChairPage::occupant() const {
  return isOccupied() ? std::optional(visit_->file().child.id) : std::nullopt;
}

bool ChairPage::isCareOpen() const {
  return timer_->isRunning() || (isOccupied() && visit_->file().fieldInHand());
}

/// Changing the child in the middle of a visit is never an accident.
bool ChairPage::mayLeave() {
  if (timer_->isRunning()) return park();
  return !seated_ || context_.prompter.confirm(
                         toQt(visit_->file().card.header) +
                         u" is still in the chair. Pause this visit and resume it later?"_s);
}

bool ChairPage::resume(roster::DayId day) {
  day_ = day;
  const auto child = visit_->act([&] { return context_.session.childInChair(day); });
  if (!child || !*child) {
    emptyChair();
    return false;
  }
  return begin(**child, day, false); // no one left: the program did
}

bool ChairPage::park() {
  if (!visit_->isOn()) return true;
  if (timer_->isRunning()) {
    strip_->say(u"The timer is running. Let it finish or stop it before the child leaves."_s);
    return false;
  }
  emptyChair();
  Q_EMIT finished();
  return true;
}

void ChairPage::emptyChair() {
  ask_->backOut();
  visit_->end();
  seated_ = false;
  goOn();
}

void ChairPage::goOn() {
  if (!visit_->isOn()) {
    panel_ = nullptr;
    turnTo(*left_, *map_);
    turnTo(*outer_, *neutral_);
    number_->clear();
    refresh();
    return;
  }
  const auto& file = visit_->file();
  if (!seated_)
    showPanel(*identity_);
  else if (!file.screening && recheck_->hasWork())
    showPanel(*recheck_);
  else if (!file.screening || editing_)
    showPanel(*screening_);
  else if (field_->hasWork())
    showPanel(*field_);
  else
    showPanel(*finish_);
}

void ChairPage::showPanel(ChairPanel& panel) {
  if (panel_ != &panel && &panel == screening_) screening_->begin();
  panel_ = &panel;
  if (ask_->isAsking()) {
    refresh(); // the question keeps its place
    return;
  }
  if (&panel == identity_) {
    turnTo(*outer_, *whoScroll_);
  } else {
    turnTo(*panels_, around(panel));
    turnTo(*outer_, *work_);
  }
  refresh();
}

void ChairPage::endAsking() {
  turnTo(*left_, *map_);
  goOn();
  setFocus();
}

/// A question takes the place of the keys that wait for it; the map stays in sight, and the timer
/// while it runs.
void ChairPage::makeRoomToAsk() {
  showTimer();
  turnTo(*panels_, around(*ask_));
  if (!panel_) turnTo(*left_, *blank_);
  if (panel_ == identity_) turnTo(*left_, *who_);
  turnTo(*outer_, *work_);
}

void ChairPage::refresh() {
  if (busy_) return;
  busy_ = true;
  showTimer();
  field_->inUse()->setVisible(panel_ == field_ && visit_->file().fieldInHand() && !hidden_);
  if (panel_) {
    panel_->refresh();
    who_->setCard(visit_->file().card);
    map_->setFaces(panel_->faces());
    panel_->refresh(); // the map may have chosen a tooth meanwhile
    QTimer::singleShot(0, this, &ChairPage::bringInSight); // once it is laid out
  }
  showHeader();
  showTrack();
  always_->setActions(alwaysKeys());
  placeStrip();
  busy_ = false;
}

/// While something is asked the answers have all the room that no running clock needs.
void ChairPage::showTimer() {
  const bool isAtField = panel_ == field_ && !ask_->isAsking();
  field_->head()->setVisible(isAtField);
  timer_->setVisible(isAtField || timer_->isRunning());
}

void ChairPage::bringInSight() {
  if (!panel_ || panel_ == identity_) return;
  if (auto* words = panel_->mustSee())
    static_cast<QScrollArea&>(around(*panel_)).ensureWidgetVisible(words, 0, 0);
}

void ChairPage::showHeader() {
  headerRow_->setVisible(visit_->isOn() && !hidden_);
  if (!visit_->isOn()) {
    header_->setText(u"Chair: empty"_s);
    placeWords_->clear();
    flags_->hide();
  } else {
    const auto& card = visit_->file().card;
    header_->setText(toQt(card.header));
    placeWords_->setText(u"room %1 \u00b7 %2"_s.arg(toQt(card.room), toQt(card.number)));
    flags_->setVisible(!flagNames(card, roster::FlagAction::stop).isEmpty() && panel_ != identity_);
  }
  const auto* author = visit_->isOn() ? visit_->file().member(visit_->setup().author) : nullptr;
  acting_->setText(author ? u"Operator "_s + toQt(author->initials) : QString());
  fitFlags();
}

void ChairPage::lookUp() {
  if (!day_) {
    strip_->say(u"No day is open: open one on the day board."_s);
    return;
  }
  const auto text = toStd(number_->text().trimmed());
  if (text.empty()) return;
  const auto found = visit_->act([&] { return context_.session.findChildren(text); });
  if (!found) return;
  if (found->empty()) {
    strip_->say(u"No child with that number or name in this logbook."_s);
    return;
  }
  if (found->size() == 1) {
    take(found->front().child, *day_);
    return;
  }
  QStringList options;
  const auto most = std::min<std::size_t>(found->size(), 16);
  for (std::size_t i = 0; i < most; ++i)
    options += toQt((*found)[i].number) + u"  "_s + toQt((*found)[i].name) + u", room "_s +
               toQt((*found)[i].room);
  ask_->choose(u"Which child?"_s, options, [this, children = *found](int chosen) {
    take(children[static_cast<std::size_t>(chosen)].child, *day_);
  });
}

void ChairPage::undo() {
  if (panel_ && panel_->undo()) return;
  if (timer_->isRunning()) {
    strip_->say(u"The timer is running. Let it finish or stop it, then undo."_s);
    return;
  }
  takeBack({});
}

session::UndoAt ChairPage::here() const {
  return {base::Station::chair, day_, visit_->file().child.id};
}

void ChairPage::takeBack(const std::string& why) {
  const auto at = here();
  const auto words = visit_->act([&] { return context_.session.undo(visit_->by(), at, why); });
  if (!words) {
    if (!why.empty() || words.error().code != base::ErrorCode::ruleReason) return;
    strip_->settle();
    ask_->write(u"Sealant was already placed. Why are you correcting it?"_s, {},
                [this](const QString& said) { takeBack(toStd(said)); });
    return;
  }
  showAfterUndo(*at.child);
  strip_->say(u"Undone: "_s + toQt(*words) + u" (Shift+U: redo)"_s);
}

void ChairPage::redo() {
  const auto at = here();
  const auto words = visit_->act([&] { return context_.session.redo(visit_->by(), at); });
  if (!words) return;
  showAfterUndo(*at.child);
  strip_->say(u"Redone: "_s + toQt(*words));
}

/// Undo may go back behind the identity check, and redo before it.
void ChairPage::showAfterUndo(roster::ChildId child) {
  const auto place = placeOf(child, *day_);
  seated_ = place && (*place == session::Place::inChair || *place == session::Place::parked);
  screening_->begin();
  goOn();
}

void ChairPage::nextTooth() {
  const auto faces = panel_->faces();
  const auto inHand = std::ranges::any_of(faces, &TileFace::inHand);
  std::vector<dentition::Tooth> stops;
  for (const auto& face : faces)
    if (!inHand || face.inHand) stops.push_back(face.tooth);
  if (stops.empty()) return;
  std::ranges::stable_sort(stops, [&](const auto& one, const auto& other) {
    return isWorkedBefore(one, other, context_.acting.habits().order);
  });
  const auto here = std::ranges::find(stops, map_->selected());
  map_->select(here == stops.end() || here + 1 == stops.end() ? stops.front() : *(here + 1));
}

void ChairPage::toggleWho() {
  const bool open = left_->currentWidget() == who_;
  turnTo(*left_, open ? static_cast<QWidget&>(*map_) : *who_);
}

void ChairPage::toggleHidden() {
  hidden_ = !hidden_;
  headerRow_->setVisible(!hidden_);
  left_->setVisible(!hidden_);
  panels_->setVisible(!hidden_);
  strip_->setVisible(!hidden_);
  if (hidden_) field_->inUse()->hide();
  hiddenWords_->setVisible(hidden_);
  if (hidden_)
    turnTo(*outer_, *work_);
  else
    goOn();
}

void ChairPage::focusInEvent(QFocusEvent* event) {
  QWidget::focusInEvent(event);
  if (!visit_->isOn() && outer_->currentWidget() == neutral_) number_->setFocus();
}

bool ChairPage::isPedalKey(const QKeyEvent& event) const {
  return event.key() == Qt::Key_Space || isPedal(context_.acting.habits().pedal, event);
}

void ChairPage::keyReleaseEvent(QKeyEvent* event) {
  if (panel_ && isPedalKey(*event) && !event->isAutoRepeat()) panel_->pedalUp();
  QWidget::keyReleaseEvent(event);
}

bool ChairPage::scrollBy(const QKeyEvent& event) {
  if (event.modifiers() != Qt::ControlModifier) return false;
  const bool down = event.key() == Qt::Key_Down;
  if (!down && event.key() != Qt::Key_Up) return false;
  const bool atWho = outer_->currentWidget() == whoScroll_;
  const auto* scroll = !atWho ? qobject_cast<QScrollArea*>(panels_->currentWidget())
                       : whoScroll_->verticalScrollBar()->maximum() > 0 ? whoScroll_
                                                                        : identity_->cardScroll();
  auto* bar = scroll->verticalScrollBar();
  bar->setValue(bar->value() + (down ? bar->pageStep() : -bar->pageStep()) / 2);
  return true;
}

void ChairPage::keyPressEvent(QKeyEvent* event) {
  const auto read = asChairReads(*event);
  const int key = read.key();
  const bool enter = key == Qt::Key_Return || key == Qt::Key_Enter;
  event->accept();
  if (hidden_) {
    if (key == Qt::Key_H) toggleHidden();
    return;
  }
  if (scrollBy(*event)) return;
  if (ask_->isAsking()) {
    ask_->press(read);
    return;
  }
  if (left_->currentWidget() == who_ && key == Qt::Key_Escape && !timer_->isRunning()) {
    toggleWho();
    return;
  }
  if (!panel_) {
    if (enter) lookUp();
    if (key == Qt::Key_Escape) strip_->dismiss();
    return;
  }
  if (isPedalKey(*event)) {
    if (!event->isAutoRepeat()) panel_->pedal();
    return;
  }
  if (key == Qt::Key_U && event->modifiers() == Qt::ShiftModifier) {
    if (!event->isAutoRepeat() && !timer_->isRunning()) redo();
    return;
  }
  if (panel_->press(read) || always_->press(read)) return;
  if (panel_ != identity_ && map_->press(read)) return;
  if (key == Qt::Key_Escape) {
    strip_->dismiss();
    return;
  }
  event->ignore();
  QWidget::keyPressEvent(event);
}

} // namespace gk::ui
