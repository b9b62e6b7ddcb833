#include "ui/pages/office_pack.h"

#include "reports/day/close_out_tables.h"
#include "reports/print/render.h"

#include <algorithm>
#include <iterator>

namespace gk::ui {

using reports::Table;
using namespace reports::close_out;

base::Result<base::Path> packForOffice(const base::Path& backup, const reports::CloseOut& sheet,
                                       const ReportFoot& foot) {
  const auto folder = backup.parent_path() / (backup.stem().string() + "-papers");
  if (const auto made = base::makeFolder(folder); !made) return made.error();
  const auto tables = reports::closeOutTables(sheet);
  const auto what = sheet.school + ", " + sheet.date.words();
  const auto pdf = [&](const std::string& title, const std::vector<Table>& parts) {
    return reportPdf(title + ": " + what, parts, foot).toStdString();
  };
  std::vector<std::pair<std::string, std::string>> files{
      {"close-out.pdf", pdf("Close-out", tables)},
      {"close-out.html", reports::toHtml("Close-out: " + what, tables)},
      {"unfinished-teeth.pdf", pdf("Unfinished teeth", {tables.at(unfinishedTeeth)})},
      {"referrals.pdf", pdf("Referrals", {tables.at(referrals)})}};
  for (auto& [name, csv] : reports::toCsvFiles(tables))
    files.emplace_back(name, std::move(csv));
  for (const auto& [name, bytes] : files)
    if (const auto written = base::replaceFile(folder / name, bytes); !written)
      return written.error();
  return folder;
}

} // namespace gk::ui
