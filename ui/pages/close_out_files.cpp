#include "ui/pages/close_out_page.h"

#include "ui/pages/office_pack.h"
#include "ui/support/save_report.h"
#include "ui/support/text.h"
#include "ui/widgets/report_browser.h"

// What leaves the day as files.
namespace gk::ui {

void CloseOutPage::save() {
  if (!sheet_) return;
  const auto& tables = browser_->tables();
  const auto saved =
      saveReport(context(), {"Close-out " + sheet_->school + " " + sheet_->date.iso(),
                             toQt(sheet_->date.words()), tables,
                             tables.at(static_cast<std::size_t>(browser_->section()))});
  if (went(saved) && *saved) Q_EMIT said(u"Saved as %1. It names children."_s.arg(**saved));
}

void CloseOutPage::pack() {
  if (!sheet_) return;
  const auto to = context().prompter.saveFile(u"Pack for the office: where does the backup go?"_s,
                                              u"logbook-%1.gkbook"_s.arg(toQt(sheet_->date.iso())),
                                              u"Logbook (*.gkbook)"_s);
  if (!to || !went(book().backUp(toStd(*to))) || !noteBackup(*to)) return;
  const auto papers = packForOffice(
      toStd(*to), *sheet_, footOf(context(), toQt(sheet_->school + ", " + sheet_->date.words())));
  if (went(papers))
    Q_EMIT said(
        u"Backed up and read back whole: %1. The papers are in %2; they name children."_s.arg(
            *to, toQt(papers->string())));
}

/// The copy is there whatever becomes of the note.
bool CloseOutPage::noteBackup(const QString& to) {
  if (!day_) return true;
  const auto name = base::Path(toStd(to)).filename().string();
  return went(book().noteBackup(context().acting.by(), {*day_, name}));
}

void CloseOutPage::backUp() {
  const auto today = toQt(context().clock.now().date().iso());
  const auto to =
      context().prompter.saveFile(u"Back up to the encrypted drive"_s,
                                  u"logbook-%1.gkbook"_s.arg(today), u"Logbook (*.gkbook)"_s);
  if (to && went(book().backUp(toStd(*to))) && noteBackup(*to))
    Q_EMIT said(u"Backed up and read back whole: %1. Drive and laptop travel apart."_s.arg(*to));
}

} // namespace gk::ui
