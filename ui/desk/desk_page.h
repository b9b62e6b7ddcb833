#pragma once

#include "ui/forms/area_page.h"

class QComboBox;
class QListWidget;
class QShortcut;
class QStackedWidget;

namespace gk::ui {

class ListPage;
class CapButton;
class FirstDayPage;

/// What a program is set up with and kept by, area by area; and what is still missing for a day.
class DeskPage final : public Page {
  Q_OBJECT

 public:
  DeskPage(Context& context, QWidget* parent);

  void refresh() override;
  /// To the check list of what is missing for a day; false where nothing is.
  bool lead();
  void showFirstDay();
  void turnTo(session::Area area);
  void scanned(const QString& code);
  /// To the pages that the window keeps: consent forms, printing, calendar, this laptop, and
  /// safety.
  [[nodiscard]] CapButton* formsKey() const { return forms_; }
  [[nodiscard]] CapButton* printsKey() const { return prints_; }
  [[nodiscard]] CapButton* calendarKey() const { return calendar_; }
  [[nodiscard]] CapButton* settingsKey() const { return settings_; }
  [[nodiscard]] CapButton* safetyKey() const { return safety_; }

 Q_SIGNALS:
  /// All is there: the day can be opened.
  void boardWanted();

 private:
  void layOut();
  void addArea(AreaSpec spec);
  void addList();
  void showList(ChosenList list);
  void readMembers();
  void readStates();
  void addFirstDay();
  void next();
  void openItem(session::FirstDayItem item);
  [[nodiscard]] base::By by(base::Station station) const;
  [[nodiscard]] AreaPage* pageOf(session::Area area) const;

  QLabel* program_;
  QLabel* guide_;
  QPushButton* next_ = nullptr;
  QPushButton* toFirstDay_ = nullptr;
  QComboBox* who_;
  CapButton* forms_;
  CapButton* prints_;
  CapButton* calendar_;
  CapButton* settings_;
  CapButton* safety_;
  QListWidget* areas_;
  QStackedWidget* stack_;
  std::vector<AreaPage*> pages_;
  ListPage* list_ = nullptr;
  FirstDayPage* firstDay_ = nullptr;
  QShortcut* firstDayKey_ = nullptr;
  std::vector<session::AreaState> states_;
  std::vector<base::MemberId> members_;
  std::optional<base::MemberId> author_; ///< who enters here
  bool reading_ = false;
};

} // namespace gk::ui
