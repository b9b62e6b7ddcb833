#pragma once

#include "base/files/files.h"
#include "ui/close_out/closing_day.h"
#include "ui/paper/report_sheets.h"
#include "ui/widgets/page_acts.h"

#include <functional>

namespace gk::ui {

/// What leaves a day as files and on paper, and the other laptop's logbook, which comes in as one.
class CloseOutFiles final : public PageActs {
  Q_OBJECT

 public:
  CloseOutFiles(Context& context, const ClosingDay& day, QObject* parent);

  /// `section` is the part that is looked at.
  void save(int section);
  /// One line a student, for whoever plans the next day at the school.
  void saveReturns();
  /// One sheet, however many pages it has: they stay together.
  void printReturns();
  void pack();
  void backUp();
  void takeIn();

 Q_SIGNALS:
  /// All that is open, whose own file was moved, so that nothing can be noted in it.
  void savedElsewhere(const QString& path);
  void conflictsFound();

 private:
  /// Sealed papers beside a copy of the logbook.
  using Beside = std::function<base::Result<base::Path>(session::Snapshot&, const base::Path&)>;

  void save(const std::string& what, const std::vector<reports::Table>& tables,
            const reports::Table& current);
  [[nodiscard]] ReportFoot foot() const;
  void writeCopy(const QString& title, base::Date on, Beside beside = {});

  const ClosingDay& day_;
};

} // namespace gk::ui
