#include "reports/publish/published.h"
#include "reports/term/chosen_tables.h"
#include "reports/term/term_tables.h"
#include "reports/term/terms_report.h"
#include "session/reporting/terms_so_far.h"
#include "ui/lists/overview_view.h"
#include "ui/lists/report_browser.h"
#include "ui/support/text.h"
#include "ui/totals/totals_page.h"
#include "ui/widgets/what_if_panel.h"

#include <QCheckBox>
#include <QComboBox>
#include <QLabel>

// What is counted away from the window.
namespace gk::ui {

using reports::ReportKind;

void TotalsPage::countTerm(roster::TermId term) {
  ++termAsked_;
  ++reportAsked_; // of the term before
  state_->setText(u"Counting ..."_s);
  using Answer = base::Result<std::shared_ptr<const Counted>>;
  const auto count = [term, asOf = context().clock.now().date()](
                         session::Snapshot& book, const base::Progress& progress) -> Answer {
    progress.at(base::Stage::reading);
    auto read = book.termRecords(term, asOf);
    if (!read) return read.error();
    progress.at(base::Stage::counting);
    const auto records = std::make_shared<const reports::TermRecords>(std::move(*read));
    reports::CountedTerm counted(*records);
    if (progress.isStopped())
      return base::Error{base::ErrorCode::workCanceled, "the totals were not counted"};
    return std::make_shared<const Counted>(Counted{std::move(counted), records});
  };
  context().work.runOnCopy(LongKind::totals, this, book(), count,
                           answered(termAsked_, [this](Answer counted) {
                             if (!counted) return notCounted(counted.error());
                             counted_ = std::move(*counted);
                             fillFilters();
                             countReport();
                           }));
}

void TotalsPage::notCounted(const base::Error& why) {
  state_->setText(u"Not counted. Choose the term again to count it."_s);
  Q_EMIT failed(describe(why));
  showTables();
}

void TotalsPage::countReport() {
  whatIf_->setVisible(kind() == ReportKind::prevention);
  // What a report leaves out of account cannot be chosen in it.
  factor_->setEnabled(kind() == ReportKind::term);
  for (const auto& [by, box] : filters_)
    box->setEnabled(reports::partsBy(kind(), by));
  merge_->setVisible(isForFunder());
  year_->parentWidget()->setVisible(kind() == ReportKind::state);
  term_->setEnabled(kind() != ReportKind::state);
  showChips();
  behind_.reset();
  yearRead_.reset();
  if (!counted_) return;
  ++reportAsked_; // also where this one is at hand: what an earlier one brings is not shown over it
  state_->setText(
      u"As of %1. Found students only; small numbers are too few to judge an individual.%2"_s.arg(
          toQt(counted_->totals.asOf.words()), idleWords()));
  release_.reset();
  exposed_ = 0;
  if (kind() == ReportKind::term || kind() == ReportKind::prevention) {
    tables_ = kind() == ReportKind::prevention
                  ? reports::preventionReport(counted_->totals, whatIf_->whatIf())
                  : reports::termReport(*counted_->records, *counted_, termChoice());
    showTables();
    if (kind() == ReportKind::term) countTrend();
    return;
  }
  if (kind() == ReportKind::terms) return countTerms();
  if (kind() == ReportKind::state) return countYear();
  const auto options = this->options();
  tables_.clear();
  if (!options) return showTables();
  context().work.run(
      LongKind::report, this,
      [counted = counted_, what = kind(), options = *options, merges = merge_->isChecked()](
          const base::Progress& progress) -> base::Result<reports::Report> {
        progress.at(base::Stage::counting);
        auto chosen = options;
        if (merges) chosen.groups = reports::groupsIssued(chosen.earlier);
        if (merges && chosen.groups.empty())
          chosen.groups =
              reports::groupsToOffer(counted->totals, chosen.suppression, chosen.earlier);
        return reports::makeReport(what, *counted->records, chosen);
      },
      answered(reportAsked_, [this](base::Result<reports::Report> report) {
        if (!report) return notCounted(report.error());
        tables_ = std::move(report->tables);
        release_ = std::move(report->release);
        exposed_ = report->exposed;
        showTables();
      }));
}

void TotalsPage::countTerms() {
  tables_.clear();
  showTables();
  readTerms([this](const auto& terms) {
    if (!terms) return notCounted(terms.error());
    tables_ = reports::termsReport(*terms, reports::SideBySide::terms, termChoice().school);
    showTables();
  });
}

void TotalsPage::readTerms(
    std::function<void(const base::Result<std::vector<reports::TermTotals>>&)> then) {
  const auto count = [start = counted_->records->term.start, asOf = context().clock.now().date()](
                         session::Snapshot& book, const base::Progress& progress) {
    return session::termsSoFar(book, start, asOf, progress);
  };
  context().work.runOnCopy(LongKind::totals, this, book(), count,
                           answered(reportAsked_, std::move(then)));
}

void TotalsPage::turnPictures() {
  overview_->turn();
  countTrend();
}

void TotalsPage::countTrend() {
  if (!overview_->isTurned() || !counted_) return;
  overview_->showTrend({u"Counting earlier terms ..."_s, std::nullopt});
  readTerms([this, school = termChoice().school](const auto& terms) {
    if (!counted_ || school != termChoice().school) return;
    if (!terms) return overview_->showTrend({u"Earlier terms were not counted."_s, std::nullopt});
    overview_->showTrend(trendOf(*terms, school));
  });
}

/// Every term of the year, which is more than the page has at hand.
void TotalsPage::countYear() {
  tables_.clear();
  const auto place = year_->currentIndex();
  if (place < 0) {
    state_->setText(
        u"No year defined yet. Add one on Desk (F8), School, grant and fiscal years."_s);
    return showTables();
  }
  showTables();
  struct Made {
    std::shared_ptr<const session::YearRead> read;
    reports::Report report;
  };
  using Answer = base::Result<Made>;
  const auto count = [year = years_[static_cast<std::size_t>(place)].value,
                      asOf = context().clock.now().date()](
                         session::Snapshot& book, const base::Progress& progress) -> Answer {
    auto read = session::readYear(book, year, asOf, progress);
    if (!read) return read.error();
    const auto kept = std::make_shared<const session::YearRead>(*std::move(read));
    return Made{kept, reports::makeReport(ReportKind::state, kept->records, kept->options)};
  };
  context().work.runOnCopy(
      LongKind::totals, this, book(), count, answered(reportAsked_, [this](Answer made) {
        if (!made) return notCounted(made.error());
        yearRead_ = std::move(made->read);
        state_->setText(
            u"%1, counted through %2. Each student once; small numbers are suppressed.%3"_s.arg(
                toQt(roster::wordsOf(yearRead_->year)), toQt(yearRead_->records.asOf.words()),
                idleWords()));
        tables_ = std::move(made->report.tables);
        release_ = std::move(made->report.release);
        exposed_ = made->report.exposed;
        showTables();
      }));
}

} // namespace gk::ui
