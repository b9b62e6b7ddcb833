#pragma once

#include "base/files.h"
#include "reports/day/close_out.h"
#include "ui/paper/report_sheets.h"

namespace gk::ui {

/// Writes what the office needs beside a backup at `backup`, into a new folder with its name and
/// "-papers": the close-out sheet as PDF, web page and CSV, and the unfinished teeth and the
/// referrals as PDFs of their own. Gives the folder. All of it names children. Fails as makeFolder
/// and replaceFile; what is written by then stays.
base::Result<base::Path> packForOffice(const base::Path& backup, const reports::CloseOut& sheet,
                                       const ReportFoot& foot);

} // namespace gk::ui
