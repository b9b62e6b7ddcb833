#include "ui/desk/list_page.h"
#include "ui/support/text.h"

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

} // namespace gk::ui
