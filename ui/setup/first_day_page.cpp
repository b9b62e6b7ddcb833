#include "ui/setup/first_day_page.h"

#include "reports/display_names.h"
#include "ui/asking/context.h"
#include "ui/keys/key_button.h"
#include "ui/lists/cell_delegate.h"
#include "ui/lists/last_column.h"
#include "ui/look/style.h"
#include "ui/models/table_model.h"
#include "ui/support/text.h"

#include <QHeaderView>
#include <QLabel>
#include <QPushButton>
#include <QTableView>
#include <QVBoxLayout>

#include <algorithm>

namespace gk::ui {

namespace {

using session::AreaStanding;
using session::FirstDayState;

constexpr int lineHeight = 34; ///< pixels at the usual size
constexpr int leastLines = 5;  ///< the heading among them; with large letters the page scrolls

std::string markedWords(const FirstDayState& state) {
  const auto* const mark = state.standing == AreaStanding::ready ? "✔ "
                           : state.standing == AreaStanding::ask ? "▲ "
                                                                 : "✖ ";
  return mark + std::string(base::displayName(state.item));
}

} // namespace

base::Result<std::vector<FirstDayState>> firstDayNow(Context& context) {
  return context.session.firstDay(context.clock.now().date(),
                                  !context.acting.habits().backup.folder.empty());
}

QStringList missingWords(const std::vector<FirstDayState>& list) {
  QStringList lines;
  for (const auto& state : list)
    if (state.standing == AreaStanding::missing) lines += u"✖ "_s + toQt(state.open.front());
  return lines;
}

FirstDayPage::FirstDayPage(Context& context, QWidget* parent)
    : Page(context, parent), done_(wordsLabel({}, u"counts"_s, u"firstDayDone"_s, this)),
      table_(new QTableView(this)), model_(new TableModel(this)),
      todo_(wordsLabel({}, {}, u"firstDayTodo"_s, this)) {
  setObjectName(u"firstDayPage"_s);
  table_->setObjectName(u"firstDayTable"_s);
  table_->setAccessibleName(u"Ready for the first day"_s);
  table_->setModel(model_);
  table_->setItemDelegate(new CellDelegate(table_));
  table_->setSelectionBehavior(QAbstractItemView::SelectRows);
  table_->setSelectionMode(QAbstractItemView::SingleSelection);
  table_->setTabKeyNavigation(false);
  table_->setShowGrid(false);
  table_->setWordWrap(true);
  table_->verticalHeader()->hide();
  table_->horizontalHeader()->setDefaultAlignment(Qt::AlignLeft | Qt::AlignVCenter);
  new LastColumn(*table_);
  table_->horizontalHeader()->setHighlightSections(false);
  auto* go =
      keyButton(u"Open this item"_s, QKeySequence(Qt::ALT | Qt::Key_A), u"firstDayOpen"_s, this);
  go->setProperty("look", u"main"_s);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(12, 4, 8, 4);
  column->setSpacing(6);
  column->addWidget(wordsLabel(u"Ready for the first day"_s, u"title"_s, {}, this));
  column->addWidget(done_);
  column->addWidget(wordsLabel(
      u"✖ keeps a day from being worked, ▲ should be done. Stop at any time; Alt+0 returns here."_s,
      u"note"_s, {}, this));
  column->addWidget(table_, 1);
  column->addWidget(todo_);
  column->addWidget(go, 0, Qt::AlignLeft);
  setFocusProxy(table_);
  connect(table_->selectionModel(), &QItemSelectionModel::currentRowChanged, this,
          [this](const QModelIndex& now) {
            const auto row = static_cast<std::size_t>(now.row());
            if (!now.isValid() || row >= list_.size()) return;
            QStringList sentences;
            for (const auto& sentence : list_[row].open)
              sentences += toQt(sentence);
            todo_->setText(toQt(list_[row].why) + u'\n' +
                           (sentences.isEmpty() ? u"✔ Nothing to do here."_s
                                                : u"▶ "_s + sentences.join(u' ')));
          });
  connect(table_, &QTableView::activated, this, &FirstDayPage::choose);
  connect(table_, &QTableView::clicked, this, &FirstDayPage::choose);
  connect(go, &QPushButton::clicked, this, &FirstDayPage::choose);
  style::whenDressed(this, [this] {
    table_->verticalHeader()->setDefaultSectionSize(style::px(lineHeight));
    table_->setMinimumHeight(style::px(lineHeight) * leastLines);
    refresh();
  });
}

void FirstDayPage::refresh() {
  auto list = firstDayNow(context());
  if (!went(list)) return;
  list_ = std::move(*list);
  const auto kept = table_->currentIndex().row();
  reports::Table table{"Ready for the first day", {{"Item"}, {"Now"}, {"Why it matters"}}, {}, {}};
  for (const auto& state : list_)
    table.rows.push_back({markedWords(state), state.words, state.why});
  model_->show(std::move(table));
  table_->resizeColumnToContents(0);
  table_->resizeColumnToContents(1);
  const auto ready = std::ranges::count(list_, AreaStanding::ready, &FirstDayState::standing);
  const auto missing = std::ranges::count(list_, AreaStanding::missing, &FirstDayState::standing);
  done_->setText(ready == std::ssize(list_)
                     ? u"✔ All %1 items are done."_s.arg(ready)
                     : u"%1 of %2 done. "_s.arg(ready).arg(list_.size()) +
                           (missing == 0
                                ? u"A day can be opened."_s
                                : u"%1 missing before a day can be worked."_s.arg(missing)));
  if (kept >= 0)
    table_->setCurrentIndex(model_->index(kept, 0));
  else
    pointAtNext();
}

void FirstDayPage::pointAtNext() {
  const auto* next = session::nextOf(list_);
  const auto row = next ? static_cast<int>(next - list_.data()) : 0;
  table_->setCurrentIndex(model_->index(row, 0));
}

void FirstDayPage::choose() {
  const auto row = table_->currentIndex().row();
  if (row < 0 || row >= std::ssize(list_)) return;
  Q_EMIT wanted(list_[static_cast<std::size_t>(row)].item);
}

} // namespace gk::ui
