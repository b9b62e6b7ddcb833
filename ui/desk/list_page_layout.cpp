#include "base/text/text.h"
#include "roster/display_names.h"
#include "ui/desk/list_page.h"
#include "ui/keys/flow_layout.h"
#include "ui/keys/key_button.h"
#include "ui/lists/cell_delegate.h"
#include "ui/lists/last_column.h"
#include "ui/look/choice_box.h"
#include "ui/look/style.h"
#include "ui/support/text.h"

#include <QCheckBox>
#include <QComboBox>
#include <QHeaderView>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QTabWidget>
#include <QTableWidget>
#include <QTimer>
#include <QVBoxLayout>

// How the page of a school's list is laid out, and which of its rows may have the headings; what it
// does is in list_page.cpp.
namespace gk::ui {

namespace {

constexpr std::size_t rowsOfHeadings = 20; ///< offered as the one with the headings

QTableWidget* listTable(const QString& name, const QString& says, QWidget* parent) {
  auto* table = new QTableWidget(parent);
  table->setObjectName(name);
  table->setAccessibleName(says);
  table->setItemDelegate(new CellDelegate(table));
  table->setTabKeyNavigation(false);
  table->setWordWrap(true);
  table->verticalHeader()->hide();
  table->horizontalHeader()->setDefaultAlignment(Qt::AlignLeft | Qt::AlignVCenter);
  table->horizontalHeader()->setStretchLastSection(true);
  table->setEditTriggers(QAbstractItemView::NoEditTriggers);
  return table;
}

template <class E>
QComboBox* listChoice(const QString& name, const QString& says, QWidget* parent) {
  auto* box = new ChoiceBox(parent);
  box->setObjectName(name);
  box->setAccessibleName(says);
  for (const auto words : base::displayNamesOf<E>())
    box->addItem(capital(toQt(words)));
  return box;
}

QWidget* listRow(const QString& words, QWidget* field, QWidget* parent) {
  auto* both = new QWidget(parent);
  auto* label = wordsLabel(words, u"field"_s, {}, both);
  label->setWordWrap(false);
  auto* row = new QHBoxLayout(both);
  row->setContentsMargins(0, 0, 12, 0);
  row->addWidget(label);
  row->addWidget(field);
  return both;
}

} // namespace

ListPage::ListPage(Context& context, std::function<base::By()> by, QWidget* parent)
    : Page(context, parent), by_(std::move(by)) {
  setObjectName(u"listPage"_s);
  layOut();
}

QWidget* ListPage::columnsTab() {
  auto* tab = new QWidget(this);
  columns_ = listTable(u"listColumns"_s, u"What each column is"_s, tab);
  style::whenDressed(columns_, [this] { fitChoices(); });
  notes_ = wordsLabel({}, u"note"_s, u"listNotes"_s, tab);
  dates_ = wordsLabel({}, u"counts"_s, u"listDates"_s, tab);
  order_ = listChoice<roster::DateOrder>(u"listOrder"_s, u"Order of the dates"_s, tab);
  early_ = listChoice<roster::EarlyGrades>(u"listEarly"_s, u"Grades before kindergarten"_s, tab);
  heading_ = new ChoiceBox(tab);
  heading_->setObjectName(u"listHeading"_s);
  heading_->setAccessibleName(u"Row with the headings"_s);
  connect(heading_, &QComboBox::currentIndexChanged, this, &ListPage::takeHeading);
  rowsOf_ = new ChoiceBox(tab);
  rowsOf_->setObjectName(u"listRowsOf"_s);
  rowsOf_->setAccessibleName(u"School whose rows are meant"_s);
  gradeOfAll_ = new ChoiceBox(tab);
  gradeOfAll_->setObjectName(u"listGrade"_s);
  gradeOfAll_->setAccessibleName(u"Grade of all rows"_s);
  gradeOfAll_->addItems({u"Not said"_s, u"K"_s});
  for (int grade = 1; grade <= 12; ++grade)
    gradeOfAll_->addItem(QString::number(grade));
  roomOfAll_ = new QLineEdit(tab);
  roomOfAll_->setObjectName(u"listRoom"_s);
  roomOfAll_->setAccessibleName(u"Room of all rows"_s);
  roomOfAll_->setMaxLength(40);
  connect(roomOfAll_, &QLineEdit::editingFinished, this, &ListPage::takeColumns);
  ages_ = new QCheckBox(u"School confirms unusual ages"_s, tab);
  ages_->setObjectName(u"listAges"_s);
  others_ = new QCheckBox(u"Similar ones are different students"_s, tab);
  others_->setObjectName(u"listOthers"_s);
  for (auto* box : {order_, early_, gradeOfAll_, rowsOf_})
    connect(box, &QComboBox::currentIndexChanged, this, &ListPage::takeColumns);
  for (auto* box : {ages_, others_})
    connect(box, &QCheckBox::toggled, this, &ListPage::takeColumns);
  auto* column = new QVBoxLayout(tab);
  column->addWidget(wordsLabel(u"Choose what each column is. It is remembered for this school."_s,
                               u"note"_s, {}, tab));
  column->addWidget(columns_, 1);
  column->addWidget(notes_);
  column->addWidget(dates_);
  schoolRow_ = listRow(u"Take the rows of"_s, rowsOf_, tab);
  gradeRow_ = listRow(u"All rows: grade"_s, gradeOfAll_, tab);
  roomRow_ = listRow(u"All rows: room"_s, roomOfAll_, tab);
  auto* choices = new FlowLayout(6);
  for (auto* row :
       {listRow(u"Headings are in"_s, heading_, tab), schoolRow_, gradeRow_, roomRow_,
        listRow(u"Dates are"_s, order_, tab), listRow(u"TK and PK rows"_s, early_, tab)})
    choices->addWidget(row);
  column->addLayout(choices);
  column->addWidget(ages_);
  column->addWidget(others_);
  return tab;
}

QWidget* ListPage::pairsTab() {
  auto* tab = new QWidget(this);
  pairTitle_ = wordsLabel({}, u"counts"_s, u"listPairTitle"_s, tab);
  pair_ = listTable(u"listPair"_s, u"The list and the logbook, side by side"_s, tab);
  same_ = keyButton(u"Same student"_s, QKeySequence(Qt::ALT | Qt::Key_Y), u"listSame"_s, tab);
  different_ =
      keyButton(u"Different student"_s, QKeySequence(Qt::ALT | Qt::Key_D), u"listDifferent"_s, tab);
  connect(same_, &QPushButton::clicked, this, [this] { answer(true); });
  connect(different_, &QPushButton::clicked, this, [this] { answer(false); });
  auto* keys = new FlowLayout(6);
  keys->addWidget(same_);
  keys->addWidget(different_);
  auto* column = new QVBoxLayout(tab);
  column->addWidget(pairTitle_);
  column->addWidget(pair_, 1);
  column->addLayout(keys);
  return tab;
}

QWidget* ListPage::heldTab() {
  auto* tab = new QWidget(this);
  held_ = listTable(u"listHeld"_s, u"Rows that wait"_s, tab);
  held_->setEditTriggers(QAbstractItemView::DoubleClicked | QAbstractItemView::EditKeyPressed |
                         QAbstractItemView::AnyKeyPressed);
  connect(held_, &QTableWidget::cellChanged, this, &ListPage::correct);
  save_ = keyButton(u"Save these rows"_s, QKeySequence(Qt::ALT | Qt::Key_P), u"listSave"_s, tab);
  connect(save_, &QPushButton::clicked, this, &ListPage::save);
  auto* keys = new FlowLayout(6);
  keys->addWidget(save_);
  auto* column = new QVBoxLayout(tab);
  column->addWidget(wordsLabel(u"Type over a cell to correct it; the row is read again. Rows left "
                               "here are not imported."_s,
                               u"note"_s, {}, tab));
  column->addWidget(held_, 1);
  column->addLayout(keys);
  return tab;
}

QWidget* ListPage::missingTab() {
  auto* tab = new QWidget(this);
  missing_ = listTable(u"listMissing"_s, u"Not on this list"_s, tab);
  saveMissing_ = keyButton(u"Save these students"_s, QKeySequence(Qt::ALT | Qt::Key_P),
                           u"listMissingSave"_s, tab);
  connect(saveMissing_, &QPushButton::clicked, this, &ListPage::saveMissing);
  missing_->setSelectionBehavior(QAbstractItemView::SelectRows);
  outsideTitle_ =
      wordsLabel(u"Outside this list's grades: by now these students are in no grade of "
                 "the list, or not in the one room it is of, so it cannot tell who left."_s,
                 u"note"_s, u"listOutsideTitle"_s, tab);
  outside_ = listTable(u"listOutside"_s, u"Outside this list's grades"_s, tab);
  outside_->setSelectionBehavior(QAbstractItemView::SelectRows);
  left_ = keyButton(u"Left the program"_s, QKeySequence(Qt::ALT | Qt::Key_L), u"listMissingLeft"_s,
                    tab);
  connect(left_, &QPushButton::clicked, this, &ListPage::recordLeft);
  auto* keys = new FlowLayout(6);
  keys->addWidget(left_);
  keys->addWidget(saveMissing_);
  auto* column = new QVBoxLayout(tab);
  column->addWidget(wordsLabel(u"In the logbook at this school, in a grade of this list, but in no "
                               "row of it. Import changes nothing about them. Ask the school who "
                               "moved or left, select them (Ctrl+A: all) and record it."_s,
                               u"note"_s, {}, tab));
  column->addWidget(missing_, 2);
  column->addWidget(outsideTitle_);
  column->addWidget(outside_, 1);
  column->addLayout(keys);
  return tab;
}

QWidget* ListPage::changedTab() {
  auto* tab = new QWidget(this);
  changed_ = listTable(u"listChanged"_s, u"Changed students"_s, tab);
  auto* column = new QVBoxLayout(tab);
  column->addWidget(
      wordsLabel(u"What the import changes. Changed names and birth dates are on top: "
                 "check that each is the same student."_s,
                 u"note"_s, {}, tab));
  column->addWidget(changed_, 1);
  return tab;
}

void ListPage::layOut() {
  title_ = wordsLabel({}, u"title"_s, u"listTitle"_s, this);
  counts_ = wordsLabel({}, u"counts"_s, u"listCounts"_s, this);
  trouble_ = wordsLabel({}, u"wrong"_s, u"listTrouble"_s, this);
  tabs_ = new QTabWidget(this);
  tabs_->setObjectName(u"listTabs"_s);
  tabs_->addTab(columnsTab(), u"Columns"_s);
  tabs_->addTab(pairsTab(), u"Pairs"_s);
  tabs_->addTab(heldTab(), u"Rows that wait"_s);
  skipped_ = listTable(u"listSkipped"_s, u"Skipped rows"_s, this);
  tabs_->addTab(skipped_, u"Skipped"_s);
  tabs_->addTab(missingTab(), u"Not on this list"_s);
  tabs_->addTab(changedTab(), u"Changed"_s);
  for (auto* table : {pair_, held_, skipped_, missing_, outside_, changed_}) {
    new LastColumn(*table); // the columns' own choices are fitted by themselves
    // Its headings have the new letters only once they were dressed themselves.
    style::whenDressed(table, [table] {
      QTimer::singleShot(0, table, [table] { table->resizeColumnsToContents(); });
    });
  }
  import_ = keyButton(u"Import"_s, QKeySequence(Qt::ALT | Qt::Key_S), u"listImport"_s, this);
  import_->setProperty("look", u"main"_s);
  connect(import_, &QPushButton::clicked, this, &ListPage::import);
  auto* leaving = keyButton(u"Cancel"_s, QKeySequence(Qt::Key_Escape), u"listLeave"_s, this);
  connect(leaving, &QPushButton::clicked, this, &ListPage::leave);
  auto* keys = new FlowLayout(6);
  keys->addWidget(import_);
  keys->addWidget(leaving);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(12, 4, 8, 4);
  column->setSpacing(6);
  column->addWidget(title_);
  column->addWidget(counts_);
  column->addWidget(trouble_);
  column->addWidget(tabs_, 1);
  column->addLayout(keys);
  setFocusProxy(tabs_);
}

void ListPage::showHeadings() {
  const auto& rows = list_->draft.rows();
  const auto chosen = list_->draft.layout().heading;
  heading_->clear();
  heading_->addItem(u"No row"_s, -1);
  for (std::size_t i = 0; i < rows.size(); ++i) {
    if (i >= rowsOfHeadings && chosen != i) continue;
    QStringList words;
    for (const auto& cell : rows[i].cells)
      if (!cell.empty()) words += toQt(cell);
    if (words.size() < 2 && chosen != i) continue; // a title
    heading_->addItem(u"Line %1: %2"_s.arg(rows[i].line).arg(words.join(u", "_s)),
                      static_cast<int>(i));
    if (chosen == i) heading_->setCurrentIndex(heading_->count() - 1);
  }
}

void ListPage::takeHeading() {
  if (showing_ || !list_) return;
  const auto row = heading_->currentData().toInt();
  list_->draft.useHeading(row < 0 ? std::nullopt : std::optional(static_cast<std::size_t>(row)));
  showColumns();
  look();
}

void ListPage::showSchools() {
  const auto schools = list_->draft.schools();
  const auto& meant = list_->draft.layout().rowsOf;
  rowsOf_->clear();
  rowsOf_->addItems({u"Not said"_s, u"All schools"_s});
  if (meant && meant->empty()) rowsOf_->setCurrentIndex(1);
  for (const auto& school : schools) {
    rowsOf_->addItem(toQt(school));
    if (meant && !meant->empty() && base::folded(*meant) == base::folded(school))
      rowsOf_->setCurrentIndex(rowsOf_->count() - 1);
  }
  schoolRow_->setVisible(schools.size() > 1);
}

} // namespace gk::ui
