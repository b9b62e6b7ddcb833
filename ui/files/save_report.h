#pragma once

#include "base/result.h"
#include "ui/asking/context.h"
#include "ui/paper/report_sheets.h"

#include <functional>

namespace gk::ui {

/// A report as it is on the screen.
struct ReportToSave {
  std::string title;
  QString about;   ///< the term or the day, for the foot of each sheet
  FileHolds holds; ///< whether it names students; then it may be sealed
  std::vector<reports::Table> tables;
  reports::Table current; ///< the part that is looked at
  QString version{};      ///< empty: none is kept of this report
  std::string mark{};     ///< on every page: who may read it
};

/// What the foot says of whose report it is and when it was printed.
ReportFoot footOf(Context& context, const QString& about, const QString& version = {},
                  const std::string& mark = {});

/// Letters and digits, the rest as dashes: fit for any file system.
QString fileName(const std::string& title);

/// Asks where, and writes it whole or not at all: pages to print, a web page, a workbook or plain
/// text with every table, or the current one alone as CSV, by the ending of the name. The writing
/// is long work of `owner`, whose `then` is given the path; it is not called when backed out. Fails
/// as replaceFile. What names students goes by saveNamed.
void saveReport(Context& context, QObject* owner, ReportToSave report,
                std::function<void(const base::Result<QString>&)> then);

/// Asks for a printer and prints the tables, as long work of `owner`, whose `then` is not called
/// when backed out. Precondition: a table.
void printReport(Context& context, QObject* owner, LongKind kind,
                 const std::vector<reports::Table>& tables, const ReportFoot& foot,
                 std::function<void(const base::Result<base::Done>&)> then);

} // namespace gk::ui
