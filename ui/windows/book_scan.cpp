#include "session/part.h"
#include "ui/board/day_board_page.h"
#include "ui/chair/chair_page.h"
#include "ui/consent/form_desk_page.h"
#include "ui/desk/desk_page.h"
#include "ui/files/laptop_page.h"
#include "ui/models/scanned.h"
#include "ui/support/text.h"
#include "ui/widgets/message_strip.h"
#include "ui/windows/book_view.h"

#include <QApplication>
#include <QLabel>
#include <QLineEdit>
#include <QStackedWidget>

// What a scanned code means in the window, and for which date all is written.
namespace gk::ui {

void BookView::scanned(const QString& code) {
  auto* page = pages_->currentWidget();
  if (page == board_) board_->searchLine()->clear();
  if (QApplication::activeModalWidget())
    return strip_->say(u"Scanned "_s + code + u" during a question: answer it first."_s);
  if (page == laptop_) return laptop_->showScan(code);
  if (page == desk_) return desk_->scanned(code);
  if (page == forms_) return forms_->scanned(code);
  if (page == chair_) return chair_->scanned(code);
  const auto number = roster::parseChildNumber(toStd(code));
  if (!number)
    return strip_->say(u"Scanned "_s + code +
                       u": not a child's number. Scan lots at the chair. Nothing changed."_s);
  const auto& day = board_->day();
  if (!day) return strip_->say(u"Open a school day first: Alt+O on the day board."_s);
  const auto child = childOfNumber(session_, *number);
  if (!child) return strip_->post(describe(child.error()));
  if (!*child)
    return strip_->say(u"No child with number "_s + toQt(*number) + u" is in this logbook."_s);
  toChair(**child, day->id);
}

const QStringList& BookView::lotCodes() {
  if (!lotCodes_) {
    lotCodes_.emplace();
    // A lot that cannot be read is no code; the page that needs it says why.
    if (const auto lots = session_.lots())
      for (const auto& lot : *lots)
        *lotCodes_ += toQt(lot.value.lot);
  }
  return *lotCodes_;
}

/// A day that was left open is written on by whoever comes next; no one may do that unseen.
void BookView::showCareDate() {
  const auto today = context_.clock.now().date();
  auto care = session_.careDate();
  if (const auto& day = board_->day()) {
    const auto closed = session_.isSigned(day->id);
    if (closed && !*closed && !day->value.canceled) care = day->value.date;
  }
  QStringList notices;
  if (care && *care != today)
    notices += u"▲ The open day is %1, and today is %2. All care is recorded on %3: close "
               "out that day, or open today's on the day board."_s.arg(
                   toQt(care->weekday() + ", " + care->words()),
                   toQt(today.weekday() + ", " + today.words()), toQt(care->words()));
  if (const auto part = session::partNotice(session_); !part.empty()) notices += toQt(part);
  careDate_->setText(notices.join(u'\n'));
  careDate_->setVisible(!notices.isEmpty());
}

} // namespace gk::ui
