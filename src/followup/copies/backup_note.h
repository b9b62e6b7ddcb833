#pragma once

#include "base/identity/entry.h"

#include <string>

namespace gk::followup {

using BackupNoteId = base::Id<struct BackupNoteTag>;

/// That a copy of the logbook was written and read back whole, on whichever laptop's stamp it has.
struct BackupNote {
  using Key = BackupNoteId;
  base::DayId day;
  std::string file;      ///< its name, without the folder
  bool sameDisk = false; ///< it lies on the disk of the logbook itself, and so is lost with it
  std::string papers{};  ///< the name of the sealed papers beside it; empty when there are none
  bool operator==(const BackupNote&) const = default;
};

} // namespace gk::followup
