#include "ui/files/office_pack.h"

#include "reports/day/close_out_tables.h"
#include "reports/print/render.h"

#include <algorithm>
#include <iterator>

namespace gk::ui {

using reports::Table;

namespace {

std::vector<Table> only(const std::vector<Table>& tables, std::string_view title) {
  std::vector<Table> out;
  std::ranges::copy_if(tables, std::back_inserter(out),
                       [&](const Table& table) { return table.title == title; });
  base::require(!out.empty(), "the close-out has this part");
  return out;
}

} // namespace

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
      {"unfinished-teeth.pdf", pdf("Unfinished teeth", only(tables, "Unfinished teeth"))},
      {"referrals.pdf", pdf("Referrals", only(tables, "Referrals made today"))}};
  for (auto& [name, csv] : reports::toCsvFiles(tables))
    files.emplace_back(name, std::move(csv));
  for (const auto& [name, bytes] : files)
    if (const auto written = base::replaceFile(folder / name, bytes); !written)
      return written.error();
  return folder;
}

} // namespace gk::ui
