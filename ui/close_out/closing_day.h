#pragma once

#include "reports/day/close_out.h"
#include "session/session.h"
#include "ui/lists/report_browser.h"

#include <memory>

namespace gk::ui {

/// The day that is closed out and its sheet, as rows and steps: lines of one kind are one row, and
/// each row knows whose it is. The rows are those of its last reading.
class ClosingDay {
 public:
  explicit ClosingDay(session::Session& book) : book_(book) {}

  /// None: the day that is open. False when it was chosen before.
  bool choose(const std::optional<roster::DayId>& day);
  /// A signed day is no longer the open one, and it is this one that is looked at.
  void stay() { chosen_ = day_; }
  /// Has no sheet afterwards where no day is open, or it fails.
  base::Result<base::Done> read();

  [[nodiscard]] const std::optional<roster::DayId>& id() const { return day_; }
  /// None when nothing is read. Whoever asks a person keeps it: each act brings a new one.
  [[nodiscard]] std::shared_ptr<const reports::CloseOut> sheet() const { return sheet_; }
  /// As they are saved, nothing folded. Of this and what follows the precondition is a sheet.
  [[nodiscard]] const std::vector<reports::Table>& tables() const { return tables_; }
  [[nodiscard]] std::vector<reports::Table> shown() const;
  [[nodiscard]] std::vector<PartState> steps() const;
  [[nodiscard]] QString head() const;
  [[nodiscard]] QString verdict() const;
  /// What is to be fixed on that row, answered together.
  [[nodiscard]] std::vector<reports::Blocker> blockersAt(std::size_t row) const;
  /// None where it is still to be made.
  [[nodiscard]] const reports::ReferralLine* referralAt(std::size_t row) const;
  [[nodiscard]] bool wasSeen(const roster::ChildId& child) const;
  [[nodiscard]] QString nameOf(const roster::ChildId& child) const;
  /// None also without a sheet.
  [[nodiscard]] std::optional<roster::ChildId> childAt(int section, int row) const;

 private:
  void fold();
  /// Of a child for each row: who to call, at which number and in which language.
  void addGuardians(reports::Table& whole, int section, std::size_t children) const;

  session::Session& book_;
  std::optional<roster::DayId> chosen_;
  std::optional<roster::DayId> day_;
  std::shared_ptr<const reports::CloseOut> sheet_;
  std::vector<reports::Table> tables_;
  // Places among the blockers: those that are answered together, and who is to be referred.
  std::vector<std::vector<std::size_t>> fixes_;
  std::vector<std::size_t> unreferred_;
};

} // namespace gk::ui
