#include "reports/display_names.h"
#include "ui/board/authorization_form.h"
#include "ui/board/day_board_page.h"
#include "ui/board/late_form.h"
#include "ui/board/runners_page.h"
#include "ui/safety/withdrawal.h"
#include "ui/support/text.h"
#include "ui/support/turn_to.h"

#include <QLineEdit>
#include <QStackedWidget>

// What is done with a day or a child from the board.
namespace gk::ui {

using chairside::DayEnd;

std::optional<session::BoardLine> DayBoardPage::wanted() {
  const auto line = current();
  if (!line || !day_) Q_EMIT said(u"Choose a child first: type the number or name."_s);
  return day_ ? line : std::nullopt;
}

void DayBoardPage::cancelDay() {
  if (!day_) return Q_EMIT said(u"No school day is open."_s);
  const auto why = context().prompter.text(
      u"Why is the day canceled? Its roster and consents stay."_s, u"snow day"_s);
  if (why && went(book().cancelDay(by(), day_->id, toStd(why->trimmed()))))
    Q_EMIT said(u"The day is canceled."_s);
}

void DayBoardPage::lateForm() {
  if (!day_) return Q_EMIT said(u"Open a school day first: Alt+O."_s);
  turnTo(*stack_, *late_);
  late_->begin(*day_);
}

void DayBoardPage::runnersList() {
  if (!day_) return Q_EMIT said(u"Open a school day first: Alt+O."_s);
  turnTo(*stack_, *runners_);
  runners_->begin(*day_);
}

void DayBoardPage::enterExam() {
  const auto line = wanted();
  if (!line) return;
  turnTo(*stack_, *dentist_);
  dentist_->begin(*line, day_->value.date);
}

void DayBoardPage::fromPaper() {
  const auto line = wanted();
  const auto members = book().members();
  if (!line || !went(members)) return;
  const auto number = context().prompter.text(u"Which number is printed on the sheet?"_s, {});
  if (!number) return;
  QStringList options;
  for (const auto& member : *members)
    options += toQt(member.value.name);
  const auto chosen = context().prompter.choose(
      u"Who compared the entries with the sheet? Must be a different person."_s, options);
  if (!chosen) return;
  const auto checker = members->at(static_cast<std::size_t>(*chosen)).id;
  search_->clear();
  if (went(book().enterPaper(by(), {line->child, day_->id, toStd(number->trimmed()), checker})))
    Q_EMIT said(u"%1: typed from paper sheet %2."_s.arg(toQt(line->name), number->trimmed()));
}

void DayBoardPage::note(DayEnd end) {
  const auto line = wanted();
  if (!line) return;
  const auto noted = book().endVisit(by(), {line->child, day_->id, end, {}});
  if (!went(noted)) return;
  search_->clear();
  Q_EMIT said(u"%1: %2. Alt+Z undoes it."_s.arg(toQt(line->name), toQt(base::displayName(end))));
}

void DayBoardPage::withdraw() {
  const auto line = wanted();
  if (!line) return;
  const auto how = context().prompter.text(QString::fromUtf8(withdrawalQuestion), {});
  if (!how) return;
  const auto closed = book().isSigned(day_->id);
  if (!went(closed)) return;
  const auto place = line->place;
  // Not begun: the day ends here for the child, so that the close-out asks for nothing more.
  const bool endsDay = place == session::Place::waiting && !*closed && !day_->value.cancelled;
  const auto told = toStd(how->trimmed());
  const auto noted =
      endsDay ? went(book().work(by(), {.withdrawal = session::Withdrawal{line->child, told},
                                        .outcome =
                                            chairside::DayOutcome{
                                                line->child, day_->id, DayEnd::withdrawn, {}, {}}}))
              : went(book().withdrawConsent(by(), line->child, told));
  if (!noted) return;
  search_->clear();
  const bool isUnderWay = place == session::Place::inChair || place == session::Place::parked;
  Q_EMIT said(endsDay ? u"Consent withdrawn; the child leaves the queue."_s
              : isUnderWay && !*closed
                  ? u"Consent withdrawn. Stop at the next safe point and end the visit."_s
                  : u"Consent withdrawn; what is recorded today stays."_s);
}

std::optional<session::UndoAt> DayBoardPage::here() {
  if (!day_) {
    Q_EMIT said(u"No school day is open."_s);
    return std::nullopt;
  }
  return session::UndoAt{base::Station::board, day_->id, {}};
}

void DayBoardPage::undo() {
  const auto at = here();
  if (!at) return;
  const auto last = book().undoable(*at);
  if (!went(last) || !context().prompter.confirm(u"Undo: %1?"_s.arg(toQt(last->words)))) return;
  const auto words = book().undo(by(), *at);
  if (went(words)) Q_EMIT said(u"Undone: %1 (Alt+Shift+Z: redo)"_s.arg(toQt(*words)));
}

void DayBoardPage::redo() {
  const auto at = here();
  if (!at) return;
  const auto words = book().redo(by(), *at);
  if (went(words)) Q_EMIT said(u"Redone: %1"_s.arg(toQt(*words)));
}

base::By DayBoardPage::by() {
  return context().acting.by(base::Station::board);
}

} // namespace gk::ui
