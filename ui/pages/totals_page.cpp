#include "ui/pages/totals_page.h"

#include "reports/term_tables.h"
#include "reports/term_totals.h"
#include "ui/support/background.h"
#include "ui/support/save_report.h"
#include "ui/support/text.h"
#include "ui/widgets/key_button.h"
#include "ui/widgets/report_browser.h"

#include <QComboBox>
#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>

#include <algorithm>

namespace gk::ui {

namespace {

/// Of reports::termTables, and the one that this page adds at the end.
const QStringList sections{u"Participation"_s,       u"Services"_s,           u"Findings"_s,
                           u"Retention by school"_s, u"Health, not judged"_s, u"Decay spared"_s,
                           u"Retention by factor"_s};
constexpr int retentionBySchool = 3;
constexpr int retentionByFactor = 6;

QString factorWords(reports::Factor factor) {
  switch (factor) {
  case reports::Factor::school:
    return u"School"_s;
  case reports::Factor::light:
    return u"Light"_s;
  case reports::Factor::arch:
    return u"Upper or lower"_s;
  case reports::Factor::tooth:
    return u"Tooth"_s;
  case reports::Factor::isolation:
    return u"Isolation"_s;
  case reports::Factor::delivery:
    return u"Two or four hands"_s;
  case reports::Factor::placedBy:
    return u"Operator, from 30 teeth on"_s;
  case reports::Factor::lot:
    return u"Sealant lot"_s;
  case reports::Factor::pair:
    return u"Operator and assistant, from 30 teeth on"_s;
  case reports::Factor::wet:
    return u"Contamination"_s;
  case reports::Factor::holding:
    return u"Who held cheek and tongue"_s;
  case reports::Factor::guards:
    return u"Dry field guards"_s;
  case reports::Factor::grade:
    return u"Grade now"_s;
  }
  return {};
}

QComboBox* chooser(QHBoxLayout* into, const QString& words, const QString& name, QWidget* page) {
  auto* label = new QLabel(words, page);
  auto* box = new QComboBox(page);
  box->setObjectName(name);
  box->setAccessibleName(QString(words).remove(u'&'));
  box->setSizeAdjustPolicy(QComboBox::AdjustToContents);
  label->setBuddy(box);
  into->addWidget(label);
  into->addWidget(box);
  return box;
}

} // namespace

TotalsPage::TotalsPage(Context& context, QWidget* parent)
    : Page(context, parent), state_(wordsLabel({}, u"note"_s, u"totalsState"_s, this)),
      browser_(new ReportBrowser(this)) {
  setObjectName(u"totalsPage"_s);
  auto* choices = new QHBoxLayout;
  term_ = chooser(choices, u"Term Alt+&M"_s, u"totalsTerm"_s, this);
  school_ = chooser(choices, u"School Alt+&K"_s, u"totalsSchool"_s, this);
  factor_ = chooser(choices, u"Retention by Alt+&F"_s, u"totalsFactor"_s, this);
  // By school without choosing one is a table of its own.
  for (std::size_t i = 1; i < base::enumCount<reports::Factor>; ++i)
    factor_->addItem(factorWords(static_cast<reports::Factor>(i)), static_cast<int>(i));
  auto* save = keyButton(u"Save"_s, QKeySequence(Qt::ALT | Qt::Key_S), u"totalsSave"_s, this);
  choices->addStretch(1);
  choices->addWidget(save);
  auto* column = new QVBoxLayout(this);
  column->addLayout(choices);
  column->addWidget(state_);
  column->addWidget(browser_, 1);
  setFocusProxy(browser_);
  connect(term_, &QComboBox::activated, this, &TotalsPage::readTerm);
  for (auto* box : {school_, factor_})
    connect(box, &QComboBox::activated, this, [this] {
      countFactor();
      browser_->choose(retentionByFactor);
    });
  connect(save, &QPushButton::clicked, this, &TotalsPage::save);
  connect(browser_, &ReportBrowser::taken, this, &TotalsPage::takeRow);
}

void TotalsPage::refresh() {
  showTerms();
  showSchools();
  readTerm();
}

void TotalsPage::showTerms() {
  const auto terms = book().terms();
  if (!went(terms)) return;
  const auto kept = term_->currentText();
  terms_ = *terms;
  std::ranges::stable_sort(terms_, std::greater(), [](const auto& one) { return one.value.start; });
  term_->clear();
  for (const auto& term : terms_)
    term_->addItem(toQt(term.value.name));
  if (const auto at = term_->findText(kept); at >= 0) term_->setCurrentIndex(at);
}

void TotalsPage::showSchools() {
  const auto schools = book().schools();
  if (!went(schools)) return;
  const auto kept = school_->currentText();
  schools_ = *schools;
  std::ranges::stable_sort(schools_, {}, [](const auto& one) { return one.value.name; });
  school_->clear();
  school_->addItem(u"All schools"_s);
  for (const auto& school : schools_)
    school_->addItem(toQt(school.value.name));
  if (const auto at = school_->findText(kept); at >= 0) school_->setCurrentIndex(at);
}

void TotalsPage::readTerm() {
  records_.reset();
  totals_.clear();
  byFactor_.reset();
  const auto place = term_->currentIndex();
  if (place < 0) {
    state_->setText(u"There is no term in this logbook yet."_s);
    return showTables();
  }
  auto records =
      book().termRecords(terms_[static_cast<std::size_t>(place)].id, context().clock.now().date());
  if (!went(records)) return;
  records_ = std::make_shared<const reports::TermRecords>(std::move(*records));
  count();
  countFactor();
}

void TotalsPage::count() {
  ++counting_;
  state_->setText(u"Counting ..."_s);
  inBackground(
      this, [records = records_] { return reports::termTables(reports::termTotals(*records)); },
      [this, records = records_](std::vector<reports::Table> tables) {
        --counting_;
        if (records != records_) return;
        totals_ = std::move(tables);
        state_->setText(
            u"As of %1. Found children only; small numbers do not judge a person."_s.arg(
                toQt(records->asOf.words())));
        showTables();
      });
}

void TotalsPage::countFactor() {
  if (!records_) return;
  ++counting_;
  const auto question = ++asked_;
  const auto at = school();
  const auto by = factor();
  const auto title = "Retention by " + std::string(base::nameOf(by)) + ", placed at " +
                     (at ? at->value.name : "all schools");
  inBackground(
      this,
      [records = records_, by, title, at] {
        const reports::RetentionFacts facts(*records);
        reports::Choice choice;
        if (at) choice.of(reports::Factor::school) = facts.codeOf(at->id);
        return reports::retentionTable(title, reports::retentionBy(facts, by, choice));
      },
      [this, question](reports::Table table) {
        --counting_;
        if (question != asked_) return;
        byFactor_ = std::move(table);
        showTables();
      });
}

void TotalsPage::showTables() {
  if (totals_.empty() || !byFactor_) {
    if (!isCounting()) browser_->setReports({}, {});
    return;
  }
  auto tables = totals_;
  tables.push_back(*byFactor_);
  browser_->setReports(sections, std::move(tables));
}

void TotalsPage::takeRow(int section, int row) {
  if (section != retentionBySchool) return;
  const auto name = browser_->tables().at(retentionBySchool).rows.at(static_cast<std::size_t>(row));
  school_->setCurrentIndex(std::max(school_->findText(toQt(name.front())), 0));
  countFactor();
  browser_->choose(retentionByFactor);
  factor_->setFocus();
}

reports::Factor TotalsPage::factor() const {
  return static_cast<reports::Factor>(factor_->currentData().toInt());
}

std::optional<base::Recorded<roster::School>> TotalsPage::school() const {
  const auto place = school_->currentIndex();
  if (place <= 0) return std::nullopt;
  return schools_[static_cast<std::size_t>(place - 1)];
}

void TotalsPage::save() {
  const auto& tables = browser_->tables();
  if (tables.empty()) return;
  const auto saved = saveReport(context().prompter, "Totals " + toStd(term_->currentText()), tables,
                                tables.at(static_cast<std::size_t>(browser_->section())));
  if (went(saved) && *saved)
    Q_EMIT said(u"Saved as %1, for use inside the program."_s.arg(**saved));
}

} // namespace gk::ui
