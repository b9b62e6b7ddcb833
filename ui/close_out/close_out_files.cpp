#include "ui/close_out/close_out_files.h"

#include "base/files/files.h"
#include "reports/print/render.h"
#include "ui/files/backing_up.h"
#include "ui/files/copies.h"
#include "ui/files/named_file.h"
#include "ui/files/office_pack.h"
#include "ui/files/save_report.h"
#include "ui/support/text.h"

namespace gk::ui {

CloseOutFiles::CloseOutFiles(Context& context, const ClosingDay& day, QObject* parent)
    : PageActs(context, parent), day_(day) {}

void CloseOutFiles::save(int section) {
  if (!day_.sheet()) return;
  const auto& tables = day_.tables();
  save("Close-out", tables, tables.at(static_cast<std::size_t>(section)));
}

void CloseOutFiles::saveReturns() {
  if (day_.sheet()) save("Return visits", {day_.tables().back()}, day_.tables().back());
}

void CloseOutFiles::save(const std::string& what, const std::vector<reports::Table>& tables,
                         const reports::Table& current) {
  const auto sheet = day_.sheet();
  saveReport(context(), this,
             {what + " " + sheet->school + " " + sheet->date.iso(),
              toQt(sheet->date.words()),
              FileHolds::names,
              tables,
              current,
              {},
              std::string(reports::namesMark)},
             [this](const base::Result<QString>& saved) {
               if (went(saved)) Q_EMIT said(savedWords(*saved));
             });
}

ReportFoot CloseOutFiles::foot() const {
  return footOf(context(), toQt(day_.sheet()->school + ", " + day_.sheet()->date.words()), {},
                std::string(reports::namesMark));
}

void CloseOutFiles::printReturns() {
  if (!day_.sheet()) return;
  const auto& list = day_.tables().back();
  if (list.rows.empty()) return Q_EMIT said(u"There is nothing to print."_s);
  printReport(
      context(), this, LongKind::report, {list}, foot(),
      [this, day = *day_.id(),
       isClosed = day_.sheet()->closed](const base::Result<base::Done>& done) {
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

void CloseOutFiles::pack() {
  if (!day_.sheet()) return;
  writeCopy(u"Export for office: where does the backup go?"_s, day_.sheet()->date,
            [sheet = day_.sheet(), foot = foot()](session::Snapshot& book, const base::Path& copy) {
              return packForOffice(book, copy, *sheet, foot);
            });
}

void CloseOutFiles::backUp() {
  writeCopy(u"Back up to the encrypted drive"_s, context().clock.now().date());
}

/// A backup never takes the place of another: a name that is taken gets a number.
void CloseOutFiles::writeCopy(const QString& title, base::Date on, Beside beside) {
  const auto picked = context().prompter.newFile(title, u"logbook-%1.gkbook"_s.arg(toQt(on.iso())),
                                                 u"Logbook (*.gkbook)"_s, FileHolds::sealedNames);
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
      [this, day = day_.id(), isFree = toStd(*picked)](const base::Result<Written>& made) {
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

void CloseOutFiles::takeIn() {
  const auto from =
      context().prompter.openFile(u"The other laptop's logbook"_s, u"Logbook (*.gkbook)"_s);
  if (!from) return;
  mergeAsking(
      context(), this,
      [&book = book(), path = base::Path(toStd(*from))](session::Agreed agreed,
                                                        const base::Progress& progress) {
        return book.absorb(path, agreed, progress);
      },
      [this](const session::Merged& merged) {
        const auto sheet = day_.sheet();
        const auto asked = sheet ? sheet->questions.size() : 0;
        if (asked > 0) Q_EMIT conflictsFound();
        const auto open = sheet ? sheet->openThings() : 0;
        return mergedWords(merged) +
               (asked > 0  ? u". Laptop conflicts to resolve: %1."_s.arg(asked)
                : open > 0 ? u". "_s + counted(open, "thing", "things") + u" to fix."_s
                           : u"."_s);
      },
      [this](const base::Result<QString>& done) {
        if (went(done)) Q_EMIT said(*done);
      },
      {.by = context().acting.by()});
}

} // namespace gk::ui
