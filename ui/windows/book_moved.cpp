#include "base/files.h"
#include "ui/support/message.h"
#include "ui/support/text.h"
#include "ui/widgets/message_strip.h"
#include "ui/windows/book_view.h"

namespace gk::ui {

void BookView::saveElsewhere() {
  const auto name = QString::fromStdString(session_.path().stem().string());
  const auto picked = context_.prompter.newFile(
      u"The logbook's file is gone. Save what is open here under a new name"_s,
      name + u"-saved.gkbook"_s, u"Logbook (*.gkbook)"_s, FileHolds::sealedNames);
  if (!picked) return; // the message stays, and the next act asks again
  const base::Path to = base::freeName(toStd(*picked));
  if (const auto saved = session_.backUp(to); !saved) {
    strip_->post(describe(saved.error()));
    return;
  }
  strip_->settle();
  strip_->say(u"Saved and verified: %1. Close this logbook now and open the saved one."_s.arg(
      toQt(to.string())));
}

} // namespace gk::ui
