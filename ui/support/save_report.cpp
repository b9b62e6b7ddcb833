#include "ui/support/save_report.h"

#include "base/files.h"
#include "reports/render.h"
#include "ui/support/text.h"

namespace gk::ui {

namespace {

/// Letters and digits, the rest as dashes: fit for any file system.
QString fileName(const std::string& title) {
  QString name;
  for (const auto c : toQt(title).simplified())
    name += c.isLetterOrNumber() ? c : u'-';
  while (name.contains(u"--"_s))
    name.replace(u"--"_s, u"-"_s);
  return name;
}

} // namespace

base::Result<std::optional<QString>> saveReport(Prompter& prompter, const std::string& title,
                                                const std::vector<reports::Table>& tables,
                                                const reports::Table& current) {
  auto path = prompter.saveFile(
      u"Save the report"_s, fileName(title) + u".html"_s,
      u"Web page, all parts (*.html);;Text, all parts (*.txt);;Spreadsheet, this part (*.csv)"_s);
  if (!path) return std::optional<QString>{};
  std::string bytes;
  if (path->endsWith(u".csv"_s, Qt::CaseInsensitive)) {
    bytes = reports::toCsv(current);
  } else if (path->endsWith(u".txt"_s, Qt::CaseInsensitive)) {
    bytes = reports::toText(tables);
  } else {
    if (!path->endsWith(u".html"_s, Qt::CaseInsensitive)) *path += u".html"_s;
    bytes = reports::toHtml(title, tables);
  }
  if (const auto written = base::replaceFile(toStd(*path), bytes); !written) return written.error();
  return path;
}

} // namespace gk::ui
