#include "ui/consent/form_count_page.h"

#include "base/text/text.h"
#include "reports/calls/forms_list.h"
#include "reports/display_names.h"
#include "ui/files/named_file.h"
#include "ui/files/save_report.h"
#include "ui/keys/flow_layout.h"
#include "ui/keys/key_button.h"
#include "ui/lists/cell_delegate.h"
#include "ui/lists/last_column.h"
#include "ui/look/choice_box.h"
#include "ui/look/style.h"
#include "ui/models/table_model.h"
#include "ui/support/retired.h"
#include "ui/support/text.h"

#include <QComboBox>
#include <QHeaderView>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QTableView>
#include <QVBoxLayout>

#include <algorithm>

namespace gk::ui {

FormCountPage::FormCountPage(Context& context, std::function<base::By()> by, QWidget* parent)
    : Page(context, parent), by_(std::move(by)), countModel_(new TableModel(this)),
      chaseModel_(new TableModel(this)) {
  setObjectName(u"formCountPage"_s);
  layOut();
}

QTableView* FormCountPage::table(TableModel* model, const QString& words, const QString& name) {
  auto* made = new QTableView(this);
  made->setObjectName(name);
  made->setAccessibleName(words);
  made->setModel(model);
  made->setItemDelegate(new CellDelegate(made));
  made->setSelectionBehavior(QAbstractItemView::SelectRows);
  made->setTabKeyNavigation(false);
  made->verticalHeader()->hide();
  new LastColumn(*made);
  style::whenDressed(made,
                     [made] { made->verticalHeader()->setDefaultSectionSize(style::px(28)); });
  return made;
}

void FormCountPage::layOut() {
  title_ = wordsLabel({}, u"section"_s, u"formCountTitle"_s, this);
  school_ = new ChoiceBox(this);
  school_->setObjectName(u"formCountSchool"_s);
  school_->setAccessibleName(u"School"_s);
  connect(school_, &QComboBox::currentIndexChanged, this, [this] {
    if (!reading_) showTables();
  });
  auto* keys = new FlowLayout(6);
  const auto key = [&](const QString& words, const QKeySequence& hint, const QString& name,
                       auto act) {
    auto* made = keyButton(words, hint, name, this);
    connect(made, &QPushButton::clicked, this, act);
    keys->addWidget(made);
  };
  keys->addWidget(school_);
  key(u"Print chase list"_s, QKeySequence(Qt::ALT | Qt::Key_P), u"formChasePrint"_s,
      [this] { print(chase_); });
  key(u"Save chase list"_s, QKeySequence(Qt::ALT | Qt::Key_S), u"formChaseSave"_s,
      [this] { save(chase_, FileHolds::names); });
  key(u"Print counts"_s, QKeySequence(Qt::ALT | Qt::Key_T), u"formCountPrint"_s,
      [this] { print(counts_); });
  key(u"Save counts"_s, QKeySequence(Qt::ALT | Qt::Key_V), u"formCountSave"_s,
      [this] { save(counts_, FileHolds::noNames); });
  key(u"Back to forms"_s, QKeySequence(Qt::Key_Escape), u"formCountBack"_s,
      [this] { Q_EMIT backedOut(); });
  auto* out = new FlowLayout(6);
  const auto line = [&](const QString& words, const QString& name, int width) {
    auto* made = new QLineEdit(this);
    made->setObjectName(name);
    made->setPlaceholderText(words);
    made->setAccessibleName(words);
    style::whenDressed(made, [made, width] { made->setFixedWidth(style::px(width)); });
    out->addWidget(made);
    return made;
  };
  auto* words = wordsLabel(u"Handed out today:"_s, u"field"_s, {}, this);
  words->setWordWrap(false);
  out->addWidget(words);
  room_ = line(u"Room, blank: whole school"_s, u"handoutRoom"_s, 230);
  copies_ = line(u"Forms"_s, u"handoutCopies"_s, 90);
  version_ = line(u"Form version"_s, u"handoutVersion"_s, 150);
  auto* add = keyButton(u"Add handed-out forms"_s, QKeySequence(Qt::ALT | Qt::Key_H),
                        u"handoutAdd"_s, this);
  auto* lines =
      keyButton(u"Handed-out lines"_s, QKeySequence(Qt::ALT | Qt::Key_L), u"handoutLines"_s, this);
  connect(lines, &QPushButton::clicked, this, &FormCountPage::handoutsWanted);
  connect(add, &QPushButton::clicked, this, &FormCountPage::handOut);
  connect(copies_, &QLineEdit::returnPressed, this, &FormCountPage::handOut);
  out->addWidget(add);
  out->addWidget(lines);
  countTable_ = table(countModel_, u"Forms by school and room"_s, u"formCountTable"_s);
  chaseTable_ = table(chaseModel_, u"Students whose form is to be chased"_s, u"formChaseTable"_s);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(6);
  column->addWidget(title_);
  column->addLayout(keys);
  column->addLayout(out);
  style::whenDressed(countTable_, [this] {
    countTable_->setMinimumHeight(style::px(150));
    chaseTable_->setMinimumHeight(style::px(150));
  });
  column->addWidget(countTable_, 2);
  column->addWidget(wordsLabel(u"To chase. The list names students: keep it locked up."_s,
                               u"field"_s, u"formChaseTitle"_s, this));
  column->addWidget(chaseTable_, 3);
  setFocusProxy(school_);
}

void FormCountPage::begin(std::optional<roster::TermId> term) {
  term_ = term;
  refresh();
  school_->setFocus();
}

void FormCountPage::letGo() {
  chase_ = {};
  chaseModel_->show({});
}

std::optional<roster::SchoolId> FormCountPage::school() const {
  const auto at = school_->currentIndex();
  if (at <= 0 || at > static_cast<int>(schools_.size())) return std::nullopt;
  return schools_[static_cast<std::size_t>(at) - 1];
}

void FormCountPage::refresh() {
  readSchools();
  showTables();
}

void FormCountPage::readSchools() {
  const auto schools = book().schools();
  if (!went(schools)) return;
  const auto kept = school();
  reading_ = true;
  schools_.clear();
  school_->clear();
  school_->addItem(u"All schools"_s);
  for (const auto& one : *schools) {
    schools_.push_back(one.id);
    school_->addItem(toQt(roster::shownAmong(one.value, *schools)));
    if (kept == one.id) school_->setCurrentIndex(school_->count() - 1);
  }
  retireOthers(*school_, *schools, book().openSchools(context().clock.now().date()), 1);
  if (const auto part = book().oneSchool(); part && *part) retire(*school_, 0); // it is not all
  reading_ = false;
}

void FormCountPage::showTables() {
  if (!term_) return title_->setText(u"No term yet. Enter it first: Desk (F8), Terms."_s);
  const auto today = context().clock.now().date();
  const auto terms = book().terms();
  const auto schools = book().schools();
  const auto counts = book().formCounts(*term_, today, school());
  const auto lines = book().formLines(*term_, today, school(), true);
  if (!went(terms) || !went(schools) || !went(counts) || !went(lines)) return;
  const auto term = std::ranges::find(*terms, *term_, &base::Recorded<roster::Term>::id);
  const auto name = term == terms->end() ? std::string() : term->value.name;
  const auto schoolName = [&](roster::SchoolId id) {
    const auto at = std::ranges::find(*schools, id, &base::Recorded<roster::School>::id);
    return at == schools->end() ? std::string() : roster::shownAmong(at->value, *schools);
  };
  std::vector<reports::FormsOfRoom> rooms;
  for (const auto& one : *counts)
    rooms.push_back({schoolName(one.school), one.room, one.children, one.handedOut,
                     one.yes + one.yesWithLimits, one.no, one.incomplete,
                     one.withdrawn + one.onHold, one.left, one.missing()});
  counts_ = reports::formCountTable(name, today, rooms);
  std::vector<reports::FormToChase> chase;
  if (book().isUnlocked())
    for (const auto& one : *lines)
      if (roster::isToChase(one.of.state))
        chase.push_back({schoolName(one.of.school), one.of.room, one.grade, one.number, one.name,
                         std::string(base::displayName(one.of.state)), one.guardian, one.phone,
                         one.language});
  chase_ = reports::formsToChaseTable(name, today, std::move(chase));
  title_->setText(u"%1: %2 to chase"_s.arg(toQt(name)).arg(chase_.rows.size()));
  countModel_->show(counts_);
  chaseModel_->show(chase_);
  for (auto* shown : {countTable_, chaseTable_})
    shown->resizeColumnsToContents();
}

void FormCountPage::handOut() {
  if (!term_) return;
  const auto of = school();
  if (!of) {
    school_->setFocus();
    return Q_EMIT said(u"Choose the school that got the forms."_s);
  }
  const auto copies = base::parseInt(toStd(copies_->text().trimmed()));
  if (!went(copies)) return copies_->setFocus();
  const auto today = context().clock.now().date();
  const auto fits = *copies > 0 && *copies <= roster::mostCopies;
  const roster::FormHandout handout{*term_,
                                    *of,
                                    toStd(room_->text().trimmed()),
                                    today,
                                    fits ? static_cast<int>(*copies) : 0,
                                    toStd(version_->text().trimmed())};
  if (!went(book().enterHandout(by_(), handout))) return;
  copies_->clear();
  room_->clear();
  room_->setFocus();
  showTables();
  Q_EMIT said(u"Handed out: %1. Wrong? Correct the line (Alt+L)."_s.arg(
      counted(handout.copies, "form", "forms")));
}

void FormCountPage::print(const reports::Table& table) {
  if (table.rows.empty()) return Q_EMIT said(u"There is nothing to print."_s);
  printReport(context(), this, LongKind::report, {table}, footOf(context(), toQt(table.title)),
              [this](const base::Result<base::Done>& done) {
                if (went(done))
                  Q_EMIT said(u"Printed. Shred pages that name students after use."_s);
              });
}

void FormCountPage::save(const reports::Table& table, FileHolds holds) {
  if (table.rows.empty()) return Q_EMIT said(u"There is nothing to save."_s);
  saveReport(context(), this, {table.title, toQt(table.title), holds, {table}, table},
             [this, holds](const base::Result<QString>& saved) {
               if (went(saved))
                 Q_EMIT said(holds == FileHolds::names ? savedWords(*saved)
                                                       : u"Saved: "_s + *saved);
             });
}

} // namespace gk::ui
