#include "ui/files/backing_up.h"

#include "ui/support/text.h"

namespace gk::ui {

QString backedUpWords(const base::Path& file, bool sameDisk) {
  return u"Backed up and verified: %1."_s.arg(toQt(file.string())) +
         (sameDisk ? u" It is on this laptop's own disk, so it is lost with the laptop: copy it to "
                     "the encrypted drive."_s
                   : u" Keep drive and laptop separate."_s);
}

void keepLastBackup(Context& context) {
  auto habits = context.acting.habits();
  habits.backup.edition = context.session.edition();
  habits.backup.on = context.clock.now().date();
  context.acting.keep(habits);
}

bool isToBackUp(Context& context) {
  return context.acting.habits().backup.edition != context.session.edition();
}

std::optional<base::Date> lastBackup(Context& context) {
  const auto& backup = context.acting.habits().backup;
  const auto book = [](const std::string& edition) { return edition.substr(0, edition.find(':')); };
  if (book(backup.edition) != book(context.session.edition())) return std::nullopt;
  return backup.on;
}

void backUpToPlace(Context& context, QObject* owner,
                   std::function<void(const base::Result<session::MadeBackup>&)> then) {
  const auto& folder = context.acting.habits().backup.folder;
  if (folder.empty())
    return then(base::Error{base::ErrorCode::notFound, "no place for backups was chosen yet"});
  // What is written while the copy is made may be in it or not, so only what was there counts.
  const auto before = context.session.edition();
  const auto write = [folder = base::Path(folder), today = context.clock.now().date()](
                         session::Snapshot& copy, const base::Progress& progress) {
    return session::backUpInto(copy, folder, today, progress);
  };
  context.work.runOnCopy(
      LongKind::backUp, owner, context.session, write,
      [&context, before, then = std::move(then)](const base::Result<session::MadeBackup>& made) {
        if (made && before == context.session.edition()) keepLastBackup(context);
        then(made);
      });
}

bool chooseBackupPlace(Context& context) {
  const auto picked = context.prompter.folder(
      u"Where should automatic backups go? Choose a folder on an encrypted drive."_s,
      FileHolds::sealedNames);
  if (!picked) return false;
  auto habits = context.acting.habits();
  habits.backup.folder = toStd(*picked);
  context.acting.keep(habits);
  return true;
}

} // namespace gk::ui
