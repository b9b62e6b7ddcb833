#pragma once

#include "session/importing/roster_draft.h"
#include "ui/widgets/page.h"

#include <functional>
#include <memory>

class QCheckBox;
class QComboBox;
class QLabel;
class QLineEdit;
class QPushButton;
class QTableWidget;
class QTabWidget;

namespace gk::ui {

/// A school's list that was chosen for import, with all that is asked of a person.
struct ChosenList {
  session::RosterDraft draft;
  session::RosterAim aim;
  QString school; ///< as it is shown
};

/// Looks at a school's list before anything is written: which column is what, pairs side by side,
/// rows that wait and can be put right, and how many children are new, changed or as they were.
/// What a list means is all the session's.
class ListPage final : public Page {
  Q_OBJECT

 public:
  /// `by` says who imports.
  ListPage(Context& context, std::function<base::By()> by, QWidget* parent);

  void open(ChosenList list);
  [[nodiscard]] bool isOpen() const { return list_ != nullptr; }
  void refresh() override;
  /// A list holds names.
  void letGo() override;

 Q_SIGNALS:
  /// Imported, or left.
  void closed();

 private:
  void layOut();
  QWidget* columnsTab();
  QWidget* pairsTab();
  QWidget* heldTab();
  QWidget* missingTab();
  QWidget* changedTab();
  /// Reads all of it again and shows what it comes to; aside, where that takes long.
  void look();
  void showLooked(const base::Result<base::Done>& looked);
  void showColumns();
  /// Which row may have the headings, in its own words.
  void showHeadings();
  void takeHeading();
  /// Of a list of several schools: whose rows are meant.
  void showSchools();
  /// What of the reading a person should know, and which columns are left out.
  void showNotes();
  /// A row of choices is as high as they are, so that the first row of the list is seen below it.
  void fitChoices();
  void showCounts();
  void showPair();
  void showHeld();
  void showSkipped();
  /// What the import changes of whom.
  void showChanged();
  /// Who is in the logbook, in a grade that the list has, and on no row of it.
  void showMissing();
  void saveMissing();
  /// Of those selected there: they left, why and from when.
  void recordLeft();
  void answer(bool isSame);
  void takeColumns();
  void correct(int row, int column);
  void save();
  void import();
  void leave();

  std::function<base::By()> by_;
  std::shared_ptr<ChosenList> list_; ///< shared with what looks at it in another thread
  bool showing_ = false;             ///< values are filled in; no one chooses
  bool isReadable_ = false;
  QLabel* title_;
  QLabel* counts_;
  QLabel* trouble_;
  QTabWidget* tabs_;
  QTableWidget* columns_;
  std::vector<QComboBox*> boxes_;
  QLabel* notes_;
  QLabel* dates_;
  QComboBox* heading_;
  QComboBox* rowsOf_;
  QComboBox* order_;
  QComboBox* early_;
  QComboBox* gradeOfAll_;
  QLineEdit* roomOfAll_;
  QCheckBox* ages_;
  QCheckBox* others_;
  QWidget* schoolRow_;
  QWidget* gradeRow_; ///< asked only where no column says it
  QWidget* roomRow_;
  QLabel* pairTitle_;
  QTableWidget* pair_;
  QPushButton* same_;
  QPushButton* different_;
  QTableWidget* held_;
  QTableWidget* skipped_;
  QTableWidget* missing_;
  QLabel* outsideTitle_;
  QTableWidget* outside_;
  QTableWidget* changed_;
  QPushButton* saveMissing_;
  QPushButton* left_;
  QPushButton* import_;
  QPushButton* save_;
};

} // namespace gk::ui
