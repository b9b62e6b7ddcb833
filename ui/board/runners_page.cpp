#include "ui/board/runners_page.h"

#include "reports/calls/runners_list.h"
#include "reports/print/render.h"
#include "ui/files/named_file.h"
#include "ui/files/save_report.h"
#include "ui/keys/flow_layout.h"
#include "ui/keys/key_button.h"
#include "ui/lists/cell_delegate.h"
#include "ui/lists/last_column.h"
#include "ui/look/style.h"
#include "ui/models/table_model.h"
#include "ui/support/text.h"

#include <QHeaderView>
#include <QLabel>
#include <QPagedPaintDevice>
#include <QPushButton>
#include <QTableView>
#include <QTextDocument>
#include <QVBoxLayout>

#include <algorithm>

namespace gk::ui {

RunnersPage::RunnersPage(Context& context, QWidget* parent)
    : Page(context, parent), title_(wordsLabel({}, u"title"_s, u"runnersTitle"_s, this)),
      table_(new QTableView(this)), model_(new TableModel(this)) {
  setObjectName(u"runnersPage"_s);
  table_->setObjectName(u"runnersTable"_s);
  table_->setAccessibleName(u"Rooms and names of students to bring"_s);
  table_->setModel(model_);
  table_->setItemDelegate(new CellDelegate(table_));
  table_->setSelectionBehavior(QAbstractItemView::SelectRows);
  table_->setTabKeyNavigation(false);
  table_->verticalHeader()->hide();
  new LastColumn(*table_);
  style::whenDressed(table_, [this] {
    table_->verticalHeader()->setDefaultSectionSize(style::px(28));
    table_->horizontalHeader()->setDefaultSectionSize(style::px(160));
  });
  auto* keys = new FlowLayout(6);
  const auto key = [&](const QString& words, const QKeySequence& hint, const QString& name,
                       auto act) {
    auto* made = keyButton(words, hint, name, this);
    connect(made, &QPushButton::clicked, this, act);
    keys->addWidget(made);
  };
  key(u"Print"_s, QKeySequence(Qt::ALT | Qt::Key_P), u"runnersPrint"_s, [this] { print(); });
  key(u"Save"_s, QKeySequence(Qt::ALT | Qt::Key_S), u"runnersSave"_s, [this] { save(); });
  key(u"Back"_s, QKeySequence(Qt::Key_Escape), u"runnersBack"_s, [this] { Q_EMIT backedOut(); });
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->addWidget(title_);
  column->addLayout(keys); // above the list, in sight in letters of any size
  column->addWidget(
      wordsLabel(u"Names and rooms only. Count the sheets out and back in, then shred them."_s,
                 u"counts"_s, {}, this));
  column->addWidget(table_, 1);
  setFocusProxy(table_);
}

void RunnersPage::begin(const base::Recorded<roster::ClinicDay>& day) {
  day_ = day;
  refresh();
  table_->setFocus();
}

void RunnersPage::refresh() {
  if (!day_) return;
  const auto schools = book().schools();
  const auto lines = book().board(day_->id);
  if (!went(schools) || !went(lines)) return;
  std::vector<reports::ToFetch> children;
  for (const auto& line : *lines)
    if (line.place == session::Place::waiting || line.place == session::Place::parked)
      children.push_back({line.room, line.name});
  const auto school =
      std::ranges::find(*schools, day_->value.school, &base::Recorded<roster::School>::id);
  list_ = reports::runnersList(school == schools->end() ? std::string() : school->value.name,
                               day_->value.date, std::move(children));
  title_->setText(toQt(list_.title) + u": %1 to bring"_s.arg(list_.rows.size()));
  model_->show(list_);
  table_->resizeColumnsToContents();
}

void RunnersPage::print() {
  const auto printer = context().prompter.printer();
  if (!printer) return;
  const auto draw = [printer, list = list_](const base::Progress&) -> base::Result<base::Done> {
    QTextDocument pages;
    pages.setHtml(toQt(reports::toHtml(list.title, std::vector{list})));
    pages.print(printer.get());
    return base::Done{};
  };
  context().work.run(
      LongKind::letters, this, draw, [this, day = day_->id](const base::Result<base::Done>& done) {
        if (!went(done)) return;
        // One list, however many pages it has: they stay together.
        if (wentAfter(u"The list is printed, but not counted out: count it at the close-out."_s,
                      book().countOut(context().acting.by(), day, followup::Paper::runnersList, 1)))
          Q_EMIT said(u"The runner's list is printed and counted out."_s);
      });
}

void RunnersPage::save() {
  saveReport(context(), this, {list_.title, toQt(list_.title), FileHolds::names, {list_}, list_},
             [this](const base::Result<QString>& saved) {
               if (went(saved)) Q_EMIT said(savedWords(*saved));
             });
}

} // namespace gk::ui
