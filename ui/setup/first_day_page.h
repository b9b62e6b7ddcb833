#pragma once

#include "session/values/first_day.h"
#include "ui/widgets/page.h"

class QLabel;
class QTableView;

namespace gk::ui {

class TableModel;

/// What a team has ready before its first child is charted: done or still missing, why it matters,
/// and the way to where it is entered. Remade from the logbook whenever it is shown.
class FirstDayPage final : public Page {
  Q_OBJECT

 public:
  FirstDayPage(Context& context, QWidget* parent);

  void refresh() override;
  [[nodiscard]] const std::vector<session::FirstDayState>& list() const { return list_; }
  /// The line of what comes next.
  void pointAtNext();

 Q_SIGNALS:
  void wanted(gk::session::FirstDayItem item);

 private:
  void choose();

  std::vector<session::FirstDayState> list_;
  QLabel* done_;
  QTableView* table_;
  TableModel* model_;
  QLabel* todo_;
};

/// The check list as it is now on this laptop.
base::Result<std::vector<session::FirstDayState>> firstDayNow(Context& context);

/// "✖ Schools: Enter at least one school." for each that keeps a day from being worked.
QStringList missingWords(const std::vector<session::FirstDayState>& list);

} // namespace gk::ui
