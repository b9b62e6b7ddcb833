#pragma once

#include "ui/close_out/closing_day.h"
#include "ui/widgets/page.h"

class QLabel;
class QPushButton;

namespace gk::ui {

class CloseOutEntries;
class CloseOutFiles;
class CloseOutSigning;

/// Can we leave, what blocks, who must be called; and the signatures.
class CloseOutPage final : public Page {
  Q_OBJECT

 public:
  CloseOutPage(Context& context, QWidget* parent);

  /// None: the day that is open.
  void chooseDay(const std::optional<roster::DayId>& day);
  void refresh() override;

 Q_SIGNALS:
  void childChosen(gk::roster::ChildId child, gk::roster::DayId day);
  /// So that a backup is made of itself.
  void daySigned(gk::roster::DayId day);
  /// All that is open, whose own file was moved, so that nothing can be noted in it.
  void savedElsewhere(const QString& path);
  void incidentWanted(std::optional<gk::roster::ChildId> child);

 private:
  void layOut();
  void connectActs();
  /// Shows what can be done in the part that is chosen; the keys work in every part.
  void showActs(int section);
  [[nodiscard]] std::optional<roster::ChildId> childHere() const;

  ClosingDay day_;
  CloseOutEntries* entries_;
  CloseOutFiles* files_;
  CloseOutSigning* signing_;
  QLabel* title_;
  QLabel* equation_;
  QLabel* verdict_;
  ReportBrowser* browser_;
  std::vector<std::pair<QWidget*, std::vector<int>>> acts_; ///< and in which parts each is shown
  QPushButton* sign_ = nullptr;
  QPushButton* outcome_ = nullptr;
  QPushButton* reopen_ = nullptr;
  QPushButton* lateEntry_ = nullptr;
};

} // namespace gk::ui
