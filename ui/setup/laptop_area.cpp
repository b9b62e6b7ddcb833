#include "ui/setup/laptop_area.h"

#include "session/book/archive.h"
#include "ui/asking/context.h"
#include "ui/asking/long_work.h"
#include "ui/files/backing_up.h"

#include <ranges>

namespace gk::ui {

namespace {

using base::ErrorCode;

std::vector<Field> askNothing(const Thing&) {
  return {};
}
Result<Values> nothingAsked(const Thing&) {
  return Values();
}

constexpr int mostActs = 50;

/// A verified copy to where the person says; then what to do with it is told.
Result<QString> copyLogbook(Context& context, const Telling& telling, const QString& title,
                            const QString& then) {
  auto to = context.prompter.newFile(title, u"groovekeeper-copy.gkbook"_s, u"Logbook (*.gkbook)"_s,
                                     FileHolds::sealedNames);
  if (!to) return QString();
  if (!to->endsWith(u".gkbook"_s)) *to += u".gkbook"_s;
  const auto target = base::freeName(toStd(*to));
  context.work.runOnCopy(
      LongKind::backUp, telling.owner, context.session,
      [target](session::Snapshot& copy, const base::Progress& progress) {
        return copy.backUp(target, progress);
      },
      [telling, target, then](const Result<base::Done>& done) {
        telling.tell(
            saidIf(done, u"Copied and verified: "_s + toQt(target.string()) + u". "_s + then));
      });
  return QString();
}

AreaForm changingPassphrase(Context& context) {
  return {
      .name = u"Passphrase"_s,
      .words = u"Passphrase"_s,
      .key = Qt::Key_P,
      .isOfThing = false,
      .save = u"Change the passphrase"_s,
      .note = u"Of this logbook on this laptop; your own passphrase is under Team. If someone "
              "who left knows it, use Replace the key of the names (Program and rules) "
              "instead."_s,
      .changes = [](const Thing&) -> Result<QStringList> {
        return QStringList{u"Names open with the new one here. Backups and other laptops still "
                           "open with the old one. Names, entries and the recovery code stay."_s};
      },
      .fields = askNothing,
      .values = nothingAsked,
      .act = [&context](By by, const Thing&, const Values&) -> Result<QString> {
        const auto present = context.prompter.passphrase(
            u"The logbook's present passphrase, or the recovery code"_s);
        if (!present) return QString();
        const auto first = context.prompter.passphrase(
            u"The logbook's new passphrase, 8 characters or more, such as four words"_s);
        if (!first) return QString();
        const auto again = context.prompter.passphrase(u"Confirm passphrase"_s);
        if (!again) return QString();
        if (*first != *again)
          return base::Error{ErrorCode::callMalformed, "the two do not match; type both again"};
        return saidIf(context.session.changePassphrase(by, toStd(*present), toStd(*first)),
                      u"The passphrase is changed on this laptop. Put the new one in the sealed "
                      "envelope in the office."_s);
      }};
}

AreaForm secondLaptop(Context& context, const Telling& telling) {
  return {.name = u"Second"_s,
          .words = u"Second laptop"_s,
          .key = Qt::Key_C,
          .isOfThing = false,
          .save = u"Copy to a drive"_s,
          .note = u"1. Copy the logbook to an encrypted drive here. 2. On the second laptop, put "
                  "the copy on its disk, open it and unlock it. 3. After the day, Merge laptop at "
                  "close-out joins both; neither loses an entry."_s,
          .changes = [](const Thing&) -> Result<QStringList> {
            return QStringList{u"Everything in the logbook goes along: students, team, PINs, lots "
                               "and rules. Pedal, scanner, text size and the place for backups are "
                               "set on each laptop. Nothing changes here."_s};
          },
          .fields = askNothing,
          .values = nothingAsked,
          .act =
              [&context, telling](By, const Thing&, const Values&) {
                return copyLogbook(
                    context, telling, u"Copy for the second laptop"_s,
                    u"On the second laptop, put it on the disk, open and unlock it. It "
                    "writes as a laptop of its own. Then delete the copy on the drive."_s);
              }};
}

AreaForm newLaptop(Context& context, const Telling& telling) {
  return {.name = u"Move"_s,
          .words = u"New laptop"_s,
          .key = Qt::Key_M,
          .isOfThing = false,
          .save = u"Copy to a drive"_s,
          .note = u"1. Copy the logbook to an encrypted drive. 2. On the new laptop, put it on the "
                  "disk, open it, and check the newest day. 3. Only then erase this one. If work "
                  "continues here meanwhile, merge it later; nothing is lost."_s,
          .changes = [](const Thing&) -> Result<QStringList> {
            return QStringList{u"Nothing here. The new laptop asks for the passphrase and gets an "
                               "identity of its own."_s};
          },
          .fields = askNothing,
          .values = nothingAsked,
          .act =
              [&context, telling](By, const Thing&, const Values&) {
                return copyLogbook(
                    context, telling, u"Copy for the new laptop"_s,
                    u"On the new laptop, put it on the disk, open and unlock it, and "
                    "choose a place for backups (F10). Enter nothing more here."_s);
              }};
}

AreaForm backingUpNow(Context& context, const Telling& telling) {
  return {.name = u"Backup"_s,
          .words = u"Back up now"_s,
          .key = Qt::Key_U,
          .isOfThing = false,
          .save = u"Back up now"_s,
          .note =
              u"A backup is made at each signing and on closing once a place is chosen. Restore "
              "and check: Settings for this laptop (F10); a preview shows what a restore would "
              "lose."_s,
          .changes = [](const Thing&) -> Result<QStringList> {
            return QStringList{u"Nothing in the logbook. Older backups of this laptop are thinned "
                               "out: ten days and one a month stay."_s};
          },
          .fields = askNothing,
          .values = nothingAsked,
          .act = [&context, telling](By, const Thing&, const Values&) -> Result<QString> {
            if (context.acting.habits().backup.folder.empty() && !chooseBackupPlace(context))
              return QString();
            backUpToPlace(context, telling.owner,
                          [telling](const base::Result<session::MadeBackup>& made) {
                            if (!made) return telling.tell(made.error());
                            telling.tell(backedUpWords(made->path, made->sameDisk));
                          });
            return QString();
          }};
}

} // namespace

AreaForm archivingYear(Context& context, const Telling& telling) {
  return {
      .name = u"Archive"_s,
      .words = u"Archive this year"_s,
      .key = Qt::Key_A,
      .save = u"Write the archive"_s,
      .note = u"For a year that is over, with every school day signed: a verified, read-only "
              "copy of the logbook for the office's records."_s,
      .changes = [](const Thing&) -> Result<QStringList> {
        return QStringList{u"Nothing here: students, sealants and reports of the year stay, and "
                           "rechecks need them. The archive opens with the passphrase of today."_s};
      },
      .fields = askNothing,
      .values = nothingAsked,
      .act = [&context, telling](By, const Thing& id, const Values&) -> Result<QString> {
        const auto name =
            session::archiveName(context.session, roster::YearId(*id), context.clock.now().date());
        if (!name) return name.error();
        const auto to = context.prompter.newFile(u"Where to keep the archive"_s, toQt(*name),
                                                 u"Logbook (*.gkbook)"_s, FileHolds::sealedNames);
        if (!to) return QString();
        const auto target = base::freeName(toStd(*to));
        context.work.runOnCopy(
            LongKind::backUp, telling.owner, context.session,
            [target](session::Snapshot& copy, const base::Progress& progress) {
              return session::writeArchive(copy, target, progress);
            },
            [telling, target](const Result<base::Done>& done) {
              telling.tell(saidIf(done, u"Archived and verified, read-only: "_s +
                                            toQt(target.string()) +
                                            u". Keep it apart from the laptop."_s));
            });
        return QString();
      }};
}

AreaSpec laptopArea(Context& context, const Telling& telling) {
  auto& book = context.session;
  return {.name = u"Laptop"_s,
          .title = u"Laptops"_s,
          .station = base::Station::desk,
          .columns = {{"Laptops and copies that hold this logbook, students erased, and merges"}},
          .rows = [&book](const QString&) -> Result<std::vector<AreaRow>> {
            const auto copies = book.knownCopies();
            if (!copies) return copies.error();
            std::vector<std::string> lines{"this laptop: " + book.path().filename().string()};
            lines.insert(lines.end(), copies->begin(), copies->end());
            const auto erasures = book.erasures();
            if (!erasures) return erasures.error();
            for (const auto& line : *erasures) {
              const auto who = "student " + line.record.value.number;
              lines.push_back(who + ": " + line.words());
              for (const auto& copy : line.copies)
                lines.push_back("may still hold " + who + ": " + copy);
            }
            const auto acts = book.bookActs();
            if (!acts) return acts.error();
            // The newest first, and no more of them than are looked through.
            for (const auto& act : *acts | std::views::reverse | std::views::take(mostActs))
              lines.push_back(act);
            std::vector<AreaRow> rows;
            for (const auto& line : lines) {
              base::Uuid id{};
              const auto place = rows.size() + 1;
              id.bytes[14] = static_cast<std::uint8_t>(place / 256);
              id.bytes[15] = static_cast<std::uint8_t>(place % 256);
              rows.push_back({id, {line}});
            }
            return rows;
          },
          .history = [](const base::Uuid&) -> Result<std::vector<Revision>> {
            return std::vector<Revision>();
          },
          .forms = {changingPassphrase(context), secondLaptop(context, telling),
                    newLaptop(context, telling), backingUpNow(context, telling)}};
}

} // namespace gk::ui
