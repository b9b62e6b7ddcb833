#include "ui/pages/close_out_page.h"

#include "base/files.h"
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
  const auto copy = writeCopy(u"Pack for the office: where does the backup go?"_s,
                              u"logbook-%1.gkbook"_s.arg(toQt(sheet_->date.iso())));
  if (!copy) return;
  const auto papers = packForOffice(
      copy->path, *sheet_, footOf(context(), toQt(sheet_->school + ", " + sheet_->date.words())));
  if (wentAfter(copy->words, papers))
    Q_EMIT said(copy->words +
                u" The papers are in %1; they name children."_s.arg(toQt(papers->string())));
}

void CloseOutPage::backUp() {
  const auto today = toQt(context().clock.now().date().iso());
  const auto copy =
      writeCopy(u"Back up to the encrypted drive"_s, u"logbook-%1.gkbook"_s.arg(today));
  if (copy) Q_EMIT said(copy->words);
}

/// A backup never takes the place of another: a name that is taken gets a number.
std::optional<CloseOutPage::Copy> CloseOutPage::writeCopy(const QString& title,
                                                          const QString& suggestion) {
  const auto picked = context().prompter.newFile(title, suggestion, u"Logbook (*.gkbook)"_s);
  if (!picked) return std::nullopt;
  const base::Path to = base::freeName(toStd(*picked));
  if (!went(book().backUp(to))) return std::nullopt;
  auto words = u"Backed up and verified: %1."_s.arg(toQt(to.string()));
  if (to != base::Path(toStd(*picked))) words += u" The older copy of that name is unchanged."_s;
  const auto same = base::isOnSameDisk(book().path(), to);
  // What cannot be told apart is not praised.
  const bool sameDisk = !same || *same;
  words += sameDisk ? u" It is on this laptop's own disk, so it is lost with the laptop: copy it "
                      "to the encrypted drive."_s
                    : u" Keep drive and laptop separate."_s;
  if (day_ && !wentAfter(words + u" It is not noted on the close-out."_s,
                         book().noteBackup(context().acting.by(),
                                           {*day_, to.filename().string(), sameDisk})))
    return std::nullopt;
  return Copy{to, words};
}

} // namespace gk::ui
