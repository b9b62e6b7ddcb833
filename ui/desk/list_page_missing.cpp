#include "roster/display_names.h"
#include "ui/asking/context.h"
#include "ui/asking/read_date.h"
#include "ui/desk/list_page.h"
#include "ui/forms/field.h"
#include "ui/support/text.h"

#include <QItemSelectionModel>
#include <QPushButton>
#include <QTableWidget>

// Whom the school's list leaves out, by name: the session counts them, and writes that they left
// where a person says so.
namespace gk::ui {

void ListPage::showMissing() {
  const auto& missing = list_->draft.plan().missing;
  missing_->clear();
  missing_->setColumnCount(4);
  missing_->setHorizontalHeaderLabels({u"Number"_s, u"Name"_s, u"Grade"_s, u"Room"_s});
  missing_->setRowCount(static_cast<int>(missing.size()));
  for (int i = 0; i < static_cast<int>(missing.size()); ++i) {
    const auto& one = missing[static_cast<std::size_t>(i)];
    const auto card = book().child(one.child);
    const auto identity = book().identity(one.child);
    const auto put = [&](int column, const std::string& words) {
      auto* item = new QTableWidgetItem(toQt(words));
      item->setFlags(item->flags() & ~Qt::ItemIsEditable);
      missing_->setItem(i, column, item);
    };
    put(0, one.number);
    put(1, identity ? identity->last + ", " + identity->first : std::string());
    put(2, card ? card->value.grade : std::string());
    put(3, card ? card->value.room : std::string());
  }
  missing_->resizeColumnsToContents();
  saveMissing_->setEnabled(!missing.empty());
  left_->setEnabled(!missing.empty());
}

void ListPage::recordLeft() {
  if (!list_) return;
  const auto& missing = list_->draft.plan().missing;
  std::vector<roster::ChildId> children;
  for (const auto& row : missing_->selectionModel()->selectedRows())
    children.push_back(missing.at(static_cast<std::size_t>(row.row())).child);
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
