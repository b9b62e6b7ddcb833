#include "ui/asking/decide_dialog.h"

#include "ui/look/style.h"
#include "ui/support/text.h"

#include <QDialogButtonBox>
#include <QHeaderView>
#include <QKeyEvent>
#include <QLabel>
#include <QListWidget>
#include <QPushButton>
#include <QScreen>
#include <QTableWidget>
#include <QVBoxLayout>

#include <algorithm>
#include <utility>
#include <vector>

namespace gk::ui {

namespace {

/// To read alone: it takes no focus, so that the arrows choose an answer. The wheel scrolls it.
QTableWidget* tableToRead(const reports::Table& from, QWidget* parent) {
  auto* table = new QTableWidget(static_cast<int>(from.rows.size()),
                                 static_cast<int>(from.columns.size()), parent);
  table->setObjectName(u"decideTable"_s);
  table->setAccessibleName(toQt(from.title));
  table->setFocusPolicy(Qt::NoFocus);
  table->setSelectionMode(QAbstractItemView::NoSelection);
  table->setEditTriggers(QAbstractItemView::NoEditTriggers);
  table->setWordWrap(true);
  table->verticalHeader()->hide();
  QStringList headings;
  for (const auto& column : from.columns)
    headings += toQt(column.heading);
  table->setHorizontalHeaderLabels(headings);
  for (int row = 0; row < table->rowCount(); ++row) {
    const auto& cells = from.rows[static_cast<std::size_t>(row)];
    const bool standsOut = !cells.front().isEmpty();
    for (int column = 0; column < table->columnCount(); ++column) {
      auto* item = new QTableWidgetItem(toQt(cells[static_cast<std::size_t>(column)].text()));
      auto font = table->font();
      font.setBold(standsOut);
      item->setFont(font);
      table->setItem(row, column, item);
    }
  }
  return table;
}

/// Each column what it wants where there is room; else the wide ones share what the narrow leave,
/// and their words go on in the next line.
void shareWidth(QTableWidget& table) {
  const QAbstractItemView& cells = table;
  std::vector<std::pair<int, int>> wanted; // and the column
  for (int column = 0; column < table.columnCount(); ++column)
    wanted.emplace_back(std::max(cells.sizeHintForColumn(column) + 6,
                                 table.horizontalHeader()->sectionSizeHint(column)),
                        column);
  std::ranges::sort(wanted);
  int room = table.viewport()->width();
  auto left = static_cast<int>(wanted.size());
  for (const auto& [width, column] : wanted) {
    const int given = left == 1 ? room : std::min(width, room / left);
    table.setColumnWidth(column, given);
    room -= given;
    --left;
  }
  table.resizeRowsToContents();
}

} // namespace

DecideDialog::DecideDialog(QWidget* parent, const QString& question, const QStringList& options,
                           const reports::Table* table)
    : QDialog(parent), list_(new QListWidget(this)) {
  setObjectName(u"decideDialog"_s);
  auto* words = new QLabel(question, this);
  words->setWordWrap(true);
  list_->addItems(options);
  list_->setAccessibleName(question);
  list_->setCurrentRow(-1);
  list_->installEventFilter(this);
  list_->ensurePolished();
  const int inSight = std::min(list_->count(), 9);
  list_->setMinimumHeight(inSight * list_->sizeHintForRow(0) + 2 * list_->frameWidth() + 4);
  auto* buttons = new QDialogButtonBox(QDialogButtonBox::Ok | QDialogButtonBox::Cancel, this);
  auto* ok = buttons->button(QDialogButtonBox::Ok);
  ok->setEnabled(false);
  connect(list_, &QListWidget::currentRowChanged, ok, [ok](int row) { ok->setEnabled(row >= 0); });
  connect(list_, &QListWidget::itemDoubleClicked, this, &DecideDialog::accept);
  connect(buttons, &QDialogButtonBox::accepted, this, &DecideDialog::accept);
  connect(buttons, &QDialogButtonBox::rejected, this, &DecideDialog::reject);
  auto* column = new QVBoxLayout(this);
  column->addWidget(words);
  if (table) {
    table_ = tableToRead(*table, this);
    column->addWidget(table_, 1);
    for (const auto& note : table->notes) {
      auto* under = new QLabel(toQt(note), this);
      under->setWordWrap(true);
      column->addWidget(under);
    }
  }
  column->addWidget(list_);
  column->addWidget(buttons);
  list_->setFocus();
}

void DecideDialog::showEvent(QShowEvent* event) {
  QDialog::showEvent(event);
  fit();
}

void DecideDialog::fit() {
  if (!table_) return;
  constexpr int wide = 860;
  constexpr int leastTable = 120; ///< the rest scrolls
  const auto screen = this->screen()->availableSize() * 9 / 10;
  table_->setMinimumHeight(leastTable);
  const int width = std::min(style::px(wide), screen.width());
  resize(width, height());
  layout()->activate();
  // The rows are as high as their words in the columns' widths, which they have only now.
  shareWidth(*table_);
  const int whole = table_->horizontalHeader()->height() + table_->verticalHeader()->length() +
                    2 * table_->frameWidth();
  const int others = layout()->totalMinimumHeightForWidth(width) - leastTable;
  table_->setMinimumHeight(std::max(leastTable, std::min(whole, screen.height() - others)));
  layout()->activate();
  resize(width, layout()->totalMinimumHeightForWidth(width));
}

int DecideDialog::chosen() const {
  return list_->currentRow();
}

void DecideDialog::accept() {
  if (list_->currentRow() >= 0) QDialog::accept();
}

bool DecideDialog::eventFilter(QObject* watched, QEvent* event) {
  // A list that is told of the focus chooses its first line.
  if (event->type() == QEvent::FocusIn) return true;
  if (event->type() != QEvent::KeyPress) return QDialog::eventFilter(watched, event);
  const auto* key = static_cast<QKeyEvent*>(event);
  if (key->key() == Qt::Key_Return || key->key() == Qt::Key_Enter) {
    accept();
    return true;
  }
  const int digit = key->key() - Qt::Key_1;
  if (digit >= 0 && digit < std::min(list_->count(), 9)) {
    list_->setCurrentRow(digit);
    return true;
  }
  return QDialog::eventFilter(watched, event);
}

} // namespace gk::ui
