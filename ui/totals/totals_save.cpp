#include "reports/print/render.h"
#include "reports/term/chosen_tables.h"
#include "session/reporting/issues.h"
#include "ui/files/named_file.h"
#include "ui/files/save_report.h"
#include "ui/lists/report_browser.h"
#include "ui/support/text.h"
#include "ui/totals/totals_page.h"

#include <QComboBox>

// A report that goes out.
namespace gk::ui {

using reports::ReportKind;

namespace {

/// On the foot of what was not issued.
const QString draftWords = u"Draft: not noted as issued, so not to be handed out"_s;

} // namespace

/// The rows behind a number name children: they go alone, and only when they are looked at.
void TotalsPage::save(Going going) {
  auto tables = browser_->tables();
  if (isCounting()) Q_EMIT said(u"Still counting; nothing is saved yet."_s);
  if (tables.empty() || isCounting()) return;
  if (const auto idle = notApplied(); !idle.isEmpty()) reports::noteNotApplied(tables, toStd(idle));
  const auto current = tables.at(static_cast<std::size_t>(browser_->section()));
  if (behind_ && browser_->section() + 1 == static_cast<int>(tables.size()))
    return saveReport(context(), this,
                      {current.title,
                       term_->currentText(),
                       FileHolds::names,
                       {current},
                       current,
                       {},
                       std::string(reports::namesMark)},
                      [this](const base::Result<QString>& saved) {
                        if (went(saved)) Q_EMIT said(savedWords(*saved));
                      });
  if (behind_) tables.pop_back();
  if (kind() == ReportKind::state) return saveYear(going, std::move(tables));
  const auto options = this->options();
  if (!options) return;
  const auto& records = *counted_->records;
  auto choice = reports::choiceOf(kind(), records, *options);
  if (kind() == ReportKind::term && reports::choosesMoreThanSchool(this->choice()))
    choice = toStd(choiceWords());
  const auto issue =
      session::readyIssue(book(), records.id, std::string(base::nameOf(kind())), choice,
                          {tables_, release_, exposed_}, context().clock.now().date());
  if (!went(issue)) return;
  const bool goesOut = going == Going::out;
  const auto use = isForFunder() ? QString() : u", for use inside the program"_s;
  saveReport(
      context(), this,
      {reports::reportTitle(kind(), records, choice), term_->currentText(), FileHolds::noNames,
       std::move(tables), current, goesOut ? toQt(issue->words) : draftWords,
       std::string(reports::markOf(kind()))},
      [this, issue = *issue, use, goesOut](const base::Result<QString>& saved) {
        if (!went(saved)) return;
        if (!goesOut) {
          Q_EMIT said(u"Draft saved as %1. To hand it out, issue it (Alt+U)."_s.arg(*saved));
          return;
        }
        if (wentAfter(u"%1 is saved, but not recorded as issued. Do not hand it out."_s.arg(*saved),
                      book().enterIssue(context().acting.by(), issue.record)))
          Q_EMIT said(u"Issued: saved as %1%2. %3."_s.arg(*saved, use, toQt(issue.words)));
      });
}

void TotalsPage::saveYear(Going going, std::vector<reports::Table> tables) {
  if (!yearRead_) return;
  const auto& read = *yearRead_;
  const auto choice = reports::choiceOf(kind(), read.records, read.options);
  const auto issue =
      session::readyIssue(book(), read.first, std::string(base::nameOf(kind())), choice,
                          {tables_, release_, exposed_}, context().clock.now().date());
  if (!went(issue)) return;
  saveReport(
      context(), this,
      {reports::reportTitle(kind(), read.records, choice), toQt(choice), FileHolds::noNames,
       std::move(tables), reports::stateFigures(tables_, read.records.asOf, *read.options.year),
       going == Going::out ? toQt(issue->words) : draftWords},
      [this, issue = *issue, going](const base::Result<QString>& saved) {
        if (!went(saved)) return;
        if (going == Going::draft) {
          Q_EMIT said(u"Draft saved as %1. To hand it out, issue it (Alt+U)."_s.arg(*saved));
          return;
        }
        if (wentAfter(u"%1 is saved, but not recorded as issued. Do not hand it out."_s.arg(*saved),
                      book().enterIssue(context().acting.by(), issue.record)))
          Q_EMIT said(u"Saved as %1. %2."_s.arg(*saved, toQt(issue.words)));
      });
}

} // namespace gk::ui
