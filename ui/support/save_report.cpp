#include "ui/support/save_report.h"

#include "base/files.h"
#include "reports/render.h"
#include "ui/support/text.h"

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

base::Result<std::optional<QString>> saveReport(Context& context, const ReportToSave& report) {
  auto path =
      context.prompter.saveFile(u"Save the report"_s, fileName(report.title) + u".pdf"_s,
                                u"Pages to print, all parts (*.pdf);;Web page, all parts (*.html);;"
                                "Text, all parts (*.txt);;Spreadsheet, this part (*.csv)"_s);
  if (!path) return std::optional<QString>{};
  std::string bytes;
  if (path->endsWith(u".csv"_s, Qt::CaseInsensitive)) {
    bytes = reports::toCsv(report.current, toStd(report.version));
  } else if (path->endsWith(u".txt"_s, Qt::CaseInsensitive)) {
    bytes = reports::toText(report.tables, toStd(report.version));
  } else if (path->endsWith(u".html"_s, Qt::CaseInsensitive)) {
    bytes = reports::toHtml(report.title, report.tables, toStd(report.version));
  } else {
    if (!path->endsWith(u".pdf"_s, Qt::CaseInsensitive)) *path += u".pdf"_s;
    bytes = reportPdf(report.title, report.tables, footOf(context, report.about, report.version))
                .toStdString();
  }
  if (const auto written = base::replaceFile(toStd(*path), bytes); !written) return written.error();
  return path;
}

} // namespace gk::ui
