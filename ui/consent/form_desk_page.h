#pragma once

#include "session/form_verbs.h"
#include "ui/widgets/page.h"

#include <array>

class QCheckBox;
class QComboBox;
class QGridLayout;
class QLabel;
class QLineEdit;
class QPushButton;
class QStackedWidget;
class QTableView;

namespace gk::ui {

class AnswerPanel;
class CapButton;
class FormCountPage;
class TableModel;

/// Paper forms typed in stacks, with no school day open: find the child, answer by single keys, the
/// signing date, Enter. What a stack has in common is said once and stays. A form typed wrong is
/// corrected with a reason; what it said before is shown.
class FormDeskPage final : public Page {
  Q_OBJECT

 public:
  FormDeskPage(Context& context, QWidget* parent);

  /// From its counts and what was handed out too; a form that is half typed stays.
  void toForms();
  void refresh() override;
  void letGo() override;
  /// A child's number jumps to the child, unless another child's form is half typed.
  void scanned(const QString& code);

 private:
  struct GuardianLine {
    QLineEdit* name;
    QLineEdit* relation;
    QLineEdit* phone;
    QLineEdit* language;
  };

  // form_desk_layout.cpp
  void layOut();
  QWidget* batchPart();
  QWidget* findPart();
  QWidget* datesPart();
  QWidget* guardiansPart();
  QWidget* alertsPart();
  QWidget* earlierPart();
  QWidget* keysPart();
  QLineEdit* line(const QString& words, const QString& name);
  QComboBox* choice(const QString& words, const QString& name, const QStringList& options);

  void readBatch();
  void find();
  void know(roster::ChildId child);
  void readChild();
  void showForms();
  void clearForm();
  void startOver();
  [[nodiscard]] bool isTyped() const;
  void offerThese();
  void addAlert();
  void dropAlert();
  void showAlerts();
  void correct();
  void showHistory();
  void save();
  void undo();
  [[nodiscard]] base::By by() const;
  [[nodiscard]] std::optional<roster::TermId> term() const;
  /// Says where it is wrong.
  std::optional<base::Date> dateOf(QLineEdit* line, bool isSigning);
  std::optional<roster::Consent> formTyped();
  [[nodiscard]] std::optional<std::vector<session::Guardian>> guardiansTyped() const;
  bool enter(const roster::Consent& form);
  bool correctWith(const roster::Consent& form);

  QStackedWidget* stack_ = nullptr;
  FormCountPage* counts_ = nullptr;
  QLabel* tally_ = nullptr;
  // The stack of forms.
  QComboBox* who_ = nullptr;
  QComboBox* school_ = nullptr;
  QComboBox* term_ = nullptr;
  QLineEdit* received_ = nullptr;
  QLineEdit* until_ = nullptr;
  QLineEdit* version_ = nullptr;
  QComboBox* language_ = nullptr;
  // The form.
  QLineEdit* find_ = nullptr;
  QLabel* known_ = nullptr;
  AnswerPanel* answers_ = nullptr;
  QLineEdit* signed_ = nullptr;
  QLineEdit* from_ = nullptr;
  QComboBox* signer_ = nullptr;
  QCheckBox* reviewed_ = nullptr;
  QLineEdit* note_ = nullptr;
  QLineEdit* reason_ = nullptr;
  QWidget* reasonPart_ = nullptr;
  std::array<GuardianLine, 2> guardians_{};
  QComboBox* flag_ = nullptr;
  QComboBox* action_ = nullptr;
  QLineEdit* detail_ = nullptr;
  QLabel* alertList_ = nullptr;
  CapButton* save_ = nullptr;
  QTableView* forms_ = nullptr;
  TableModel* model_ = nullptr;
  QLabel* history_ = nullptr;
  QWidget* earlier_ = nullptr;

  std::vector<base::MemberId> members_;
  std::vector<roster::SchoolId> schools_;
  std::vector<roster::TermId> terms_;
  std::optional<roster::ChildId> child_;
  QString childWords_;
  std::vector<session::Guardian> guardiansKnown_;
  std::vector<base::Recorded<roster::Consent>> formsKnown_;
  std::optional<base::Recorded<roster::Consent>> correcting_;
  std::vector<roster::MedicalFlag> alerts_;
  int entered_ = 0; ///< forms of this sitting
};

} // namespace gk::ui
