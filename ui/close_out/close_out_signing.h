#pragma once

#include "ui/close_out/closing_day.h"
#include "ui/widgets/page_acts.h"

namespace gk::ui {

/// The two signatures of a day, and what may be done after them.
class CloseOutSigning final : public PageActs {
  Q_OBJECT

 public:
  CloseOutSigning(Context& context, ClosingDay& day, QObject* parent);

  /// Counts what paper is not counted, has placements confirmed, then asks who signs.
  void sign();
  void reopen();
  /// About the child on whose line the person is, if she wants; or the whole day.
  void addLateEntry(std::optional<roster::ChildId> child);

 Q_SIGNALS:
  void daySigned(gk::roster::DayId day);

 private:
  [[nodiscard]] bool isSigned() const { return day_.sheet() && day_.sheet()->closed; }

  ClosingDay& day_;
};

} // namespace gk::ui
