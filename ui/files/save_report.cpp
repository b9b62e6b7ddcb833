#include "ui/files/save_report.h"

#include "base/files.h"
#include "reports/print/render.h"
#include "ui/support/text.h"

#include <algorithm>
#include <array>

namespace gk::ui {

ReportFoot footOf(Context& context, const QString& about, const QString& version) {
  const auto program = context.session.program();
  return {program ? toQt(program->value.name) : QString(), about,
          toQt(context.clock.now().date().words()), version, context.acting.habits().paper};
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

std::string bytesOf(const ReportToSave& report, const QString& path, const ReportFoot& foot,
                    const base::Progress& progress) {
  progress.at(base::Stage::drawing);
  if (path.endsWith(u".csv"_s, Qt::CaseInsensitive))
    return reports::toCsv(report.current, toStd(report.version));
  if (path.endsWith(u".txt"_s, Qt::CaseInsensitive))
    return reports::toText(report.tables, toStd(report.version));
  if (path.endsWith(u".html"_s, Qt::CaseInsensitive))
    return reports::toHtml(report.title, report.tables, toStd(report.version));
  return reportPdf(report.title, report.tables, foot, progress).toStdString();
}

} // namespace

void saveReport(Context& context, QObject* owner, ReportToSave report,
                std::function<void(const base::Result<QString>&)> then) {
  auto path =
      context.prompter.saveFile(u"Save the report"_s, fileName(report.title) + u".pdf"_s,
                                u"Pages to print, all parts (*.pdf);;Web page, all parts (*.html);;"
                                "Text, all parts (*.txt);;Spreadsheet, this part (*.csv)"_s);
  if (!path) return;
  constexpr std::array known{".csv", ".txt", ".html", ".pdf"};
  if (std::ranges::none_of(known, [&](const char* ending) {
        return path->endsWith(QLatin1String(ending), Qt::CaseInsensitive);
      }))
    *path += u".pdf"_s;
  const auto foot = footOf(context, report.about, report.version);
  const auto write = [report = std::move(report), path = *path,
                      foot](const base::Progress& progress) -> base::Result<QString> {
    const auto bytes = bytesOf(report, path, foot, progress);
    if (progress.isStopped())
      return base::Error{base::ErrorCode::workCancelled, "no report was saved"};
    if (const auto written = base::replaceFile(toStd(path), bytes); !written)
      return written.error();
    return path;
  };
  context.work.run(LongKind::report, owner, write, std::move(then));
}

} // namespace gk::ui
