#include "ui/forms/area_page.h"
#include "ui/forms/field_form.h"
#include "ui/keys/flow_layout.h"
#include "ui/keys/key_button.h"
#include "ui/lists/cell_delegate.h"
#include "ui/lists/last_column.h"
#include "ui/look/style.h"
#include "ui/models/table_model.h"

#include <QHeaderView>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QScrollArea>
#include <QScrollBar>
#include <QShortcut>
#include <QTableView>
#include <QTimer>
#include <QVBoxLayout>

// How a page of the desk is laid out; what it does is in area_page.cpp.
namespace gk::ui {

AreaPage::AreaPage(Context& context, AreaSpec spec, std::function<base::By(base::Station)> by,
                   QWidget* parent)
    : Page(context, parent), spec_(std::move(spec)), by_(std::move(by)) {
  setObjectName(u"desk"_s + spec_.name);
  layOut();
  showForm(false);
}

QPushButton* AreaPage::button(const QString& words, const QKeySequence& key, const QString& name) {
  return keyButton(words, key, objectName() + name, this);
}

void AreaPage::layOut() {
  const auto name = objectName();
  auto* header = new QBoxLayout(QBoxLayout::LeftToRight);
  header->addWidget(wordsLabel(spec_.title, u"title"_s, name + u"Title"_s, this), 1);
  auto* adds = new FlowLayout(6);
  header->addLayout(adds);
  auto* acts = new FlowLayout(6);
  for (std::size_t i = 0; i < spec_.forms.size(); ++i) {
    const auto& form = spec_.forms[i];
    auto* made = button(form.words, QKeySequence(Qt::ALT | form.key), form.name);
    made->setCheckable(true);
    connect(made, &QPushButton::clicked, this, [this, i] {
      if (mayLeave()) open(i);
      showButtons();
    });
    buttons_.push_back(made);
    if (form.isOfThing)
      acts->addWidget(made);
    else
      adds->addWidget(made);
  }
  open_ = wordsLabel({}, u"note"_s, name + u"Open"_s, this);
  table_ = new QTableView(this);
  model_ = new TableModel(this);
  table_->setObjectName(name + u"Table"_s);
  table_->setAccessibleName(spec_.title);
  table_->setModel(model_);
  table_->setItemDelegate(new CellDelegate(table_));
  table_->setSelectionBehavior(QAbstractItemView::SelectRows);
  table_->setSelectionMode(QAbstractItemView::SingleSelection);
  table_->setTabKeyNavigation(false);
  table_->setShowGrid(false);
  table_->setWordWrap(false);
  table_->verticalHeader()->hide();
  table_->horizontalHeader()->setDefaultAlignment(Qt::AlignLeft | Qt::AlignVCenter);
  new LastColumn(*table_);
  connect(table_->horizontalScrollBar(), &QScrollBar::rangeChanged, this, &AreaPage::fitHeight);
  table_->horizontalHeader()->setHighlightSections(false);
  table_->installEventFilter(this);
  connect(table_->selectionModel(), &QItemSelectionModel::currentRowChanged, this,
          [this](const QModelIndex& now) {
            if (!reading_) choose(now.row());
          });

  auto* inside = new QWidget(this);
  formTitle_ = wordsLabel({}, u"counts"_s, name + u"FormTitle"_s, inside);
  note_ = wordsLabel({}, u"note"_s, name + u"Note"_s, inside);
  fields_ = new FieldForm(name, context().prompter, inside);
  history_ = wordsLabel({}, u"note"_s, name + u"History"_s, inside);
  auto* form = new QVBoxLayout(inside);
  form->setContentsMargins(0, 4, 8, 4);
  for (auto* part : {static_cast<QWidget*>(formTitle_), static_cast<QWidget*>(note_),
                     static_cast<QWidget*>(fields_), static_cast<QWidget*>(history_)})
    form->addWidget(part);
  form->addStretch(1);
  auto* scroll = new QScrollArea(this);
  scroll->setObjectName(name + u"Scroll"_s);
  scroll->setWidget(inside);
  scroll->setWidgetResizable(true);
  scroll->setFrameShape(QFrame::NoFrame);
  scroll->setFocusPolicy(Qt::NoFocus);
  scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);

  trouble_ = wordsLabel({}, u"wrong"_s, name + u"Trouble"_s, this);
  save_ = new QPushButton(this);
  save_->setObjectName(name + u"Save"_s);
  save_->setProperty("look", u"main"_s);
  save_->setAutoDefault(false);
  auto* saving = new QShortcut(QKeySequence(Qt::ALT | Qt::Key_S), save_);
  saving->setAutoRepeat(false);
  connect(saving, &QShortcut::activated, save_, &QPushButton::click);
  connect(save_, &QPushButton::clicked, this, &AreaPage::save);
  leave_ = button(u"Discard changes"_s, QKeySequence(Qt::Key_Escape), u"Leave"_s);
  connect(leave_, &QPushButton::clicked, this, &AreaPage::leave);
  auto* undoing = button(u"Undo"_s, QKeySequence(Qt::ALT | Qt::Key_Z), u"Undo"_s);
  connect(undoing, &QPushButton::clicked, this, &AreaPage::undo);
  auto* foot = new FlowLayout(6);
  for (auto* key : {save_, leave_, undoing})
    foot->addWidget(key);

  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(12, 4, 8, 4);
  column->setSpacing(6);
  column->addLayout(header);
  column->addWidget(open_);
  if (!spec_.search.isEmpty()) {
    search_ = new QLineEdit(this);
    search_->setObjectName(name + u"Search"_s);
    search_->setPlaceholderText(spec_.search);
    search_->setAccessibleName(spec_.search);
    search_->setClearButtonEnabled(true);
    search_->installEventFilter(this);
    connect(search_, &QLineEdit::textChanged, this, &AreaPage::readRows);
    column->addWidget(search_);
  }
  column->addWidget(table_);
  column->addLayout(acts);
  column->addWidget(scroll, 1);
  column->addWidget(trouble_);
  column->addLayout(foot);
  connect(fields_, &FieldForm::edited, this, [this] {
    trouble_->hide();
    leave_->setEnabled(hasChanges());
  });
  connect(fields_, &FieldForm::entered, this, &AreaPage::save);
  setFocusProxy(search_ ? static_cast<QWidget*>(search_) : table_);
  style::whenDressed(this, [this, header] {
    // Large letters leave no room beside the title.
    header->setDirection(lookNow().percent > 120 ? QBoxLayout::TopToBottom
                                                 : QBoxLayout::LeftToRight);
    table_->verticalHeader()->setDefaultSectionSize(style::px(deskRowHeight));
    readRows();
    // The list and its headings have the new letters only once they were dressed themselves.
    QTimer::singleShot(0, this, [this] {
      table_->resizeColumnsToContents();
      fitHeight();
    });
  });
}

} // namespace gk::ui
