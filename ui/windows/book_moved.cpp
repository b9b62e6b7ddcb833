#include "base/files/files.h"
#include "ui/asking/long_work.h"
#include "ui/chair/chair_page.h"
#include "ui/support/message.h"
#include "ui/support/text.h"
#include "ui/widgets/message_strip.h"
#include "ui/windows/book_view.h"

#include <utility>

namespace gk::ui {

void BookView::saveElsewhere(const std::function<void()>& then) {
  isMovedTold_ = true;
  if (std::exchange(isSaving_, true)) return; // asked for again by the next act
  const auto name = QString::fromStdString(session_.path().stem().string());
  const auto picked = context_.prompter.newFile(
      u"The logbook's file is gone. Save what is open here under a new name"_s,
      name + u"-saved.gkbook"_s, u"Logbook (*.gkbook)"_s, FileHolds::sealedNames);
  if (!picked) { // the message stays, and the next act asks again
    isSaving_ = false;
    return;
  }
  afterSaved_ = then;
  const auto before = session_.edition();
  const auto write = [to = base::freeName(toStd(*picked))](
                         session::Snapshot& copy,
                         const base::Progress& progress) -> base::Result<base::Path> {
    if (const auto made = copy.backUp(to, progress); !made) return made.error();
    return to;
  };
  context_.work.runOnCopy(LongKind::backUp, this, session_, write,
                          [this, before](const base::Result<base::Path>& to) {
                            isSaving_ = false;
                            const auto next = std::exchange(afterSaved_, {});
                            if (!to) return strip_->post(describe(to.error()));
                            tellSaved(toQt(to->string()));
                            // Where the file was put back meanwhile, more may have been entered
                            // since.
                            isSavedElsewhere_ = before == session_.edition();
                            if (next && isSavedElsewhere_) next();
                          });
}

void BookView::tellSaved(const QString& path) {
  isMovedTold_ = isSavedElsewhere_ = true;
  while (strip_->hasTrouble())
    strip_->dismiss(); // what is open here is to be closed, whatever else was wrong with it
  strip_->say(
      u"Saved and verified: %1. Close this logbook now and open the saved one."_s.arg(path));
}

void BookView::noticeMoved() {
  if (context_.work.hasBook()) return;
  if (session_.isInPlace()) {
    isMovedTold_ = isSavedElsewhere_ = false; // someone put it back
    return;
  }
  if (std::exchange(isMovedTold_, true)) return;
  // While teeth are open the words alone: no dialog takes the chair's keys.
  strip_->post({u"The logbook's file was moved, deleted or replaced."_s,
                u"All entries are still open here; new ones are refused."_s,
                u"Do not close the program. Save the logbook under a new name now: F3, Back up."_s},
               MessageStrip::Until::dismissed);
  if (!chair_->isCareOpen()) QTimer::singleShot(0, this, [this] { saveElsewhere(); });
}

void BookView::askMovedAtClosing(const std::function<void()>& close) {
  if (isSaving_) { // it closes by itself then
    afterSaved_ = close;
    return;
  }
  const auto answer = context_.prompter.decide(
      u"The logbook's file was moved, deleted or replaced. Closed now, entries may be lost. What now?"_s,
      {u"Save what is open here under a new name"_s,
       u"Close without saving: the file is safe elsewhere"_s});
  if (!answer) return; // stays open
  if (*answer == 1) return close();
  saveElsewhere(close);
}

} // namespace gk::ui
