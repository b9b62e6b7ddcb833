#pragma once

#include "ui/forms/area.h"
#include "ui/widgets/page.h"

#include <vector>

class QLabel;
class QLineEdit;
class QPushButton;
class QTableView;

namespace gk::ui {

class FieldForm;
class TableModel;

inline constexpr int deskRowHeight = 30; ///< pixels at the usual size
inline constexpr int deskRowsShown = 5;  ///< the others are scrolled to

/// One area of the desk: its list, the form of what is chosen, and how that came to be. What it
/// shows and does is all in its AreaSpec; every rule is the session's.
class AreaPage final : public Page {
  Q_OBJECT

 public:
  /// `by` says who enters, for the station of the area.
  AreaPage(Context& context, AreaSpec spec, std::function<base::By(base::Station)> by,
           QWidget* parent);

  void refresh() override;
  [[nodiscard]] const AreaSpec& spec() const { return spec_; }
  /// What is still to do here, above the list.
  void say(const session::AreaState& state);
  /// Where nothing is listed yet, its form is ready to be filled in.
  void begin();
  /// With this one of its forms open, of the first that is listed where it needs one.
  void begin(const QString& form);
  [[nodiscard]] bool hasChanges() const;
  /// True where nothing is lost: nothing was typed, or the person lets it go.
  bool mayLeave();
  void scanned(const QString& code);

 protected:
  bool eventFilter(QObject* watched, QEvent* event) override;

 private:
  void layOut();
  QPushButton* button(const QString& words, const QKeySequence& key, const QString& name);
  void letNamesGo();
  void readRows();
  void fitHeight();
  void choose(int row);
  void pointAt(const Thing& thing);
  [[nodiscard]] Thing chosen() const;
  /// Fills the form in again; nothing typed is kept.
  void open(std::size_t form);
  void askForRow(std::size_t form);
  void showForm(bool isShown);
  void save();
  void tell(std::size_t which, const base::Result<QString>& done);
  void leave();
  void undo();
  void refuse(const base::Error& error);
  void showHistory();
  [[nodiscard]] QString historyWords(const base::Uuid& id);
  void showButtons();

  AreaSpec spec_;
  std::function<base::By(base::Station)> by_;
  std::vector<AreaRow> rows_;
  std::optional<std::size_t> form_; ///< the one that is open
  Thing thing_;                     ///< that it is about
  Values opened_;                   ///< as it was filled in
  QLabel* open_;
  QLineEdit* search_ = nullptr;
  QTableView* table_;
  TableModel* model_;
  QLabel* formTitle_;
  QLabel* note_;
  FieldForm* fields_;
  QLabel* trouble_;
  QLabel* history_;
  QPushButton* save_;
  QPushButton* leave_;
  std::vector<QPushButton*> buttons_; ///< of the forms, in their order
  bool isMissing_ = false;            ///< something of the area keeps a day from being worked
  bool reading_ = false;              ///< rows are put in; no one chooses
};

} // namespace gk::ui
