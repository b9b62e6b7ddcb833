#include "ui/lists/report_browser.h"

#include "ui/keys/key_button.h"
#include "ui/lists/cell_delegate.h"
#include "ui/lists/part_delegate.h"
#include "ui/lists/plot_view.h"
#include "ui/look/numerals.h"
#include "ui/look/style.h"
#include "ui/models/table_model.h"
#include "ui/support/page_keys.h"
#include "ui/support/text.h"

#include <QFontMetrics>
#include <QGridLayout>
#include <QHeaderView>
#include <QKeyEvent>
#include <QLabel>
#include <QListWidget>
#include <QTableView>
#include <QTextEdit>
#include <QTimer>

#include <algorithm>
#include <cmath>

namespace gk::ui {

ReportBrowser::ReportBrowser(QWidget* parent)
    : QWidget(parent), names_(new QListWidget(this)),
      title_(wordsLabel({}, u"counts"_s, u"reportTitle"_s, this)), table_(new QTableView(this)),
      none_(wordsLabel(u"None."_s, {}, u"reportNone"_s, this)), notes_(new QTextEdit(this)),
      plot_(new PlotView(this)), model_(new TableModel(this)) {
  names_->setObjectName(u"reportNames"_s);
  names_->setAccessibleName(u"Parts of the report"_s);
  style::whenDressed(names_, [this] {
    names_->setFixedWidth(parts_.empty() ? style::px(216) : (330 + style::px(330)) / 2);
  });
  names_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  names_->installEventFilter(this);
  table_->setObjectName(u"reportTable"_s);
  table_->setAccessibleName(u"The part chosen"_s);
  table_->setModel(model_);
  table_->setItemDelegate(new CellDelegate(table_));
  table_->setSelectionBehavior(QAbstractItemView::SelectRows);
  table_->setSelectionMode(QAbstractItemView::SingleSelection);
  table_->setTabKeyNavigation(false);
  table_->verticalHeader()->hide();
  table_->horizontalHeader()->setHighlightSections(false);
  table_->installEventFilter(this);
  table_->viewport()->installEventFilter(this);

  notes_->setObjectName(u"reportNotes"_s);
  notes_->setAccessibleName(u"Notes on the part chosen"_s);
  notes_->setReadOnly(true);
  notes_->setTabChangesFocus(true);

  auto* grid = new QGridLayout(this);
  grid->setContentsMargins(0, 0, 0, 0);
  grid->setHorizontalSpacing(14);
  grid->addWidget(names_, 0, 0, 6, 1);
  grid->addWidget(title_, 0, 1);
  grid->addWidget(none_, 1, 1);
  grid->addWidget(table_, 2, 1);
  grid->addWidget(notes_, 3, 1);
  grid->addWidget(plot_, 5, 1);
  grid->setRowStretch(2, 1);
  plot_->hide();
  grid->setColumnStretch(1, 1);
  setFocusProxy(names_);
  tellKeys(*names_, {{u"Up, Down"_s, u"Choose a part or a row"_s},
                     {u"Enter"_s, u"Into the part; open the item of a row"_s},
                     {u"Left"_s, u"Back to the parts"_s}});
  connect(names_, &QListWidget::currentRowChanged, this, &ReportBrowser::showSection);
}

void ReportBrowser::setFront(QWidget* front, const QString& name) {
  front_ = front;
  frontName_ = name;
  auto* grid = static_cast<QGridLayout*>(layout());
  grid->addWidget(front_, 0, 1, grid->rowCount(), 1, Qt::AlignTop);
  front_->hide();
}

void ReportBrowser::showFront(bool isThere) {
  isFrontNext_ = isThere && front_;
}

bool ReportBrowser::isAtFront() const {
  return hasFront_ && names_->currentRow() == 0;
}

/// The front stands for the first of the tables, which it shows in pictures.
int ReportBrowser::section() const {
  const int row = names_->currentRow();
  if (row < 0) return row;
  if (parts_.empty()) return std::max(row - rowsBefore(), 0);
  return parts_.at(static_cast<std::size_t>(row)).section;
}

int ReportBrowser::row() const {
  return table_->currentIndex().isValid() ? table_->currentIndex().row() : -1;
}

int ReportBrowser::rowOf(int section) const {
  const auto at = std::ranges::find(parts_, section, &PartState::section);
  return at == parts_.end() ? section + rowsBefore() : static_cast<int>(at - parts_.begin());
}

void ReportBrowser::setReports(const QStringList& names, std::vector<reports::Table> tables) {
  const auto oldSection = std::max(section(), 0);
  parts_.clear();
  fill(names, std::move(tables), oldSection);
}

void ReportBrowser::setSteps(std::vector<PartState> parts, std::vector<reports::Table> tables) {
  const auto oldSection = std::max(section(), 0);
  parts_ = std::move(parts);
  if (!names_->itemDelegate() || !qobject_cast<PartDelegate*>(names_->itemDelegate()))
    names_->setItemDelegate(new PartDelegate(names_));
  names_->setFixedWidth((330 + style::px(330)) / 2);
  QStringList names;
  for (const auto& part : parts_)
    names += part.state.isEmpty() ? part.words : part.words + u"  "_s + part.state;
  fill(names, std::move(tables), oldSection);
  for (int row = 0; row < names_->count(); ++row) {
    const auto& part = parts_.at(static_cast<std::size_t>(row));
    auto* item = names_->item(row);
    item->setData(PartDelegate::section, part.section);
    item->setData(PartDelegate::words, part.words);
    item->setData(PartDelegate::state, part.state);
    item->setData(PartDelegate::mark, static_cast<int>(part.mark));
  }
}

void ReportBrowser::fill(const QStringList& names, std::vector<reports::Table> tables,
                         int oldSection) {
  const auto oldRow = row();
  const bool wasFirst = names_->currentRow() < 0 || isAtFront();
  hasFront_ = isFrontNext_ && !names.isEmpty();
  tables_ = std::move(tables);
  {
    const QSignalBlocker quiet(names_);
    names_->clear();
    if (hasFront_) names_->addItem(frontName_);
    names_->addItems(names);
    names_->setCurrentRow(hasFront_ && wasFirst ? 0
                                                : std::min(rowOf(oldSection), names_->count() - 1));
  }
  showSection();
  if (model_->rowCount() > 0)
    table_->setCurrentIndex(model_->index(std::clamp(oldRow, 0, model_->rowCount() - 1), 0));
}

void ReportBrowser::choose(int section) {
  names_->setCurrentRow(rowOf(section));
}

void ReportBrowser::chooseFirst() {
  names_->setCurrentRow(std::min(0, names_->count() - 1));
}

void ReportBrowser::showSection() {
  const auto at = section();
  const auto table = at < 0 ? reports::Table{} : tables_.at(static_cast<std::size_t>(at));
  title_->setText(toQt(table.title));
  QStringList notes;
  for (const auto& note : table.notes)
    notes += toQt(note);
  const bool atFront = isAtFront();
  if (front_) front_->setVisible(atFront);
  title_->setVisible(!atFront);
  none_->setVisible(table.rows.empty() && !atFront);
  table_->setVisible(!table.rows.empty() && !atFront);
  static_cast<QGridLayout*>(layout())->setRowStretch(2, table.rows.empty() ? 0 : 1);
  static_cast<QGridLayout*>(layout())->setRowStretch(4, table.rows.empty() ? 1 : 0);
  notes_->setPlainText(notes.join(u'\n'));
  fitNotes();
  plot_->show(atFront ? decltype(table.plot){} : table.plot);
  model_->show(table);
  if (model_->rowCount() > 0) table_->setCurrentIndex(model_->index(0, 0));
  fitColumns();
  Q_EMIT shown(at);
}

void ReportBrowser::fitColumns() {
  const auto count = model_->columnCount();
  // A long row of numbers leaves less for the words before it; words beside words stay whole.
  const auto& columns = model_->table().columns;
  const auto numbers =
      std::ranges::count_if(columns, [](const auto& column) { return column.isNumber(); });
  const int widest = style::px(numbers > 7 ? 140 : 400);
  // Not resizeColumnsToContents: it leaves room for a sort mark that no heading has.
  table_->ensurePolished();
  auto bold = table_->font();
  bold.setBold(true);
  bold.setPixelSize(style::px(14)); // as the sheet sets headings
  const auto widthOf = [](const QFont& font, const QString& words) {
    const double even = isFigure(words) ? evenWidth(words, QFontMetricsF(font)) : 0;
    return std::max(QFontMetrics(font).size(0, words).width(), static_cast<int>(std::ceil(even))) +
           15;
  };
  for (int column = 0; column < count; ++column) {
    int wide =
        widthOf(bold, model_->headerData(column, Qt::Horizontal, Qt::DisplayRole).toString());
    for (int row = 0; row < model_->rowCount(); ++row)
      wide = std::max(wide, widthOf(table_->font(), model_->index(row, column).data().toString()));
    lastWide_ = std::min(wide, widest);
    table_->setColumnWidth(column, lastWide_);
  }
  fittedAt_ = 0;
  stretchLast();
}

/// Words take what is left where that is enough for them; numbers stay beside each other. The rows
/// are as high as their words in these widths.
void ReportBrowser::stretchLast() {
  const int last = model_->columnCount() - 1;
  if (last < 0) return;
  auto* header = table_->horizontalHeader();
  const int all = header->length(); // lays out what is still to be; only then a size is right
  const int left = table_->viewport()->width() - (all - header->sectionSize(last));
  const bool isStretched = !model_->table().columns.back().isNumber() && left >= lastWide_;
  header->setStretchLastSection(isStretched);
  if (!isStretched) header->resizeSection(last, lastWide_);
  constexpr int mostRows = 400; // that are measured whenever the window changes
  const bool isFitted = fittedAt_ > 0 && model_->rowCount() > mostRows;
  if (isFitted || fittedAt_ == header->sectionSize(last)) return;
  fittedAt_ = header->sectionSize(last);
  table_->resizeRowsToContents();
}

/// As high as its text, up to a third of the room, then it scrolls.
void ReportBrowser::fitNotes() {
  auto* document = notes_->document();
  document->setTextWidth(notes_->viewport()->width());
  const auto wanted = static_cast<int>(document->size().height()) + 4;
  notes_->setFixedHeight(std::min(wanted, std::max(height() / 3, 80)));
  notes_->setVisible(!document->isEmpty() && !isAtFront());
}

void ReportBrowser::resizeEvent(QResizeEvent* event) {
  QWidget::resizeEvent(event);
  fitNotes();
}

bool ReportBrowser::eventFilter(QObject* watched, QEvent* event) {
  if (watched == table_->viewport() && event->type() == QEvent::Resize)
    QTimer::singleShot(0, this, &ReportBrowser::stretchLast); // once the columns have their widths
  if (event->type() != QEvent::KeyPress) return QWidget::eventFilter(watched, event);
  const auto key = static_cast<QKeyEvent*>(event)->key();
  const bool isEnter = key == Qt::Key_Return || key == Qt::Key_Enter;
  if (watched == names_ && (isEnter || key == Qt::Key_Right)) {
    if (isAtFront()) {
      names_->setCurrentRow(1);
      return true;
    }
    if (table_->isVisible()) table_->setFocus();
    return true;
  }
  if (watched == table_ && key == Qt::Key_Left && table_->currentIndex().column() == 0) {
    names_->setFocus();
    return true;
  }
  if (isEnter && static_cast<QKeyEvent*>(event)->isAutoRepeat()) return true; // a key held down
  if (watched == table_ && isEnter && row() >= 0) {
    Q_EMIT taken(section(), row(), table_->currentIndex().column());
    return true;
  }
  return QWidget::eventFilter(watched, event);
}

} // namespace gk::ui
