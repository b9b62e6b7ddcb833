#include "base/files/files.h"
#include "base/text/text.h"
#include "reports/sheets/icalendar.h"
#include "ui/files/save_report.h"
#include "ui/planning/calendar_page.h"
#include "ui/support/text.h"

#include <QComboBox>

// Planned days on paper, and for another program's calendar.
namespace gk::ui {

namespace {

/// Grows with each change, as RFC 5545 section 3.8.7.4 asks; minutes since 2020, so that laptops
/// which changed it apart agree on which is later.
int changesOf(const base::Stamp& stamp) {
  if (!stamp.supersedes) return 0;
  constexpr std::int64_t minutesTo2020 = 26'297'280;
  return static_cast<int>(std::chrono::floor<std::chrono::minutes>(stamp.at.at.utc).count() -
                          minutesTo2020);
}

/// What the day may bring and what to pack, where it is still ahead.
std::string aheadWords(const reports::PlannedLine& line) {
  if (!line.children) return {};
  return "\n" + base::counted(*line.children, "student", "students") +
         " expected. To pack: " + line.supplies + ".";
}

} // namespace

void CalendarPage::print() {
  if (days_.rows.empty()) return Q_EMIT said(u"There is nothing to print."_s);
  std::vector<reports::Table> tables{days_};
  if (!packing_.rows.empty()) tables.push_back(packing_);
  printReport(context(), this, LongKind::report, tables, footOf(context(), term_->currentText()),
              [this](const base::Result<base::Done>& done) {
                if (went(done)) Q_EMIT said(u"Printed."_s);
              });
}

void CalendarPage::exportDays() {
  if (plans_.empty()) return Q_EMIT said(u"There is nothing to export."_s);
  auto path = context().prompter.saveFile(u"Export planned days. No student is named."_s,
                                          fileName(days_.title) + u".ics"_s, u"Calendar (*.ics)"_s,
                                          FileHolds::noNames);
  if (!path) return;
  if (!path->endsWith(u".ics"_s, Qt::CaseInsensitive)) *path += u".ics"_s;
  std::vector<reports::CalendarDay> days;
  for (const auto& plan : plans_) {
    const auto line = lineOf(plan);
    if (!line) return;
    days.push_back({.uid = plan.id.uuid().text(),
                    .day = line->day,
                    .summary = "Sealants: " + line->school,
                    .location = line->school,
                    .description = "Team " + std::to_string(line->team) + ", " +
                                   base::counted(line->chairs, "chair", "chairs") + ". " +
                                   line->people + aheadWords(*line) +
                                   (line->note.empty() ? "" : "\n" + line->note),
                    .canceled = line->canceled,
                    .sequence = changesOf(plan.stamp)});
  }
  const auto bytes = reports::icalendar(days, context().clock.now().at);
  if (went(base::replaceFile(toStd(*path), bytes))) Q_EMIT said(u"Exported: "_s + *path);
}

} // namespace gk::ui
