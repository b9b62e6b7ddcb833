#pragma once

#include "reports/sheets/consent_form.h"
#include "session/form_verbs.h"
#include "ui/prints/fallback_paint.h"
#include "ui/prints/form_paint.h"
#include "ui/widgets/page.h"

#include <memory>

class QComboBox;
class QLabel;
class QLineEdit;
class QListWidget;

namespace gk::ui {

class ReportSheets;

/// What goes on paper before and beside a school day: consent forms, slips and labels, room lists,
/// the day's list, and a paper sheet for each child should the laptop fail.
class PrintsPage final : public Page {
  Q_OBJECT

 public:
  enum class What { forms, blankForms, labels, rooms, day, sheets };

  PrintsPage(Context& context, QWidget* parent);

  void refresh() override;
  void letGo() override;
  void choose(What what);

 private:
  /// Ready to be painted, in this or another thread: it asks the book nothing any more.
  struct Ready {
    int pages = 0;
    std::function<void(QPainter&, int)> paint{};
    std::function<void(QPainter&)> marks{}; ///< over the first page, on the screen alone
    std::shared_ptr<ReportSheets> report{}; ///< instead of `paint`
    QString words{};                        ///< what it is, for the line below the list
    QString name{};                         ///< of its file
    int forms = 0;                          ///< consent forms in it, to be counted as handed out
  };

  void layOut();
  void readChoices();
  void showNeeded();
  void showPreview();
  [[nodiscard]] What what() const;
  [[nodiscard]] std::optional<roster::SchoolId> school() const;
  [[nodiscard]] std::string schoolName(roster::SchoolId school);
  std::optional<std::vector<session::FormLine>> lines();
  std::optional<Ready> prepare();
  std::optional<Ready> consentForms();
  std::optional<Ready> labels();
  std::optional<Ready> roomLists();
  std::optional<Ready> dayList();
  std::optional<Ready> paperSheets();
  std::optional<FallbackSheet> sheetOf(const session::FormLine& line, base::Date on);
  /// The day that was typed, or the open one, or today; none where what was typed is no day.
  std::optional<base::Date> printedFor();
  /// Whether it is the student who was typed, by number or by every word of a name.
  [[nodiscard]] bool isTyped(const session::FormLine& line) const;
  void print();
  void save();
  void countHandedOut(const Ready& ready);

  std::vector<roster::SchoolId> schools_;
  QListWidget* what_ = nullptr;
  QComboBox* school_ = nullptr;
  QLineEdit* room_ = nullptr;
  QLineEdit* student_ = nullptr;
  QLineEdit* day_ = nullptr;
  QComboBox* who_ = nullptr;
  QComboBox* language_ = nullptr;
  QComboBox* labelSheet_ = nullptr;
  QLineEdit* firstLabel_ = nullptr;
  QLineEdit* copies_ = nullptr;
  QLabel* words_ = nullptr;
  QLabel* preview_ = nullptr;
  std::vector<std::pair<QWidget*, std::vector<What>>> needed_;
  bool reading_ = false;
};

} // namespace gk::ui
