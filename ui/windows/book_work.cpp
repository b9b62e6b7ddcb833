#include "ui/close_out/close_out_page.h"
#include "ui/files/backing_up.h"
#include "ui/support/text.h"
#include "ui/widgets/message_strip.h"
#include "ui/windows/book_view.h"
#include "ui/windows/cover_page.h"

#include <QLabel>
#include <QStackedWidget>

// Long work beside the pages, and the backups that are made of themselves.
namespace gk::ui {

QWidget* BookView::messageLine() const {
  return strip_;
}

void BookView::followWork() {
  const bool isTaken = context_.work.hasBook();
  if (isTaken && !beforeWait_ && !lockLater_) {
    beforeWait_ = stack_->currentWidget();
    stack_->setCurrentWidget(wait_);
    setFocus();
  }
  if (isTaken) return;
  if (beforeWait_ && stack_->currentWidget() == wait_) {
    stack_->setCurrentWidget(beforeWait_);
    takeKeys();
  }
  beforeWait_ = nullptr;
  if (!lockLater_) return;
  const auto why = *lockLater_;
  lockLater_.reset();
  lock(why);
}

void BookView::backUpSigned(roster::DayId day) {
  if (acting_.habits().backup.folder.empty())
    return strip_->say(u"The day is signed. Back up before leaving: Alt+B. F10 chooses a place for "
                       "automatic backups."_s);
  backUpToPlace(context_, this, [this, day](const base::Result<session::MadeBackup>& made) {
    const auto signedWords = u"The day is signed. "_s;
    if (!made) {
      auto message = describe(made.error());
      message.lost = signedWords + u"It is safe on this laptop, but not backed up yet."_s;
      message.now = u"Plug the drive in, then F10, Alt+U."_s;
      return strip_->post(message);
    }
    const auto words = backedUpWords(made->path, made->sameDisk);
    const auto noted =
        session_.noteBackup(acting_.by(), {day, made->path.filename().string(), made->sameDisk});
    if (!noted) return strip_->post(describe(noted.error()));
    keepLastBackup(context_); // the note alone is no reason for another
    strip_->say(signedWords + words);
  });
}

void BookView::beforeClosing(const std::function<void()>& close) {
  if (!session_.isInPlace() && !isSavedElsewhere_) return askMovedAtClosing(close);
  if (acting_.habits().backup.folder.empty() || !isToBackUp(context_)) return close();
  backUpToPlace(context_, this, [this, close](const base::Result<session::MadeBackup>& made) {
    if (made) return close();
    askAtClosing(describe(made.error()).happened + u' ' + toQt(made.error().detail), close);
  });
}

void BookView::askAtClosing(const QString& why, const std::function<void()>& close) {
  const auto answer = context_.prompter.decide(
      u"Not backed up: %1. The logbook is safe on this laptop. What now?"_s.arg(why),
      {u"Try again: the drive is in"_s, u"Choose another place"_s,
       u"Close without a backup; the day board reminds"_s});
  if (!answer) return; // stays open
  if (*answer == 2) return close();
  if (*answer == 1 && !chooseBackupPlace(context_)) return;
  beforeClosing(close);
}

} // namespace gk::ui
