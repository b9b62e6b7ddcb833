#include "ui/close_out/close_out_page.h"

#include "base/files/files.h"
#include "reports/print/render.h"
#include "ui/files/backing_up.h"
#include "ui/files/named_file.h"
#include "ui/files/office_pack.h"
#include "ui/files/save_report.h"
#include "ui/lists/report_browser.h"
#include "ui/paper/report_sheets.h"
#include "ui/support/text.h"

// What leaves the day as files.
namespace gk::ui {

void CloseOutPage::save() {
  if (!sheet_) return;
  const auto& tables = tables_;
  saveReport(context(), this,
             {"Close-out " + sheet_->school + " " + sheet_->date.iso(),
              toQt(sheet_->date.words()),
              FileHolds::names,
              tables,
              tables.at(static_cast<std::size_t>(browser_->section())),
              {},
              std::string(reports::namesMark)},
             [this](const base::Result<QString>& saved) {
               if (went(saved)) Q_EMIT said(savedWords(*saved));
             });
}

/// One line a student, for whoever plans the next day at the school.
void CloseOutPage::saveReturns() {
  if (!sheet_) return;
  const auto& list = tables_.back();
  saveReport(context(), this,
             {"Return visits " + sheet_->school + " " + sheet_->date.iso(),
              toQt(sheet_->date.words()),
              FileHolds::names,
              {list},
              list,
              {},
              std::string(reports::namesMark)},
             [this](const base::Result<QString>& saved) {
               if (went(saved)) Q_EMIT said(savedWords(*saved));
             });
}

/// One sheet, however many pages it has: they stay together.
void CloseOutPage::printReturns() {
  if (!sheet_) return;
  const auto& list = tables_.back();
  if (list.rows.empty()) return Q_EMIT said(u"There is nothing to print."_s);
  const auto printer = context().prompter.printer();
  if (!printer) return;
  const auto foot = footOf(context(), toQt(sheet_->school + ", " + sheet_->date.words()), {},
                           std::string(reports::namesMark));
  const auto draw = [printer, list,
                     foot](const base::Progress& progress) -> base::Result<base::Done> {
    ReportSheets(list.title, {list}, foot).print(*printer, progress);
    return base::Done{};
  };
  context().work.run(
      LongKind::report, this, draw,
      [this, day = *day_, isClosed = sheet_->closed](const base::Result<base::Done>& done) {
        if (!went(done)) return;
        // A day that is signed has its counts.
        if (isClosed)
          return Q_EMIT said(u"Printed. It names students: shred it when it is done with."_s);
        if (wentAfter(u"The list is printed, but not counted out: count it under Printed lists."_s,
                      book().countOut(context().acting.by(base::Station::closeOut), day,
                                      followup::Paper::other, 1)))
          Q_EMIT said(u"Printed and counted out with the day's other lists."_s);
      });
}

void CloseOutPage::pack() {
  if (!sheet_) return;
  const auto foot = footOf(context(), toQt(sheet_->school + ", " + sheet_->date.words()), {},
                           std::string(reports::namesMark));
  writeCopy(u"Export for office: where does the backup go?"_s,
            u"logbook-%1.gkbook"_s.arg(toQt(sheet_->date.iso())),
            [sheet = *sheet_, foot](session::Snapshot& book, const base::Path& copy) {
              return packForOffice(book, copy, sheet, foot);
            });
}

void CloseOutPage::backUp() {
  const auto today = toQt(context().clock.now().date().iso());
  writeCopy(u"Back up to the encrypted drive"_s, u"logbook-%1.gkbook"_s.arg(today));
}

/// A backup never takes the place of another: a name that is taken gets a number.
void CloseOutPage::writeCopy(const QString& title, const QString& suggestion, Beside beside) {
  const auto picked = context().prompter.newFile(title, suggestion, u"Logbook (*.gkbook)"_s,
                                                 FileHolds::sealedNames);
  if (!picked) return;
  struct Written {
    base::Path path;
    bool sameDisk;
    std::optional<base::Result<base::Path>> papers;
  };
  const auto write =
      [asked = base::Path(toStd(*picked)), beside = std::move(beside), from = book().path()](
          session::Snapshot& copy, const base::Progress& progress) -> base::Result<Written> {
    const auto to = base::freeName(asked);
    if (const auto made = copy.backUp(to, progress); !made) return made.error();
    // What cannot be told apart is not praised.
    const auto same = base::isOnSameDisk(from, to);
    progress.at(base::Stage::drawing);
    return Written{to, !same || *same, beside ? std::optional(beside(copy, to)) : std::nullopt};
  };
  context().work.runOnCopy(
      LongKind::backUp, this, book(), write,
      [this, day = day_, isFree = toStd(*picked)](const base::Result<Written>& made) {
        if (!went(made)) return;
        if (!book().isInPlace()) return void(Q_EMIT savedElsewhere(toQt(made->path.string())));
        auto words = backedUpWords(made->path, made->sameDisk);
        if (made->path != base::Path(isFree))
          words += u" The older copy of that name is unchanged."_s;
        keepLastBackup(context());
        const auto& papers = made->papers;
        const auto with = papers && *papers ? (*papers)->filename().string() : std::string();
        if (day && !wentAfter(words + u" It is not recorded on the close-out."_s,
                              book().noteBackup(
                                  context().acting.by(),
                                  {*day, made->path.filename().string(), made->sameDisk, with})))
          return;
        keepLastBackup(context());
        if (!papers) return void(Q_EMIT said(words));
        if (wentAfter(words, *papers))
          Q_EMIT said(words +
                      u" The papers are sealed in %1. To read them: Settings, Open papers."_s.arg(
                          toQt((*papers)->string())));
      });
}

} // namespace gk::ui
