#include "base/csv.h"
#include "base/files.h"
#include "ui/desk/list_page.h"

#include <QPushButton>
#include <QTableWidget>

// Whom the school's list leaves out, by name: the session counts them and writes nothing of them.
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
}

void ListPage::saveMissing() {
  if (!list_) return;
  std::string csv = "\xEF\xBB\xBF" + base::csvLine({"number", "first", "last", "grade", "room"});
  for (const auto& one : list_->draft.plan().missing) {
    const auto card = book().child(one.child);
    const auto identity = book().identity(one.child);
    if (!went(card) || !went(identity)) return; // no file that leaves one out
    csv += base::csvLine(
        {one.number, identity->first, identity->last, card->value.grade, card->value.room});
  }
  const auto path = context().prompter.saveFile(u"Not on this list"_s, u"not-on-this-list.csv"_s,
                                                u"CSV (*.csv)"_s, FileHolds::names);
  if (!path || !went(base::replaceFile(toStd(*path), csv))) return;
  Q_EMIT said(u"Saved %1. The file has names: keep it safe, delete it when done."_s.arg(*path));
}

} // namespace gk::ui
