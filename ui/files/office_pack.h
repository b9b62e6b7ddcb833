#pragma once

#include "base/files/files.h"
#include "reports/day/close_out.h"
#include "session/book/snapshot.h"
#include "ui/asking/context.h"
#include "ui/paper/report_sheets.h"

namespace gk::ui {

/// The ending of a file of sealed papers.
inline constexpr const char* papersEnding = ".gkpapers";

/// Writes what the office needs beside a backup at `backup`, as one sealed file with its name and
/// "-papers": the close-out sheet as PDF, web page and CSV, and the unfinished teeth and the
/// referrals as PDFs of their own. Gives the file. All of it names children, so it opens with the
/// logbook or that backup alone. Fails as Snapshot::sealPapers and replaceFile.
base::Result<base::Path> packForOffice(session::Snapshot& book, const base::Path& backup,
                                       const reports::CloseOut& sheet, const ReportFoot& foot);

/// Asks for a file of sealed papers and where they go, and writes them there, in a new folder with
/// its name. Empty when the person backed out. Fails as Session::openPapers, makeFolder and
/// replaceFile.
base::Result<std::optional<base::Path>> unpackPapers(Context& context);

} // namespace gk::ui
