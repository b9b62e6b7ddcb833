#pragma once

#include "followup/incident.h"
#include "ui/widgets/page.h"

class QLabel;
class QListWidget;

namespace gk::ui {

class AskBar;
class KeyBar;

/// An incident is written down with a key for its sort and few words, from wherever one is; below
/// stand those of the day, to go on with until they are settled.
class IncidentPage final : public Page {
  Q_OBJECT

 public:
  IncidentPage(Context& context, QWidget* parent);

  /// On this day, or on the newest one when none is open; about this child if any.
  void begin(const std::optional<roster::DayId>& day, const std::optional<roster::ChildId>& child);
  void refresh() override;

 Q_SIGNALS:
  /// Written down, or left: back to where one was.
  void finished(const QString& words);

 protected:
  void keyPressEvent(QKeyEvent* event) override;
  bool focusNextPrevChild(bool) override { return false; } // the arrows move, Tab has no other stop

 private:
  void askTime(followup::IncidentType type);
  void askDone(const followup::Incident& incident);
  void askTold(const followup::Incident& incident);
  void askOpen(const followup::Incident& incident);
  void enter(const followup::Incident& incident);
  void askChild();
  void askDay();
  /// Newest first, signed ones too; none that was canceled.
  [[nodiscard]] std::vector<base::Recorded<roster::ClinicDay>> recentDays();
  [[nodiscard]] QString dayWords(const roster::ClinicDay& day) const;
  void goOn();
  void continueWith(int what, const QString& words);
  /// "10:42" of the day, or with a date of its own, "2026-11-18 10:42".
  [[nodiscard]] base::Result<base::LocalInstant> timeFrom(const QString& text) const;
  void show();

  std::optional<base::Recorded<roster::ClinicDay>> day_;
  bool isOpenDay_ = false; ///< the day at work, which needs no naming
  std::optional<roster::ChildId> child_;
  std::vector<base::Recorded<followup::Incident>> incidents_;
  std::vector<base::Recorded<followup::Incident>> shown_; ///< in the order of the list
  QLabel* about_;
  QLabel* aid_;
  KeyBar* keys_;
  AskBar* ask_;
  QListWidget* list_;
  QLabel* none_;
};

} // namespace gk::ui
