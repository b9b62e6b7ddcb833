#include "base/files/files.h"
#include "base/text/csv.h"
#include "roster/display_names.h"
#include "session/importing/changed_words.h"
#include "ui/asking/context.h"
#include "ui/asking/long_work.h"
#include "ui/asking/read_date.h"
#include "ui/desk/list_page.h"
#include "ui/forms/field.h"
#include "ui/support/text.h"

#include <QItemSelectionModel>
#include <QLabel>
#include <QPushButton>
#include <QTableWidget>

// What looks through a school's list, and whom that leaves out and whom it changes, by name: the
// session counts them, and writes that they left where a person says so.
namespace gk::ui {

namespace {

void putCell(QTableWidget* table, int row, int column, const std::string& words) {
  auto* item = new QTableWidgetItem(toQt(words));
  item->setFlags(item->flags() & ~Qt::ItemIsEditable);
  table->setItem(row, column, item);
}

void showStudents(session::Session& book, QTableWidget* table,
                  const std::vector<session::MissingChild>& students) {
  table->clear();
  table->setColumnCount(4);
  table->setHorizontalHeaderLabels({u"Number"_s, u"Name"_s, u"Grade"_s, u"Room"_s});
  table->setRowCount(static_cast<int>(students.size()));
  for (int i = 0; i < static_cast<int>(students.size()); ++i) {
    const auto& one = students[static_cast<std::size_t>(i)];
    const auto card = book.child(one.child);
    const auto identity = book.identity(one.child);
    putCell(table, i, 0, one.number);
    putCell(table, i, 1, identity ? identity->last + ", " + identity->first : std::string());
    putCell(table, i, 2, one.grade.empty() ? std::string("after 12") : one.grade);
    putCell(table, i, 3, card ? card->value.room : std::string());
  }
  table->resizeColumnsToContents();
}

/// What is looked at before a person could see that something runs: more than most schools' lists.
constexpr std::size_t rowsAtOnce = 1000;

} // namespace

void ListPage::look() {
  isReadable_ = false;
  const auto list = list_;
  const auto work = [&session = book(), list](const base::Progress& progress) {
    return list->draft.look(session, list->aim, progress);
  };
  if (list->draft.rows().size() <= rowsAtOnce) return showLooked(work({}));
  import_->setEnabled(false);
  // The names that it is held against are the logbook's, which nothing else asks meanwhile.
  context().work.runOnBook(LongKind::lookAtList, this, book(), work,
                           [this, list](const base::Result<base::Done>& looked) {
                             if (list_ == list) showLooked(looked);
                           });
}

void ListPage::showLooked(const base::Result<base::Done>& looked) {
  isReadable_ = looked.has_value();
  showing_ = true; // the column of the school may be another now
  showSchools();
  showing_ = false;
  using roster::RosterColumn;
  gradeRow_->setVisible(!list_->draft.layout().has(RosterColumn::grade));
  roomRow_->setVisible(!list_->draft.layout().has(RosterColumn::room));
  trouble_->setVisible(!isReadable_);
  trouble_->setText(isReadable_ ? QString()
                                : u"✖ "_s + capital(toQt(looked.error().detail)) + u'.');
  showNotes();
  showCounts();
  if (!looked && looked.error().code == base::ErrorCode::workCanceled)
    counts_->setText(u"Any change of a choice reads it again."_s);
  showPair();
  showHeld();
  showSkipped();
  showMissing();
  showChanged();
}

void ListPage::showMissing() {
  const auto& plan = list_->draft.plan();
  showStudents(book(), missing_, plan.missing);
  showStudents(book(), outside_, plan.outside);
  for (auto* widget : std::initializer_list<QWidget*>{outsideTitle_, outside_})
    widget->setVisible(!plan.outside.empty());
  saveMissing_->setEnabled(!plan.missing.empty());
  left_->setEnabled(!plan.missing.empty() || !plan.outside.empty());
}

void ListPage::showChanged() {
  const auto schools = book().schools();
  const auto lines =
      session::changedLines(list_->draft.plan(), [&](roster::SchoolId id) -> std::string {
        if (schools)
          for (const auto& school : *schools)
            if (school.id == id) return roster::shownAmong(school.value, *schools);
        return "another school";
      });
  changed_->clear();
  changed_->setColumnCount(4);
  changed_->setHorizontalHeaderLabels({u"Number"_s, u"Name"_s, u"In the logbook"_s, u"After"_s});
  changed_->setRowCount(static_cast<int>(lines.size()));
  for (int i = 0; i < static_cast<int>(lines.size()); ++i) {
    const auto& one = lines[static_cast<std::size_t>(i)];
    putCell(changed_, i, 0, one.number);
    // A mark besides the place at the top: who it is changes.
    putCell(changed_, i, 1, (one.isWho ? "\xE2\x89\xA0 " : "") + one.name);
    putCell(changed_, i, 2, one.before);
    putCell(changed_, i, 3, one.after);
  }
  changed_->resizeColumnsToContents();
}

void ListPage::saveMissing() {
  if (!list_) return;
  std::string csv = "\xEF\xBB\xBF" + base::csvLine({"number", "first", "last", "grade", "room"});
  for (const auto& one : list_->draft.plan().missing) {
    const auto card = book().child(one.child);
    const auto identity = book().identity(one.child);
    const bool isUnread = !identity && identity.error().code == base::ErrorCode::vaultDamaged;
    if (!went(card) || (!isUnread && !went(identity))) return; // no file that leaves one out
    csv += base::csvLine({one.number, isUnread ? "" : identity->first,
                          isUnread ? "" : identity->last, card->value.grade, card->value.room});
  }
  const auto path = context().prompter.saveFile(u"Not on this list"_s, u"not-on-this-list.csv"_s,
                                                u"CSV (*.csv)"_s, FileHolds::names);
  if (!path || !went(base::replaceFile(toStd(*path), csv))) return;
  Q_EMIT said(u"Saved %1. The file has names: keep it safe, delete it when done."_s.arg(*path));
}

void ListPage::recordLeft() {
  if (!list_) return;
  const auto& plan = list_->draft.plan();
  std::vector<roster::ChildId> children;
  for (const auto& [table, students] :
       {std::pair(missing_, &plan.missing), std::pair(outside_, &plan.outside)})
    for (const auto& row : table->selectionModel()->selectedRows())
      children.push_back(students->at(static_cast<std::size_t>(row.row())).child);
  if (children.empty()) {
    missing_->setFocus();
    Q_EMIT said(u"Select who left first: Space or Ctrl+A, then Alt+L."_s);
    return;
  }
  const auto who = counted(std::ssize(children), "student", "students");
  auto& prompter = context().prompter;
  const auto why =
      prompter.decide(u"Why did %1 leave?"_s.arg(who), optionsOf<roster::LeftBecause>());
  if (!why) return;
  const auto because = static_cast<roster::LeftBecause>(*why);
  QString words;
  if (because == roster::LeftBecause::other) {
    const auto said =
        prompter.text(u"Other: why did %1 leave, in a few words? No names."_s.arg(who), {});
    if (!said) return;
    words = *said;
  }
  const auto typed = prompter.text(u"The first day without %1:"_s.arg(who),
                                   toQt(context().clock.now().date().iso()));
  if (!typed) return;
  const auto from = readDate(*typed, prompter);
  if (!went(from)) return;
  if (!went(book().leaveProgram(by_(), children, {*from, because}, toStd(words)))) return;
  look();
  Q_EMIT said(
      u"%1 recorded as left. All records stay and count. To undo: Esc, then Alt+Z."_s.arg(who));
}

} // namespace gk::ui
