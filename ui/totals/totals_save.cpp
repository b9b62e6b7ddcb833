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
  auto current = tables.at(static_cast<std::size_t>(browser_->section()));
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
  // The state's report goes out with its own term, choice and file.
  const auto year = kind() == ReportKind::state ? yearRead_ : nullptr;
  if (kind() == ReportKind::state && !year) return;
  const auto options = year ? std::optional(year->options) : this->options();
  if (!options) return;
  const auto& records = year ? year->records : *counted_->records;
  auto choice = reports::choiceOf(kind(), records, *options);
  if (kind() == ReportKind::term && reports::choosesMoreThanSchool(this->choice()))
    choice = toStd(choiceWords());
  if (year) current = reports::stateFigures(tables_, records.asOf, *options->year);
  const auto issue = session::readyIssue(
      book(), year ? year->first : records.id, std::string(base::nameOf(kind())), choice,
      {tables_, release_, exposed_}, context().clock.now().date());
  if (!went(issue)) return;
  const bool goesOut = going == Going::out;
  const auto done = year            ? u"Saved as %1. %2."_s
                    : isForFunder() ? u"Issued: saved as %1. %2."_s
                                    : u"Issued: saved as %1, for use inside the program. %2."_s;
  saveReport(
      context(), this,
      {reports::reportTitle(kind(), records, choice), year ? toQt(choice) : term_->currentText(),
       FileHolds::noNames, std::move(tables), std::move(current),
       goesOut ? toQt(issue->words) : draftWords, std::string(reports::markOf(kind()))},
      [this, issue = *issue, done, goesOut](const base::Result<QString>& saved) {
        if (!went(saved)) return;
        if (!goesOut)
          return Q_EMIT said(u"Draft saved as %1. To hand it out, issue it (Alt+U)."_s.arg(*saved));
        if (wentAfter(u"%1 is saved, but not recorded as issued. Do not hand it out."_s.arg(*saved),
                      book().enterIssue(context().acting.by(), issue.record)))
          Q_EMIT said(done.arg(*saved, toQt(issue.words)));
      });
}

} // namespace gk::ui
