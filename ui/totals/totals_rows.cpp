#include "ui/totals/totals_page.h"

#include "base/text/text.h"
#include "reports/print/render.h"
#include "reports/quality/trace.h"
#include "reports/services/referral_report.h"
#include "reports/term/rows_behind.h"
#include "session/book/snapshot.h"
#include "session/reporting/recall.h"
#include "ui/close_out/close_out_entries.h"
#include "ui/files/save_report.h"
#include "ui/lists/report_browser.h"
#include "ui/support/text.h"

#include <QComboBox>

#include <algorithm>

// From a number to the rows behind it.
namespace gk::ui {

using reports::Factor;
using reports::ReportKind;

namespace {

/// Of a row of sealants by a factor, as reports::labelCell names it.
int codeOf(const reports::Named& row) {
  return static_cast<int>(*base::parseInt(row.id));
}

} // namespace

/// Only the rows behind a number name children; nothing is counted again for that.
void TotalsPage::letGo() {
  behind_.reset();
  browser_->setReports({}, {});
}

/// From the list of lots or of lights to the teeth of one.
void TotalsPage::trace(int section, int row) {
  const auto& tables = browser_->tables();
  if (section > 1 || !counted_) return;
  const auto& cells =
      tables.at(static_cast<std::size_t>(section)).rows.at(static_cast<std::size_t>(row));
  // Makers' numbers may meet: the material is in the row.
  const auto found = section == 0
                         ? reports::traceLot(*counted_->records, cells[0].text(), cells[1].text())
                         : reports::traceLight(*counted_->records, cells[0].text());
  if (found) showBehind(found->front());
}

void TotalsPage::recall() {
  const int section = browser_->section();
  const int row = browser_->row();
  if (!counted_ || kind() != ReportKind::trace || section < 0 || section > 1 || row < 0)
    return Q_EMIT said(u"Select a lot or a light first."_s);
  const auto& cells = browser_->tables()
                          .at(static_cast<std::size_t>(section))
                          .rows.at(static_cast<std::size_t>(row));
  const auto what = section == 0
                        ? reports::Recalled{.lot = cells[0].text(), .material = cells[1].text()}
                        : reports::Recalled{.light = cells[0].text()};
  makeNamed([counted = counted_, what](session::Snapshot& book) {
    return session::recallList(book, *counted->records, what);
  });
}

bool TotalsPage::isAtDetails() const {
  return behind_ && browser_->section() + 1 == static_cast<int>(browser_->tables().size());
}

void TotalsPage::printList() {
  if (!isAtDetails()) return;
  printReport(
      context(), this, LongKind::letters, {*behind_},
      footOf(context(), term_->currentText(), {}, std::string(reports::namesMark)),
      [this](const base::Result<base::Done>& done) {
        if (!went(done)) return;
        const auto day = book().openDayNow();
        const bool isCounted =
            day &&
            wentAfter(u"The list is printed, but not counted out: count it at the close-out."_s,
                      book().countOut(context().acting.by(), day->id, followup::Paper::other, 1));
        Q_EMIT said(isCounted ? u"Printed and counted out with the day's other lists."_s
                              : u"Printed. It names students: shred it when it is done with."_s);
      });
}

/// From the tracker to what became of one referral.
void TotalsPage::followUp(int section, int row) {
  if (section != 1 || !counted_) return;
  const auto& cells = browser_->tables().at(1).rows.at(static_cast<std::size_t>(row));
  const auto& records = *counted_->records;
  const auto ids = reports::trackedReferrals(records, context().clock.now().date());
  if (static_cast<std::size_t>(row) >= ids.size()) return;
  const auto made = std::ranges::find(records.referrals, ids[static_cast<std::size_t>(row)],
                                      [](const auto& one) { return one.id; });
  if (made == records.referrals.end()) return;
  const auto noted = followReferral(context(), *made, toQt(cells.at(0).text()));
  if (went(noted) && *noted) Q_EMIT said(u"Referral updated."_s);
}

void TotalsPage::takeCell(int section, int row, int column) {
  if (kind() == ReportKind::trace) return trace(section, row);
  if (kind() == ReportKind::followUp) return followUp(section, row);
  if (kind() != ReportKind::term || !counted_) return;
  const auto& table = browser_->tables().at(static_cast<std::size_t>(section));
  const auto& asked = table.columns.at(static_cast<std::size_t>(column));
  const auto* name = table.rows.at(static_cast<std::size_t>(row)).front().as<reports::Named>();
  if (!name) return;
  const auto title = (column == 0 ? "Placed" : asked.heading) + ": " + name->shown;
  const bool isFactor = keyOf(table) == reports::byFactor;
  if (const auto* count = std::get_if<reports::SealantCount>(&asked.counted)) {
    auto chosen = choice();
    if (!name->id.empty())
      chosen.of(isFactor ? factor() : Factor::school) =
          static_cast<reports::FactorCode>(codeOf(*name));
    return showNamed([counted = counted_, chosen, count = *count, title](const auto& names) {
      return reports::sealantsBehind(*counted->records, names, counted->facts, chosen, count,
                                     title);
    });
  }
  if (const auto* count = std::get_if<reports::ChildCount>(&asked.counted)) {
    // The total of a school's term is that school's.
    auto school = termChoice().school;
    const auto& all = counted_->records->schools;
    const auto named =
        std::ranges::find(all, name->id, [](const auto& one) { return one.id.text(); });
    if (named != all.end()) school = named->id;
    return showNamed([counted = counted_, count = *count, school, title](const auto& names) {
      return reports::childrenBehind(*counted->records, names, count, school, title);
    });
  }
  if (keyOf(table) != "retention") return;
  auto* schools = filters_.front().second;
  schools->setCurrentIndex(name->id.empty() ? 0 : std::max(schools->findData(codeOf(*name)), 0));
  countReport();
  browser_->choose(static_cast<int>(tables_.size()) - 1);
  factor_->setFocus();
}

void TotalsPage::showNamed(std::function<reports::Table(const reports::Names&)> make) {
  makeNamed([make = std::move(make)](session::Snapshot& book) -> base::Result<reports::Table> {
    const auto names = book.names();
    if (!names) return names.error();
    return make(*names);
  });
}

void TotalsPage::makeNamed(std::function<base::Result<reports::Table>(session::Snapshot&)> make) {
  context().work.runOnCopy(
      LongKind::report, this, book(),
      [make = std::move(make)](session::Snapshot& book, const base::Progress& progress) {
        progress.at(base::Stage::reading);
        return make(book);
      },
      answered(reportAsked_, [this](base::Result<reports::Table> rows) {
        if (went(rows)) showBehind(std::move(*rows));
      }));
}

void TotalsPage::showBehind(reports::Table rows) {
  behind_ = std::move(rows);
  showTables();
  browser_->choose(static_cast<int>(browser_->tables().size()) - 1);
}

} // namespace gk::ui
