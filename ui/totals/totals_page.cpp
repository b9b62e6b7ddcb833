#include "ui/totals/totals_page.h"

#include "reports/display_names.h"
#include "reports/print/said_choice.h"
#include "reports/publish/published.h"
#include "reports/term/chosen_tables.h"
#include "reports/term/term_tables.h"
#include "session/reporting/issues.h"
#include "ui/keys/cap_label.h"
#include "ui/keys/flow_layout.h"
#include "ui/keys/key_button.h"
#include "ui/keys/page_head.h"
#include "ui/lists/overview_view.h"
#include "ui/lists/report_browser.h"
#include "ui/look/choice_box.h"
#include "ui/models/factor_names.h"
#include "ui/models/overview.h"
#include "ui/support/text.h"
#include "ui/totals/filter_chips.h"
#include "ui/widgets/what_if_panel.h"

#include <QCheckBox>
#include <QComboBox>
#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QRegularExpression>
#include <QShortcut>
#include <QVBoxLayout>

#include <algorithm>
#include <map>

namespace gk::ui {

using reports::Factor;
using reports::ReportKind;

namespace {

/// Short, for the list of parts.
QString sectionName(const reports::Table& table) {
  static const std::map<std::string, QString> words{{"retention", u"Retention by school"_s},
                                                    {"checked_sealants", u"Not assessable, why"_s},
                                                    {"cavities_averted", u"Cavities averted"_s},
                                                    {reports::byFactor, u"Retention by factor"_s}};
  const auto known = words.find(keyOf(table));
  return known != words.end() ? known->second
                              : toQt(table.title).section(QRegularExpression(u"[:,]"_s), 0, 0);
}

QComboBox* chooser(QLayout* into, const QString& words, const QString& name, QWidget* page) {
  auto* pair = new QWidget(page); // so that a row never ends between the words and their box
  auto* row = new QHBoxLayout(pair);
  row->setContentsMargins(0, 0, 0, 0);
  auto* label = new CapLabel(words, pair);
  auto* box = new ChoiceBox(pair);
  box->setObjectName(name);
  box->setAccessibleName(QString(words).remove(u'&'));
  label->setBuddy(box);
  row->addWidget(label);
  row->addWidget(box);
  into->addWidget(pair);
  return box;
}

} // namespace

TotalsPage::TotalsPage(Context& context, QWidget* parent)
    : Page(context, parent), state_(wordsLabel({}, u"note"_s, u"totalsState"_s, this)) {
  setObjectName(u"totalsPage"_s);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(18, 4, 18, 0);
  column->setSpacing(10);
  column->addWidget(new PageHead(wordsLabel(u"Totals"_s, u"title"_s, {}, this), state_, this));
  buildChoices(column);
  // Made after the choices, Tab comes to them after those.
  whatIf_ = new WhatIfPanel(this);
  browser_ = new ReportBrowser(this);
  overview_ = new OverviewView(this);
  browser_->setFront(overview_, u"Overview"_s);
  column->addWidget(whatIf_);
  column->addWidget(browser_, 1);
  connect(browser_, &ReportBrowser::shown, this, &TotalsPage::showOverview);
  whatIf_->hide();
  setFocusProxy(browser_);
  connect(browser_, &ReportBrowser::taken, this, &TotalsPage::takeCell);
  connect(whatIf_, &WhatIfPanel::changed, this, [this] {
    if (!counted_) return;
    tables_ = reports::preventionReport(counted_->totals, whatIf_->whatIf());
    showTables();
  });
}

void TotalsPage::showOverview() {
  const bool isWanted = counted_ && browser_->isAtFront();
  if (isWanted) overview_->show(overviewOf(counted_->of(termChoice().school, *counted_->records)));
  turn_->setVisible(isWanted);
  recall_->setVisible(kind() == ReportKind::trace);
  print_->setVisible(isAtDetails());
}

void TotalsPage::buildChoices(QVBoxLayout* into) {
  auto* choices = new FlowLayout(6);
  into->addLayout(choices);
  term_ = chooser(choices, u"Term Alt+&M"_s, u"totalsTerm"_s, this);
  kind_ = chooser(choices, u"Report Alt+&R"_s, u"totalsKind"_s, this);
  for (std::size_t i = 0; i < base::enumCount<ReportKind>; ++i)
    kind_->addItem(capital(toQt(base::displayName(static_cast<ReportKind>(i)))));
  for (const auto& [by, words, name] :
       {std::tuple{Factor::school, u"School Alt+&K"_s, u"totalsSchool"_s},
        std::tuple{Factor::grade, u"Grade Alt+&G"_s, u"totalsGrade"_s},
        std::tuple{Factor::isolation, u"Isolation Alt+&I"_s, u"totalsIsolation"_s},
        std::tuple{Factor::placedBy, u"Operator Alt+&O"_s, u"totalsOperator"_s}})
    filters_.emplace_back(by, chooser(choices, words, name, this));
  factor_ = chooser(choices, u"Retention by Alt+&F"_s, u"totalsFactor"_s, this);
  // By school without choosing one is a table of its own.
  for (std::size_t i = 1; i < base::enumCount<Factor>; ++i)
    factor_->addItem(factorWords(static_cast<Factor>(i)), static_cast<int>(i));
  year_ = chooser(choices, u"Year Alt+&Y"_s, u"totalsYear"_s, this);
  merge_ = new QCheckBox(u"Combine small schools  Alt+E"_s, this);
  merge_->setObjectName(u"totalsMerge"_s);
  choices->addWidget(merge_);
  merge_->hide();
  connect(merge_, &QCheckBox::toggled, this, &TotalsPage::countReport);
  auto* mergeKey = new QShortcut(QKeySequence(Qt::ALT | Qt::Key_E), merge_);
  connect(mergeKey, &QShortcut::activated, merge_, &QCheckBox::click);
  auto* draft = keyButton(u"Save"_s, QKeySequence(Qt::ALT | Qt::Key_S), u"totalsSave"_s, this);
  auto* issue = keyButton(u"Issue"_s, QKeySequence(Qt::ALT | Qt::Key_U), u"totalsIssue"_s, this);
  recall_ = keyButton(u"Recall list"_s, QKeySequence(Qt::ALT | Qt::Key_L), u"totalsRecall"_s, this);
  print_ = keyButton(u"Print list"_s, QKeySequence(Qt::ALT | Qt::Key_P), u"totalsPrint"_s, this);
  turn_ = keyButton(u"Other pictures"_s, QKeySequence(Qt::ALT | Qt::Key_V), u"totalsTurn"_s, this);
  connect(turn_, &QPushButton::clicked, this, &TotalsPage::turnPictures);
  for (auto* button : {draft, issue, turn_, recall_, print_})
    choices->addWidget(button);
  chips_ = new FilterChips(this);
  into->addWidget(chips_);
  connect(chips_, &FilterChips::removed, this, [this](int which) {
    filters_.at(static_cast<std::size_t>(which)).second->setCurrentIndex(0);
    Q_EMIT said({});
    countReport();
    browser_->setFocus();
  });
  connect(recall_, &QPushButton::clicked, this, &TotalsPage::recall);
  connect(print_, &QPushButton::clicked, this, &TotalsPage::printList);
  // What was said of one report is not true of the next.
  for (auto* box : findChildren<QComboBox*>())
    connect(box, &QComboBox::activated, this, [this] { Q_EMIT said({}); });
  connect(merge_, &QCheckBox::toggled, this, [this] { Q_EMIT said({}); });
  connect(term_, &QComboBox::activated, this, &TotalsPage::readTerm);
  connect(kind_, &QComboBox::activated, this, [this] {
    countReport();
    browser_->chooseFirst();
  });
  const auto chosen = [this] {
    if (reports::partsBy(kind(), Factor::school)) countReport();
    if (kind() == ReportKind::term) browser_->choose(static_cast<int>(tables_.size()) - 1);
  };
  connect(year_, &QComboBox::activated, this, &TotalsPage::countReport);
  connect(factor_, &QComboBox::activated, this, chosen);
  for (const auto& [by, box] : filters_)
    connect(box, &QComboBox::activated, this, chosen);
  connect(draft, &QPushButton::clicked, this, [this] { save(Going::draft); });
  connect(issue, &QPushButton::clicked, this, [this] { save(Going::out); });
}

void TotalsPage::refresh() {
  showTerms();
  showYears();
  readTerm();
}

void TotalsPage::showYears() {
  const auto years = book().years();
  if (!went(years)) return;
  const auto kept = year_->currentText();
  years_ = *years;
  std::ranges::reverse(years_); // the newest first, as the terms
  year_->clear();
  for (const auto& year : years_)
    year_->addItem(toQt(roster::wordsOf(year.value)));
  if (const auto at = year_->findText(kept); at >= 0) year_->setCurrentIndex(at);
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

void TotalsPage::readTerm() {
  counted_.reset();
  tables_.clear();
  behind_.reset();
  const auto place = term_->currentIndex();
  if (place < 0) {
    state_->setText(u"There is no term in this logbook yet."_s);
    return showTables();
  }
  const auto term = terms_[static_cast<std::size_t>(place)].id;
  recallMerge(term);
  countTerm(term);
}

void TotalsPage::recallMerge(roster::TermId term) {
  if (recalled_ == term) return;
  const auto earlier = session::releases(book(), term);
  if (!went(earlier)) return;
  recalled_ = term;
  const QSignalBlocker quiet(merge_);
  merge_->setChecked(!reports::groupsIssued(*earlier).empty());
}

void TotalsPage::fillFilters() {
  for (const auto& [by, box] : filters_) {
    const auto kept = box->currentText();
    const auto& labels = counted_->facts.labels(by);
    std::vector<std::pair<std::string, int>> sorted;
    for (std::size_t code = 0; code < labels.size(); ++code)
      sorted.emplace_back(labels[code], static_cast<int>(code));
    std::ranges::sort(sorted);
    box->clear();
    box->addItem(u"All"_s, -1);
    for (const auto& [label, code] : sorted)
      box->addItem(toQt(label), code);
    box->setCurrentIndex(std::max(box->findText(kept), 0));
  }
}

void TotalsPage::showChips() {
  std::vector<FilterChips::Chip> chips;
  for (std::size_t i = 0; i < filters_.size(); ++i) {
    const auto& [by, box] = filters_[i];
    if (box->currentIndex() <= 0) continue;
    chips.push_back({box->accessibleName().section(u" Alt"_s, 0, 0) + u": "_s + box->currentText() +
                         (box->isEnabled() ? QString() : u" (not applied)"_s),
                     static_cast<int>(i)});
  }
  chips_->show(chips);
}

reports::TermChoice TotalsPage::termChoice() const {
  reports::TermChoice out{choice(), {}, toStd(choiceWords()), factor()};
  if (const auto school = out.sealants.of(Factor::school))
    out.school = counted_->facts.schools().at(*school);
  return out;
}

void TotalsPage::showTables() {
  if (tables_.empty()) {
    if (!isCounting()) browser_->setReports({}, {});
    return;
  }
  auto tables = tables_;
  QStringList names;
  for (const auto& table : tables)
    names += sectionName(table);
  if (behind_) {
    names += u"Details"_s;
    tables.push_back(*behind_);
  }
  browser_->showFront(counted_ && kind() == ReportKind::term &&
                      !reports::choosesMoreThanSchool(choice()));
  browser_->setReports(names, std::move(tables));
}

std::optional<reports::ReportOptions> TotalsPage::options() {
  reports::ReportOptions out;
  out.today = context().clock.now().date();
  const auto program = book().program();
  if (!went(program)) return std::nullopt;
  out.suppression = reports::SuppressionRule::of(program->value);
  out.page.program = program->value.name;
  out.whatIf = whatIf_->whatIf();
  out.school = termChoice().school;
  if (!isForFunder()) return out;
  auto earlier = session::releases(book(), counted_->records->id);
  if (!went(earlier)) return std::nullopt;
  out.earlier = std::move(*earlier);
  auto before = session::termBefore(book(), counted_->records->id);
  if (!went(before)) return std::nullopt;
  out.page.before = std::move(*before);
  return out;
}

bool TotalsPage::isForFunder() const {
  return reports::isPublished(kind()) && kind() != ReportKind::state;
}

Factor TotalsPage::factor() const {
  return static_cast<Factor>(factor_->currentData().toInt());
}

ReportKind TotalsPage::kind() const {
  return static_cast<ReportKind>(std::max(kind_->currentIndex(), 0));
}

reports::Choice TotalsPage::choice() const {
  reports::Choice out;
  for (const auto& [by, box] : filters_)
    if (const int code = box->currentData().toInt(); box->currentIndex() > 0)
      out.of(by) = static_cast<reports::FactorCode>(code);
  return out;
}

/// What is chosen above and does not reach the report below.
QString TotalsPage::notApplied() const {
  QStringList words;
  for (const auto& [by, box] : filters_)
    if (!box->isEnabled() && box->currentIndex() > 0) words += box->currentText();
  return words.join(u", "_s);
}

QString TotalsPage::idleWords() const {
  const auto idle = notApplied();
  return idle.isEmpty() ? QString() : u" Not applied; this report does not use it: %1."_s.arg(idle);
}

QString TotalsPage::choiceWords() const {
  QStringList words;
  for (const auto& [by, box] : filters_)
    if (box->currentIndex() > 0)
      words += (by == Factor::school ? u"placed at "_s : QString()) + box->currentText();
  return words.isEmpty() ? u"placed at all schools"_s : words.join(u", "_s);
}

} // namespace gk::ui
