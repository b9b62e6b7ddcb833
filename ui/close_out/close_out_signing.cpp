#include "reports/day/close_out_words.h"
#include "ui/asking/own_pin.h"
#include "ui/close_out/close_out_page.h"
#include "ui/close_out/close_out_questions.h"
#include "ui/close_out/closing_questions.h"
#include "ui/close_out/confirm_placements.h"
#include "ui/files/copies.h"
#include "ui/lists/report_browser.h"
#include "ui/support/text.h"

// The signatures, what may be done after them, and the other laptop's logbook.
namespace gk::ui {

void CloseOutPage::sign() {
  const auto members = book().members();
  if (!sheet_ || !went(members)) return;
  if (!sheet_->paperCounted) {
    const auto sheet = *sheet_; // each count shows a new one
    const auto counted = countPaperIn(context(), sheet, *day_);
    if (!went(counted)) return;
    if (!*counted) return Q_EMIT said(u"Not signed: account for the printed lists first."_s);
  }
  if (!sheet_->mayClose()) return Q_EMIT said(toQt(reports::verdictOf(*sheet_)));
  if (!went(confirmBeforeSigning(context(), *sheet_, *day_))) return;
  const auto closure = askSignatures(context().prompter, *members, sheet_->date, *day_);
  if (!went(closure)) return;
  if (!*closure) return Q_EMIT said(u"Not signed."_s);
  const auto open = askSigners(context(), **closure);
  if (!went(open)) return;
  if (!*open) return Q_EMIT said(u"Not signed."_s);
  // A signed day is no longer the open one, and it is this one that is looked at.
  chosen_ = day_;
  if (!went(book().signDay(context().acting.by(), **closure))) return;
  Q_EMIT said(u"The day is signed. Save the report and back up before leaving."_s);
  Q_EMIT daySigned(*day_);
}

void CloseOutPage::confirm() {
  if (!sheet_) return;
  const auto sheet = *sheet_; // the answer shows a new one
  const auto done = confirmPlacementsOf(context(), sheet, *day_);
  if (!went(done)) return;
  const auto open = sheet_ ? reports::unconfirmedWords(*sheet_) : std::string();
  Q_EMIT said(open.empty() ? u"All placements of the day are confirmed."_s : toQt(open) + u'.');
}

void CloseOutPage::reopen() {
  if (!sheet_ || !sheet_->closed) return;
  const auto why = context().prompter.text(
      u"Reopen the signed day: what must change? Both signatures are removed and "
      "stay in the history."_s,
      {});
  if (!why) return;
  const auto by = context().acting.by();
  const auto own = askOwnPin(context(), by.author, u"reopening the signed day"_s);
  if (!own) return Q_EMIT said(u"Not reopened: no PIN was given."_s);
  chosen_ = day_;
  if (went(book().reopenDay(by, *day_, toStd(why->trimmed()), *own)))
    Q_EMIT said(u"The day is open again. Make the change, then two people sign again."_s);
}

void CloseOutPage::addLateEntry() {
  if (!sheet_ || !sheet_->closed) return;
  auto child = childAt(browser_->section(), browser_->row());
  if (child) {
    const auto about = context().prompter.decide(u"Late entry: what is it about?"_s,
                                                 {nameOf(*child), u"The whole day"_s});
    if (!about) return;
    if (*about == 1) child.reset();
  }
  const auto text = context().prompter.text(u"Late entry: what is added? No names."_s, {});
  if (!text) return;
  const auto by = context().acting.by();
  const auto own = askOwnPin(context(), by.author, u"the late entry"_s);
  if (!own) return Q_EMIT said(u"Not added: no PIN was given."_s);
  if (went(book().addAddendum(by, {*day_, child, toStd(text->trimmed())}, *own)))
    Q_EMIT said(u"The late entry is added; it is printed with the close-out."_s);
}

void CloseOutPage::takeIn() {
  const auto from =
      context().prompter.openFile(u"The other laptop's logbook"_s, u"Logbook (*.gkbook)"_s);
  if (from) takeIn(toStd(*from), {.by = context().acting.by()});
}

void CloseOutPage::takeIn(const base::Path& from, session::Agreed agreed) {
  // Nothing else asks the book meanwhile: the window is covered (LongWork::hasBook).
  context().work.runOnBook(
      LongKind::merge, this, book(),
      [&book = book(), from, agreed](const base::Progress& progress) {
        return book.absorb(from, agreed, progress);
      },
      [this, from, agreed](const base::Result<session::Merged>& merged) {
        if (!merged && isAsked(merged.error())) {
          if (const auto more = agreedNow(context(), merged.error(), agreed))
            return takeIn(from, *more);
          return Q_EMIT said(notMerged);
        }
        if (went(merged)) sayTaken(*merged);
      });
}

void CloseOutPage::sayTaken(const session::Merged& merged) {
  const auto asked = sheet_ ? sheet_->questions.size() : 0;
  if (asked > 0) showQuestions();
  const auto open = sheet_ ? sheet_->openThings() : 0;
  Q_EMIT said(mergedWords(merged) +
              (asked > 0  ? u". Laptop conflicts to resolve: %1."_s.arg(asked)
               : open > 0 ? u". "_s + counted(open, "thing", "things") + u" to fix."_s
                          : u"."_s));
}

} // namespace gk::ui
