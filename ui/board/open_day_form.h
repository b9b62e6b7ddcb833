#pragma once

#include "ui/widgets/page.h"

#include <vector>

class QComboBox;
class QLabel;
class QLineEdit;
class QSpinBox;

namespace gk::ui {

/// Opens a school day: school, date, team, and a reason when the date asks for one. What the
/// calendar has for the date is offered first.
class OpenDayForm final : public Page {
  Q_OBJECT

 public:
  OpenDayForm(Context& context, QWidget* parent);

  /// Starts over with today.
  void begin();
  void refresh() override;

 Q_SIGNALS:
  void opened(gk::roster::DayId day);
  void backedOut();

 private:
  void question();
  void offerSchools(base::Date on);
  /// The school and team that are planned then and not open yet, unless a person chose a school.
  void offerTeam(int team);
  void offerPlanned(base::Date on);
  void open();
  /// The term that holds the date, else the last one to start before it, else the newest.
  [[nodiscard]] std::optional<base::Recorded<roster::Term>> termOn(base::Date date) const;

  QComboBox* school_;
  QLineEdit* date_;
  QSpinBox* team_;
  QLineEdit* reason_;
  QLabel* question_;
  std::vector<base::Recorded<roster::School>> schools_;
  std::optional<base::Date> offeredOn_; ///< the day of which the schools in the box are
  std::vector<base::Recorded<roster::Term>> terms_;
  std::optional<base::Date> plannedOn_; ///< the day whose plan was offered
  QString planned_;                     ///< in words; empty where nothing is planned
  bool isChosen_ = false;               ///< the school, by a person
  bool isTeamChosen_ = false;           ///< likewise
};

} // namespace gk::ui
