#include "ui/files/office_pack.h"

#include "reports/day/close_out_tables.h"
#include "reports/print/render.h"
#include "reports/workbook/workbook.h"
#include "session/values/opened_papers.h"
#include "ui/support/text.h"

namespace gk::ui {

using reports::Table;
using namespace reports::close_out;

using namespace reports::close_out;

base::Result<base::Path> packForOffice(session::Snapshot& book, const base::Path& backup,
                                       const reports::CloseOut& sheet, const ReportFoot& foot) {
  const auto tables = reports::closeOutTables(sheet);
  const auto what = sheet.school + ", " + sheet.date.words();
  const auto pdf = [&](const std::string& title, const std::vector<Table>& parts) {
    return reportPdf(title + ": " + what, parts, foot).toStdString();
  };
  const auto workbook = reports::toWorkbook("Close-out: " + what, tables, {}, reports::namesMark);
  if (!workbook) return workbook.error();
  std::vector<session::Paper> papers{
      {"close-out.pdf", pdf("Close-out", tables)},
      {"close-out.html", reports::toHtml("Close-out: " + what, tables, {}, reports::namesMark)},
      {"close-out.xlsx", *workbook},
      {"unfinished-teeth.pdf", pdf("Unfinished teeth", {tables.at(unfinishedTeeth)})},
      {"referrals.pdf", pdf("Referrals", {tables.at(referrals)})}};
  for (auto& [name, csv] : reports::toCsvFiles(tables))
    papers.push_back({name, std::move(csv)});
  const auto sealed = book.sealPapers(papers);
  if (!sealed) return sealed.error();
  const auto file = backup.parent_path() / (backup.stem().string() + "-papers" + papersEnding);
  if (const auto written = base::replaceFile(file, *sealed); !written) return written.error();
  return file;
}

base::Result<std::optional<base::Path>> unpackPapers(Context& context) {
  const auto picked = context.prompter.openFile(
      u"Open sealed papers"_s, u"Sealed papers (*%1)"_s.arg(QLatin1String(papersEnding)));
  if (!picked) return std::optional<base::Path>();
  const base::Path file(toStd(*picked));
  const auto sealed = base::readFile(file);
  if (!sealed) return sealed.error();
  const auto papers = context.session.openPapers(*sealed);
  if (!papers) return papers.error();
  const auto into = context.prompter.folder(u"Where do the papers go?"_s, FileHolds::names);
  if (!into) return std::optional<base::Path>();
  auto folder = session::writeOut(*papers, base::Path(toStd(*into)) / file.stem());
  if (!folder) return folder.error();
  return std::optional(*std::move(folder));
}

} // namespace gk::ui
