#pragma once

#include "session/book/snapshot.h"

namespace gk::session {

/// What the archive of a closed year is called: "day-2026-27-archive.gkbook". `ruleDate` while the
/// year goes on, `ruleDayOpen` while a school day of it is not signed.
Result<std::string> archiveName(Reader& book, roster::YearId year, base::Date today);

/// A verified copy of all of the logbook that no one writes in by mistake: its file is read-only.
/// Never over another file. Fails as Snapshot::backUp. What is in the logbook stays in it.
Result<base::Done> writeArchive(Snapshot& book, const base::Path& target,
                                const base::Progress& progress);

} // namespace gk::session
