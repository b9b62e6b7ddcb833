#pragma once

#include "base/time/date.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace gk::followup {

/// Whose backups are kept in a folder that other books, laptops and people use too.
struct BackupOwner {
  std::string book;   ///< the logbook's file name without its ending
  std::string laptop; ///< the last letters of its identity, as the close-out has them
};

/// "larkmere-backup-2026-11-17-3f2a.gkbook"; with "-2" and so on for the second of a day.
std::string backupFileName(const BackupOwner& owner, base::Date on);

struct BackupFile {
  std::string name;
  base::Date on;
  int number = 1; ///< of those of that day
  bool operator==(const BackupFile&) const = default;
};

/// What the name says; empty for a name that this program did not give to this owner's backups.
std::optional<BackupFile> parseBackupName(std::string_view name, const BackupOwner& owner);

/// Of backups of one owner, those that may go now that `written` is there and whole: kept are the
/// last of each of the newest `days` days that have one, and the last of each month. `written` is
/// never among them, and without it nothing goes.
std::vector<std::string> outdatedBackups(std::vector<BackupFile> ours, std::string_view written,
                                         int days = 10);

} // namespace gk::followup
