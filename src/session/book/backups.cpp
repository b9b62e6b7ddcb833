#include "session/book/backups.h"

#include "session/values/short_laptop.h"
#include "store/book.h"

#include <algorithm>

namespace gk::session {

using base::Error;
using base::ErrorCode;
using followup::BackupFile;
using followup::BackupOwner;

namespace {

/// By name; another file that only looks like one is told by what it holds, before it goes.
std::vector<BackupFile> namedSo(const base::Path& folder, const BackupOwner& owner) {
  std::vector<BackupFile> found;
  std::error_code unread;
  for (std::filesystem::directory_iterator at(folder, unread), end; !unread && at != end;
       at.increment(unread)) {
    if (!std::filesystem::is_regular_file(at->symlink_status(unread))) continue;
    if (auto file = followup::parseBackupName(at->path().filename().string(), owner))
      found.push_back(std::move(*file));
  }
  return found;
}

bool isOf(const base::Uuid& book, const base::Path& file, base::Instant now) {
  const base::LaptopId nobody(base::Uuid{});
  const auto opened = store::Book::open(file, nobody, store::Access::readOnly,
                                        store::Durability::everyAct, now, store::Checkup::skip);
  return opened && opened->identity() == book;
}

} // namespace

Result<MadeBackup> backUpInto(Snapshot& book, const base::Path& folder, base::Date today,
                              const base::Progress& progress) {
  std::error_code unread;
  if (!std::filesystem::is_directory(folder, unread))
    return Error{ErrorCode::fileNotFound,
                 folder.string() + ": the backup place is not there; plug the drive in"};
  const BackupOwner owner{book.source().stem().string(), shortName(book.laptop())};
  MadeBackup made{base::freeName(folder / followup::backupFileName(owner, today))};
  if (const auto written = book.backUp(made.path, progress); !written) return written.error();
  const auto same = base::isOnSameDisk(book.source(), made.path);
  made.sameDisk = !same || *same;
  const auto id = book.identity();
  for (const auto& name :
       followup::outdatedBackups(namedSo(folder, owner), made.path.filename().string()))
    if (isOf(id, folder / name, book.madeAt()) && std::filesystem::remove(folder / name, unread))
      ++made.removed;
  return made;
}

} // namespace gk::session
