#include "ui/files/day_envelope.h"

#include "ui/files/save_report.h"
#include "ui/support/text.h"

namespace gk::ui {

namespace {

const QString envelopeFilter = u"Day envelope (*.gkday)"_s;

} // namespace

void sealDayEnvelope(Context& context, QObject* owner, base::By by,
                     std::function<void(const base::Result<QString>&)> then) {
  const auto today = fileName(context.clock.now().date().words());
  auto path = context.prompter.newFile(u"Seal the logbook in a day envelope"_s,
                                       u"day-"_s + today + u".gkday"_s, envelopeFilter);
  if (!path) return;
  if (!path->endsWith(u".gkday"_s, Qt::CaseInsensitive)) *path += u".gkday"_s;
  const auto first = context.prompter.passphrase(
      u"A passphrase for this envelope. Tell it to the other laptop's team apart from the file."_s);
  if (!first) return;
  const auto second = context.prompter.passphrase(u"The same passphrase again"_s);
  if (!second) return;
  if (*first != *second)
    return then(base::Error{base::ErrorCode::callMalformed,
                            "the two passphrases differ; no envelope was made"});
  // The book is not asked meanwhile: the window is covered (LongWork::hasBook).
  context.work.run(
      LongKind::merge, owner,
      [&book = context.session, by, path = *path,
       words = toStd(*first)](const base::Progress&) -> base::Result<QString> {
        if (const auto sealed = book.sealDay(by, toStd(path), {}, words); !sealed)
          return sealed.error();
        return u"Sealed: %1. Carry file and passphrase apart."_s.arg(path);
      },
      [&book = context.session, then = std::move(then)](const base::Result<QString>& sealed) {
        book.tellAbsorbed();
        then(sealed);
      });
}

void mergeDayEnvelope(Context& context, QObject* owner, base::By by,
                      std::function<void(const base::Result<QString>&)> then) {
  const auto path = context.prompter.openFile(u"The other laptop's day envelope"_s, envelopeFilter);
  if (!path) return;
  const auto words = context.prompter.passphrase(u"The passphrase of this envelope"_s);
  if (!words) return;
  context.work.run(
      LongKind::merge, owner,
      [&book = context.session, by, path = *path,
       words = toStd(*words)](const base::Progress& progress) -> base::Result<QString> {
        const auto merged =
            book.absorbEnvelope(by, toStd(path), words, session::Copies::ask, progress);
        if (!merged) return merged.error();
        return merged->newEntries > 0
                   ? u"Merged: %1. Conflicts, if any, are in the close-out (F3)."_s.arg(
                         counted(merged->newEntries, "new entry", "new entries"))
                   : u"Nothing new was in it."_s;
      },
      [&book = context.session, then = std::move(then)](const base::Result<QString>& merged) {
        book.tellAbsorbed();
        then(merged);
      });
}

} // namespace gk::ui
