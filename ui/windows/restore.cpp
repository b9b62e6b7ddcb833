#include "session/book/book_facts.h"
#include "ui/asking/long_work.h"
#include "ui/support/laptop.h"
#include "ui/support/message.h"
#include "ui/support/text.h"
#include "ui/widgets/work_bar.h"
#include "ui/windows/book_view.h"
#include "ui/windows/main_window.h"
#include "ui/windows/start_page.h"

#include <QStackedWidget>

namespace gk::ui {

using base::Result;
using session::RestorePreview;

namespace {

/// Time and chance of another thread's own.
struct Elsewhere {
  explicit Elsewhere(base::LocalInstant now) : clock(now) {}
  base::ManualClock clock;
  base::SystemRandom random;
  session::World world() { return {clock, random}; }
};

} // namespace

void MainWindow::restoreBackup() {
  const auto picked = prompter_->openFile(u"Which backup?"_s, u"Logbook (*.gkbook)"_s);
  if (!picked) return;
  const base::Path backup = toStd(*picked);
  const auto now = machine_.clock.now();
  const auto then = [this, backup](const base::Path& present) {
    return [this, backup, present](const Result<RestorePreview>& preview) {
      if (!preview) {
        const auto message = describe(preview.error());
        return book_ ? book_->warn(inOneLine(message)) : start_->refuse(inOneLine(message));
      }
      const auto loss = toQt(session::lossWords(*preview));
      const auto answer = prompter_->decideBy(
          session::previewTable(*preview),
          loss + u" The current logbook is kept under another name. Restore this backup?"_s,
          {u"Restore the backup"_s, u"Cancel: change nothing"_s});
      if (answer != 0) return;
      restoreFrom(backup, present);
    };
  };
  if (book_) {
    const auto present = book_->session().path();
    return work_->runOnCopy(
        LongKind::check, this, book_->session(),
        [backup, now](session::Snapshot& copy, const base::Progress& progress) {
          Elsewhere elsewhere(now);
          return session::previewRestore(backup, copy, elsewhere.world(), progress);
        },
        then(present));
  }
  auto present = recentBook(machine_.folder);
  if (present.empty()) {
    auto to = prompter_->saveFile(u"Where to keep the logbook"_s, u"logbook.gkbook"_s,
                                  u"Logbook (*.gkbook)"_s, FileHolds::sealedNames);
    if (!to) return;
    if (!to->endsWith(u".gkbook"_s)) *to += u".gkbook"_s;
    present = toStd(*to);
  }
  work_->run(
      LongKind::check, this,
      [backup, present, now](const base::Progress& progress) {
        Elsewhere elsewhere(now);
        return session::previewRestore(backup, present, elsewhere.world(), progress);
      },
      then(present));
}

void MainWindow::openEnvelope() {
  const auto picked = prompter_->openFile(u"Open a day envelope"_s, u"Day envelope (*.gkday)"_s);
  if (!picked) return;
  const auto words = prompter_->passphrase(u"The passphrase of this envelope"_s);
  if (!words) return;
  auto to = prompter_->newFile(u"Where to keep the day's logbook"_s,
                               toQt(base::Path(toStd(*picked)).stem().string()) + u".gkbook"_s,
                               u"Logbook (*.gkbook)"_s, FileHolds::sealedNames);
  if (!to) return;
  if (!to->endsWith(u".gkbook"_s, Qt::CaseInsensitive)) *to += u".gkbook"_s;
  start_->refuse({});
  work_->run(
      LongKind::restore, this,
      [envelope = base::Path(toStd(*picked)), secret = toStd(*words),
       target = base::Path(toStd(*to)), kind = machine_.kind](const base::Progress&) {
        return session::Session::unpackEnvelope(envelope, secret, target, kind);
      },
      [this, target = *to](const Result<base::Done>& opened) {
        if (!opened) return start_->refuse(inOneLine(describe(opened.error())));
        openBook(target);
      });
}

void MainWindow::restoreFrom(const base::Path& backup, const base::Path& present) {
  start_->refuse({});
  // The logbook stays open until its file gets another name: whoever cancels is where they were.
  const auto ready = [backup, present, now = machine_.clock.now()](const base::Progress& progress) {
    Elsewhere elsewhere(now);
    return session::readyRestore(backup, present, elsewhere.world(), progress);
  };
  work_->run(LongKind::restore, this, ready, [this, present](const auto& made) {
    if (!made) {
      const auto words = inOneLine(describe(made.error()));
      return book_ ? book_->warn(words) : start_->refuse(words);
    }
    const bool wasOpen = book_ != nullptr;
    if (wasOpen) {
      bar_->standIn(nullptr);
      book_.reset();
      showPage(start_);
    }
    const auto restored = (*made)->putInPlace(machine_.clock.now().date());
    if (wasOpen || restored) openBook(toQt(present.string()));
    const auto words = restored ? restored->kept.empty()
                                      ? u"Restored."_s
                                      : u"Restored. The previous logbook is kept as %1."_s.arg(
                                            toQt(restored->kept.filename().string()))
                                : inOneLine(describe(restored.error()));
    return book_ ? book_->warn(words) : start_->refuse(words);
  });
}

} // namespace gk::ui
