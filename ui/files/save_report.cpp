#include "ui/files/save_report.h"

#include "base/files/files.h"
#include "reports/print/render.h"
#include "reports/workbook/workbook.h"
#include "ui/files/named_file.h"
#include "ui/support/text.h"

#include <QPagedPaintDevice>

#include <algorithm>

namespace gk::ui {

ReportFoot footOf(Context& context, const QString& about, const QString& version,
                  const std::string& mark) {
  const auto program = context.session.program();
  return {program ? toQt(program->value.name) : QString(),
          about,
          toQt(context.clock.now().date().words()),
          version,
          context.acting.habits().paper,
          toQt(mark)};
}

QString fileName(const std::string& title) {
  QString name;
  for (const auto c : toQt(title).simplified())
    name += c.isLetterOrNumber() ? c : u'-';
  while (name.contains(u"--"_s))
    name.replace(u"--"_s, u"-"_s);
  return name;
}

namespace {

base::Result<std::string> bytesOf(const ReportToSave& report, const QString& ending,
                                  const ReportFoot& foot, const base::Progress& progress) {
  progress.at(base::Stage::drawing);
  if (ending == u".csv"_s) return reports::toCsv(report.current, toStd(report.version));
  if (ending == u".txt"_s)
    return reports::toText(report.tables, toStd(report.version), report.mark);
  if (ending == u".html"_s)
    return reports::toHtml(report.title, report.tables, toStd(report.version), report.mark);
  if (ending == u".xlsx"_s)
    return reports::toWorkbook(report.title, report.tables, toStd(report.version), report.mark);
  return reportPdf(report.title, report.tables, foot, progress).toStdString();
}

} // namespace

void saveReport(Context& context, QObject* owner, ReportToSave report,
                std::function<void(const base::Result<QString>&)> then) {
  const auto title = u"Save the report"_s;
  const auto name = fileName(report.title);
  const auto filter =
      u"Pages to print, all parts (*.pdf);;Web page, all parts (*.html);;"
      "Workbook, all parts (*.xlsx);;Text, all parts (*.txt);;Spreadsheet, this part (*.csv)"_s;
  const QStringList endings{u".pdf"_s, u".html"_s, u".xlsx"_s, u".txt"_s, u".csv"_s};
  const auto foot = footOf(context, report.about, report.version, report.mark);
  if (report.holds != FileHolds::noNames) {
    saveNamed(
        context, LongKind::report, owner,
        {.name = name,
         .filter = filter,
         .title = title,
         .plain = endings,
         .sealed = {u".pdf"_s, u".csv"_s}},
        [report = std::move(report), foot](const QString& ending, const base::Progress& progress) {
          return bytesOf(report, ending, foot, progress);
        },
        std::move(then));
    return;
  }
  auto path = context.prompter.saveFile(title, name + endings.front(), filter, FileHolds::noNames);
  if (!path) return;
  auto ending = std::ranges::find_if(
      endings, [&](const QString& one) { return path->endsWith(one, Qt::CaseInsensitive); });
  if (ending == endings.end()) {
    ending = endings.begin();
    *path += *ending;
  }
  const auto write = [report = std::move(report), path = *path, ending = *ending,
                      foot](const base::Progress& progress) -> base::Result<QString> {
    const auto bytes = bytesOf(report, ending, foot, progress);
    if (progress.isStopped())
      return base::Error{base::ErrorCode::workCanceled, "no report was saved"};
    if (!bytes) return bytes.error();
    if (const auto written = base::replaceFile(toStd(path), *bytes); !written)
      return written.error();
    return path;
  };
  context.work.run(LongKind::report, owner, write, std::move(then));
}

void printReport(Context& context, QObject* owner, LongKind kind,
                 const std::vector<reports::Table>& tables, const ReportFoot& foot,
                 std::function<void(const base::Result<base::Done>&)> then) {
  const auto printer = context.prompter.printer();
  if (!printer) return;
  const auto draw = [printer, tables,
                     foot](const base::Progress& progress) -> base::Result<base::Done> {
    ReportSheets(tables.front().title, tables, foot).print(*printer, progress);
    return base::Done{};
  };
  context.work.run(kind, owner, draw, std::move(then));
}

} // namespace gk::ui
