#include "ui/files/named_file.h"

#include "base/files/files.h"
#include "base/text/text.h"
#include "ui/files/office_pack.h"
#include "ui/support/text.h"

#include <algorithm>

namespace gk::ui {

namespace {

QString endingOf(const QString& path, const QStringList& endings) {
  const auto found = std::ranges::find_if(
      endings, [&](const QString& ending) { return path.endsWith(ending, Qt::CaseInsensitive); });
  return found == endings.end() ? QString() : *found;
}

/// As a paper may be called inside of its sealed file.
std::string paperName(const QString& name) {
  std::string letters;
  for (const auto c : base::folded(toStd(name)))
    letters += (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') ? c : '-';
  return letters;
}

base::Result<QString> writeWhole(const QString& path, const base::Result<std::string>& bytes,
                                 const base::Progress& progress) {
  if (!bytes) return bytes.error();
  if (progress.isStopped()) return base::Error{base::ErrorCode::workCanceled, "nothing was saved"};
  if (const auto done = base::replaceFile(toStd(path), *bytes); !done) return done.error();
  return path;
}

} // namespace

bool saveNamed(Context& context, LongKind kind, QObject* owner, const NamedFile& file,
               MakeBytes bytes, std::function<void(const base::Result<QString>&)> then) {
  const auto how = context.prompter.decide(
      u"%1: it names students. How is the file kept?"_s.arg(file.title),
      {u"Sealed. Only this logbook opens it: Settings, Open papers"_s, plainFileWords});
  if (!how) return false;
  const bool isSealed = *how == 0;
  const QString ending = isSealed ? QLatin1String(papersEnding) : file.plain.front();
  auto path = context.prompter.saveFile(
      file.title, file.name + ending, isSealed ? u"Sealed papers (*%1)"_s.arg(ending) : file.filter,
      isSealed ? FileHolds::sealedNames : FileHolds::names);
  if (!path) return false;
  const auto chosen = endingOf(*path, isSealed ? QStringList{ending} : file.plain);
  if (chosen.isEmpty()) *path += ending;
  if (!isSealed) {
    context.work.run(
        kind, owner,
        [bytes = std::move(bytes), path = *path,
         with = chosen.isEmpty() ? ending : chosen](const base::Progress& progress) {
          return writeWhole(path, bytes(with, progress), progress);
        },
        std::move(then));
    return true;
  }
  context.work.runOnCopy(
      kind, owner, context.session,
      [bytes = std::move(bytes), path = *path, name = paperName(file.name), endings = file.sealed](
          session::Snapshot& book, const base::Progress& progress) -> base::Result<QString> {
        std::vector<session::Paper> papers;
        for (const auto& each : endings) {
          auto made = bytes(each, progress);
          if (!made) return made.error();
          papers.push_back({name + toStd(each), std::move(*made)});
        }
        const auto all = book.sealPapers(papers);
        if (!all) return all.error();
        return writeWhole(path, *all, progress);
      },
      std::move(then));
  return true;
}

QString savedWords(const QString& path) {
  if (path.endsWith(QLatin1String(papersEnding)))
    return u"Saved, sealed, as %1. To read it: Settings (F10), Open papers (Alt+A)."_s.arg(path);
  return u"Saved as %1. It is not sealed: delete it when you are done."_s.arg(path);
}

} // namespace gk::ui
