#pragma once

#include "ui/close_out/closing_day.h"
#include "ui/widgets/page_acts.h"

namespace gk::ui {

/// What is entered on a line of the close-out, or of a student on it: asked, and noted at once.
class CloseOutEntries final : public PageActs {
  Q_OBJECT

 public:
  CloseOutEntries(Context& context, const ClosingDay& day, QObject* parent);

  /// What a row of that part asks for; a student's line without a question leads to the student.
  void take(int section, int row);
  void countPaper();
  void sayHours();
  void confirm();
  void writeLetters(const std::optional<roster::ChildId>& chosen);
  /// False when the person backed out, or it failed. Precondition of these three: a sheet.
  bool outcome(roster::ChildId child);
  void call(roster::ChildId child);
  void refer(roster::ChildId child);

 Q_SIGNALS:
  void childChosen(gk::roster::ChildId child, gk::roster::DayId day);
  void incidentWanted(std::optional<gk::roster::ChildId> child);

 private:
  void fix(const std::vector<reports::Blocker>& alike);
  void outcomesOf(const std::vector<reports::Blocker>& alike);
  void answer(std::size_t row);
  void follow(const reports::ReferralLine& line);
  /// Says it when it was noted.
  bool noted(const base::Result<bool>& result, const QString& words);

  const ClosingDay& day_;
};

/// What became of a referral, and who said so; false when the person backed out.
base::Result<bool> followReferral(Context& context, const base::Recorded<followup::Referral>& old,
                                  const QString& name);

} // namespace gk::ui
