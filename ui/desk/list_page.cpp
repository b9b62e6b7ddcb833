#include "ui/desk/list_page.h"

#include "base/files/files.h"
#include "base/text/csv.h"
#include "roster/display_names.h"
#include "roster/list/roster_cells.h"
#include "ui/look/choice_box.h"
#include "ui/support/text.h"

#include <QCheckBox>
#include <QComboBox>
#include <QHeaderView>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QScrollBar>
#include <QTabWidget>
#include <QTableWidget>

#include <algorithm>

namespace gk::ui {

namespace {

using roster::RosterColumn;

constexpr int samplesShown = 5;
constexpr std::size_t mostShown = 1000; // of rows that wait or were skipped; no one reads further
constexpr int lineColumn = 0;
constexpr int problemColumn = 1;
constexpr int cellsFrom = 2; ///< of the table of rows that wait

QTableWidgetItem* readOnly(const QString& words) {
  auto* item = new QTableWidgetItem(words);
  item->setFlags(item->flags() & ~Qt::ItemIsEditable);
  return item;
}

/// The headings, or where the list has none "Column 3".
QStringList headingsOf(const session::RosterDraft& draft) {
  QStringList headings;
  const auto& layout = draft.layout();
  for (std::size_t i = 0; i < layout.columns.size(); ++i) {
    QString words;
    if (layout.heading && i < draft.rows()[*layout.heading].cells.size())
      words = toQt(draft.rows()[*layout.heading].cells[i]);
    headings += words.isEmpty() ? u"Column %1"_s.arg(i + 1) : words;
  }
  return headings;
}

QString cellOf(const base::CsvRow& row, std::size_t column) {
  return column < row.cells.size() ? toQt(row.cells[column]) : QString();
}

QString guardianWords(const session::Identity& identity) {
  QStringList words;
  for (const auto& one : identity.guardians)
    words += toQt(one.name + (one.phone.empty() ? "" : " " + one.phone));
  return words.join(u"; "_s);
}

/// One line of two children side by side.
struct Beside {
  QString what, listed, known;
};

std::vector<Beside> besides(const session::PlannedPair& pair) {
  const auto of = [](const session::Identity& who, auto text) { return toQt(who.*text); };
  using session::Identity;
  const auto row = [&](const QString& what, std::string Identity::*text) {
    return Beside{what, of(pair.listed, text), of(pair.known, text)};
  };
  return {row(u"First name"_s, &Identity::first),
          row(u"Middle name"_s, &Identity::middle),
          row(u"Last name"_s, &Identity::last),
          row(u"Goes by"_s, &Identity::nameUsed),
          {u"Birth date"_s, toQt(pair.listed.birth.words()), toQt(pair.known.birth.words())},
          {u"Sex"_s, toQt(base::displayName(pair.listedCard.sex)),
           toQt(base::displayName(pair.knownCard.sex))},
          row(u"Student ID"_s, &Identity::studentId),
          {u"Grade"_s, toQt(pair.listedCard.grade), toQt(pair.knownCard.grade)},
          {u"Room"_s, toQt(pair.listedCard.room), toQt(pair.knownCard.room)},
          {u"Guardians"_s, guardianWords(pair.listed), guardianWords(pair.known)}};
}

QString problemWords(const roster::HeldRow& row) {
  QStringList words;
  for (const auto& problem : row.problems)
    words += toQt(problem.where + ": " + problem.what);
  return capital(words.join(u"; "_s));
}

/// "3/4/2019: Mar 4 or Apr 3, 2019", as a person can see which is meant.
QString exampleWords(const session::RosterDraft& draft, const roster::DateQuestion& question,
                     base::Date today) {
  QStringList words;
  for (const auto& [row, column] : question.examples) {
    const auto& cell = draft.rows()[row].cells[column];
    const auto read = roster::readDates(cell, today);
    if (read.monthFirst && read.dayFirst)
      words += u"%1 is %2 or %3"_s.arg(toQt(cell), toQt(read.monthFirst->shortWords()),
                                       toQt(read.dayFirst->shortWords()));
  }
  return words.join(u"; "_s);
}

} // namespace

void ListPage::open(ChosenList list) {
  list_ = std::make_shared<ChosenList>(std::move(list));
  title_->setText(u"List of "_s + list_->school);
  showColumns();
  look();
  tabs_->setCurrentIndex(0);
}

void ListPage::refresh() {
  if (!list_ || book().isUnlocked()) return;
  letGo();
  Q_EMIT closed();
}

void ListPage::letGo() {
  list_.reset();
  isReadable_ = false;
  showing_ = true;
  for (auto* table : {columns_, pair_, held_, skipped_, missing_, outside_, changed_}) {
    table->clear();
    table->setRowCount(0);
  }
  boxes_.clear();
  heading_->clear(); // a row of the list may be a student's
  rowsOf_->clear();
  roomOfAll_->clear();
  showing_ = false;
  for (auto* label : {counts_, trouble_, notes_, dates_, pairTitle_})
    label->clear();
}

/// The choices above, the first rows below.
void ListPage::showColumns() {
  showing_ = true;
  const auto& draft = list_->draft;
  const auto& layout = draft.layout();
  const auto headings = headingsOf(draft);
  columns_->clear();
  columns_->setColumnCount(static_cast<int>(headings.size()));
  columns_->setHorizontalHeaderLabels(headings);
  const auto first = layout.heading ? *layout.heading + 1 : 0;
  const auto shown = std::min(draft.rows().size() - std::min(first, draft.rows().size()),
                              static_cast<std::size_t>(samplesShown));
  columns_->setRowCount(static_cast<int>(shown) + 1);
  boxes_.clear();
  for (std::size_t i = 0; i < layout.columns.size(); ++i) {
    auto* box = new ChoiceBox(columns_);
    const auto at = static_cast<int>(i);
    box->setObjectName(u"listColumn%1"_s.arg(at));
    box->setAccessibleName(u"Column "_s + headings[at]);
    for (const auto words : base::displayNamesOf<RosterColumn>())
      box->addItem(capital(toQt(words)));
    box->setCurrentIndex(static_cast<int>(layout.columns[i]));
    connect(box, &QComboBox::currentIndexChanged, this, &ListPage::takeColumns);
    columns_->setCellWidget(0, at, box);
    boxes_.push_back(box);
    for (std::size_t row = 0; row < shown; ++row)
      columns_->setItem(static_cast<int>(row) + 1, at,
                        readOnly(cellOf(draft.rows()[first + row], i)));
  }
  showHeadings();
  order_->setCurrentIndex(static_cast<int>(layout.dates));
  early_->setCurrentIndex(static_cast<int>(layout.early));
  gradeOfAll_->setCurrentIndex(std::max(gradeOfAll_->findText(toQt(layout.gradeOfAll)), 0));
  roomOfAll_->setText(toQt(layout.roomOfAll));
  ages_->setChecked(list_->aim.agesConfirmed);
  others_->setChecked(list_->aim.othersConfirmed);
  fitChoices();
  showing_ = false;
}

void ListPage::showNotes() {
  const auto& draft = list_->draft;
  std::vector<std::string> headings;
  for (const auto& heading : headingsOf(draft))
    headings.push_back(toStd(heading));
  QStringList notes;
  for (const auto& note : roster::leftOutNotes(draft.leftOut(), headings))
    notes += toQt(note);
  for (const auto& note : draft.notes())
    notes += toQt(note);
  notes_->setText(notes.join(u' '));
  notes_->setVisible(!notes.isEmpty());
}

void ListPage::fitChoices() {
  columns_->resizeColumnsToContents();
  for (std::size_t i = 0; i < boxes_.size(); ++i) {
    boxes_[i]->ensurePolished();
    const auto at = static_cast<int>(i);
    const auto size = boxes_[i]->sizeHint();
    columns_->setColumnWidth(at, std::max(columns_->columnWidth(at), size.width()));
    if (i == 0) columns_->setRowHeight(0, size.height());
  }
  int least = columns_->horizontalHeader()->sizeHint().height() + 2 * columns_->frameWidth();
  for (int row = 0; row < std::min(columns_->rowCount(), 2); ++row)
    least += columns_->rowHeight(row);
  columns_->setMinimumHeight(least + columns_->horizontalScrollBar()->sizeHint().height());
}

void ListPage::takeColumns() {
  if (showing_ || !list_) return;
  auto layout = list_->draft.layout();
  for (std::size_t i = 0; i < boxes_.size() && i < layout.columns.size(); ++i)
    layout.columns[i] = static_cast<RosterColumn>(boxes_[i]->currentIndex());
  layout.dates = static_cast<roster::DateOrder>(order_->currentIndex());
  layout.early = static_cast<roster::EarlyGrades>(early_->currentIndex());
  list_->aim.agesConfirmed = ages_->isChecked();
  list_->aim.othersConfirmed = others_->isChecked();
  layout.gradeOfAll = gradeOfAll_->currentIndex() > 0 ? toStd(gradeOfAll_->currentText()) : "";
  const auto of = rowsOf_->currentIndex();
  layout.rowsOf = of <= 0   ? std::optional<std::string>()
                  : of == 1 ? std::string()
                            : toStd(rowsOf_->currentText());
  layout.roomOfAll = toStd(roomOfAll_->text().trimmed());
  list_->draft.setLayout(layout);
  look();
}

void ListPage::showCounts() {
  const auto& plan = list_->draft.plan();
  counts_->setText(isReadable_ ? toQt(session::countsOf(plan)) + u", "_s +
                                     counted(std::ssize(plan.held), "row waits", "rows wait") +
                                     (plan.held.size() > mostShown
                                          ? u", the first %1 are shown"_s.arg(mostShown)
                                          : QString())
                               : u"Choose the columns first."_s);
  import_->setEnabled(isReadable_ && !(plan.entering.empty() && plan.changed.empty()));
  tabs_->setTabText(1, u"Pairs (%1)"_s.arg(plan.pairs.size()));
  tabs_->setTabText(2, u"Rows that wait (%1)"_s.arg(plan.held.size()));
  tabs_->setTabText(4, u"Not on this list (%1)"_s.arg(plan.missing.size()));
  tabs_->setTabText(5, u"Changed (%1)"_s.arg(plan.changed.size()));
  tabs_->setTabText(3, u"Skipped (%1)"_s.arg(list_->draft.reading().skipped.size()));
  const auto& question = list_->draft.reading().question;
  dates_->setVisible(question.has_value());
  if (question)
    dates_->setText(u"▲ %1 can be read month first or day first: %2. Which is it?"_s.arg(
        counted(static_cast<qsizetype>(question->count), "date", "dates"),
        exampleWords(list_->draft, *question, list_->aim.today)));
}

void ListPage::showPair() {
  const auto& pairs = list_->draft.plan().pairs;
  same_->setEnabled(!pairs.empty());
  different_->setEnabled(!pairs.empty());
  pair_->clear();
  pair_->setColumnCount(3);
  pair_->setHorizontalHeaderLabels({QString(), u"On the list"_s, u"In the logbook"_s});
  if (pairs.empty()) {
    pair_->setRowCount(0);
    pairTitle_->setText(u"No pair to compare."_s);
    return;
  }
  const auto& pair = pairs.front();
  pairTitle_->setText(
      u"Line %1 and number %2: the same student? %3 to compare."_s.arg(pair.pair.line)
          .arg(toQt(pair.number))
          .arg(counted(std::ssize(pairs), "pair", "pairs")));
  const auto rows = besides(pair);
  pair_->setRowCount(static_cast<int>(rows.size()));
  for (int i = 0; i < static_cast<int>(rows.size()); ++i) {
    const auto& row = rows[static_cast<std::size_t>(i)];
    // A mark besides the words: what differs.
    pair_->setItem(i, 0, readOnly((row.listed == row.known ? QString() : u"≠ "_s) + row.what));
    pair_->setItem(i, 1, readOnly(row.listed));
    pair_->setItem(i, 2, readOnly(row.known));
  }
  pair_->resizeColumnsToContents();
}

void ListPage::answer(bool isSame) {
  if (!list_ || list_->draft.plan().pairs.empty()) return;
  const auto& pair = list_->draft.plan().pairs.front();
  list_->aim.answers.push_back({pair.pair.row, pair.child, isSame});
  look();
}

void ListPage::showHeld() {
  showing_ = true;
  const auto& draft = list_->draft;
  const auto& held = draft.plan().held;
  held_->clear();
  held_->setColumnCount(cellsFrom + static_cast<int>(draft.layout().columns.size()));
  held_->setHorizontalHeaderLabels(QStringList{u"Line"_s, u"Problem"_s} + headingsOf(draft));
  const auto count = static_cast<int>(std::min(held.size(), mostShown));
  held_->setRowCount(count);
  for (int i = 0; i < count; ++i) {
    const auto& row = held[static_cast<std::size_t>(i)];
    held_->setItem(i, lineColumn, readOnly(QString::number(row.line)));
    held_->setItem(i, problemColumn, readOnly(problemWords(row)));
    for (std::size_t cell = 0; cell < draft.layout().columns.size(); ++cell)
      held_->setItem(i, cellsFrom + static_cast<int>(cell),
                     new QTableWidgetItem(cellOf(draft.rows()[row.row], cell)));
  }
  held_->resizeColumnsToContents();
  save_->setEnabled(!held.empty());
  showing_ = false;
}

void ListPage::correct(int row, int column) {
  if (showing_ || !list_ || column < cellsFrom) return;
  const auto& held = list_->draft.plan().held;
  const auto place = static_cast<std::size_t>(row);
  if (place >= held.size()) return;
  list_->draft.correct(held[place].row, static_cast<std::size_t>(column - cellsFrom),
                       toStd(held_->item(row, column)->text()));
  look();
}

void ListPage::showSkipped() {
  const auto& skipped = list_->draft.reading().skipped;
  skipped_->clear();
  skipped_->setColumnCount(2);
  skipped_->setHorizontalHeaderLabels({u"Line"_s, u"Skipped because it is"_s});
  const auto count = static_cast<int>(std::min(skipped.size(), mostShown));
  skipped_->setRowCount(count);
  for (int i = 0; i < count; ++i) {
    const auto& row = skipped[static_cast<std::size_t>(i)];
    skipped_->setItem(i, 0, readOnly(QString::number(row.line)));
    skipped_->setItem(i, 1, readOnly(toQt(row.why)));
  }
}

void ListPage::save() {
  if (!list_) return;
  const auto path = context().prompter.saveFile(u"Rows that wait"_s, u"rows-that-wait.csv"_s,
                                                u"CSV (*.csv)"_s, FileHolds::names);
  if (!path || !went(base::replaceFile(toStd(*path), list_->draft.problems()))) return;
  Q_EMIT said(u"Saved %1. The file has names: keep it safe, delete it when done."_s.arg(*path));
}

void ListPage::import() {
  // By its key, the room may still be being typed.
  if (list_ && toStd(roomOfAll_->text().trimmed()) != list_->draft.layout().roomOfAll)
    takeColumns();
  if (!list_ || !isReadable_) return;
  const auto counts = toQt(session::countsOf(list_->draft.plan()));
  const auto held = list_->draft.plan().held.size();
  // Said before anything is written: an import is taken back whole or not at all.
  if (!context().prompter.confirm(u"%1: %2. Import them?"_s.arg(list_->school, counts))) return;
  if (!went(list_->draft.write(book(), by_()))) return;
  if (held == 0) {
    letGo();
    Q_EMIT closed();
    return Q_EMIT said(u"Imported: %1."_s.arg(counts));
  }
  // What waits stays here, to be put right and taken then.
  look();
  tabs_->setCurrentIndex(2);
  Q_EMIT said(u"Imported: %1. %2 here, not imported."_s.arg(
      counts, counted(static_cast<qsizetype>(held), "row waits", "rows wait")));
}

void ListPage::leave() {
  if (list_ && !list_->draft.plan().held.empty() &&
      !context().prompter.confirm(u"Close this list? %1 not imported."_s.arg(counted(
          std::ssize(list_->draft.plan().held), "row that waits is", "rows that wait are"))))
    return;
  letGo();
  Q_EMIT closed();
}

} // namespace gk::ui
