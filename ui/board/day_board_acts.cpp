#include "reports/display_names.h"
#include "session/chair/visit_history.h"
#include "ui/board/authorization_form.h"
#include "ui/board/day_board_page.h"
#include "ui/board/late_form.h"
#include "ui/board/runners_page.h"
#include "ui/safety/withdrawal.h"
#include "ui/support/text.h"
#include "ui/support/turn_to.h"
#include "ui/widgets/day_bar.h"

#include <QLineEdit>
#include <QStackedWidget>

#include <algorithm>

// What is done with a day or a child from the board.
namespace gk::ui {

using chairside::DayEnd;

std::optional<session::BoardLine> DayBoardPage::wanted() {
  const auto line = current();
  if (!line || !day_) Q_EMIT said(u"Choose a child first: type the number or name."_s);
  return day_ ? line : std::nullopt;
}

void DayBoardPage::takeFromBook(const QString& text) {
  const auto child =
      findInBook(text, u"Not on today's board: no consent today, or another school. Who is it?"_s);
  if (!child) return;
  search_->clear();
  Q_EMIT childChosen(*child, day_->id);
}

std::optional<roster::ChildId> DayBoardPage::findInBook(const QString& text, QString question) {
  const bool isNumber = std::ranges::all_of(text, [](QChar c) { return c.isDigit() || c == u'-'; });
  auto found = book().findChildren(toStd(text));
  if (!went(found)) return std::nullopt;
  search_->selectAll(); // the next number takes its place
  if (found->empty() && isNumber) {
    const auto near = book().nearMatches(toStd(text));
    if (!went(near)) return std::nullopt;
    for (const auto& one : *near)
      found->push_back(one.child);
    question = u"No child has the number %1. Is it one of these?"_s.arg(text);
    if (found->empty() && text.size() > 4 && !went(roster::parseChildNumber(toStd(text))))
      return std::nullopt;
  }
  if (found->empty()) {
    Q_EMIT said(u"No match. If a form came back today, press Alt+N."_s);
    return std::nullopt;
  }
  QStringList options;
  for (const auto& one : *found)
    options += toQt(one.number + "  " + one.name + ", room " + one.room);
  const auto chosen = context().prompter.decide(question, options);
  if (!chosen) return std::nullopt;
  return found->at(static_cast<std::size_t>(*chosen)).child;
}

/// Of the student who is chosen, or of anyone in the logbook who is searched for.
void DayBoardPage::showVisits() {
  const auto text = search_->text().trimmed();
  const auto line = current();
  const auto child = !text.isEmpty() && model_->found().empty()
                         ? findInBook(text, u"Whose visits?"_s)
                     : line ? std::optional(line->child)
                            : std::nullopt;
  if (!child) {
    if (text.isEmpty()) Q_EMIT said(u"Type a number or a name first, then Alt+V."_s);
    return;
  }
  const auto card = session::visitCard(book(), *child);
  if (!went(card)) return;
  QStringList options{u"Back to the board"_s};
  if (day_) options += u"To the chair"_s;
  const auto chosen = context().prompter.decideBy(*card, toQt(card->title), options);
  if (chosen != 1) return;
  search_->clear();
  Q_EMIT childChosen(*child, day_->id);
}

void DayBoardPage::showPace(const std::vector<session::BoardLine>& lines) {
  const auto pace = session::paceOf(lines, context().clock.now());
  pace_->setText(paceWords(pace));
  counts_->setNote(paceNote(pace));
  fitPace();
}

/// Behind the counts where letters are large, else in a line of its own.
void DayBoardPage::fitPace() {
  pace_->setVisible(day_ && !pace_->text().isEmpty() && !DayBar::isCondensed());
}

void DayBoardPage::askForDay() {
  const auto terms = book().terms();
  const auto schools = book().schools();
  const auto part = book().oneSchool();
  if (!went(terms) || !went(schools) || !went(part)) return;
  std::vector<base::Recorded<roster::ClinicDay>> all;
  for (const auto& term : *terms) {
    const auto days = book().days(term.id);
    if (!went(days)) return;
    all.insert(all.end(), days->begin(), days->end());
  }
  if (*part)
    std::erase_if(all, [&](const auto& day) { return day.value.school != (*part)->school; });
  if (all.empty()) return Q_EMIT said(u"There is no school day yet: Alt+O opens one."_s);
  std::ranges::stable_sort(all, std::greater(), [](const auto& day) { return day.value.date; });
  QStringList options;
  for (const auto& day : all)
    for (const auto& school : *schools)
      if (school.id == day.value.school)
        options +=
            toQt(day.value.date.shortWords() + "  " + roster::shownAmong(school.value, *schools) +
                 ", team " + std::to_string(day.value.team));
  if (const auto chosen = context().prompter.choose(u"Which day?"_s, options))
    chooseDay(all.at(static_cast<std::size_t>(*chosen)).id);
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
  const bool endsDay = place == session::Place::waiting && !*closed && !day_->value.canceled;
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
