#pragma once

#include "roster/program/program.h"
#include "ui/widgets/page.h"

#include <functional>

namespace gk::ui {

class AreaPage;

/// The forms handed out in a term, line by line, each corrected with a reason.
class HandoutsPage final : public Page {
  Q_OBJECT

 public:
  /// `by` says who enters, `term` of which term the lines are.
  HandoutsPage(Context& context, std::function<base::By()> by,
               const std::function<std::optional<roster::TermId>()>& term, QWidget* parent);

  void begin();
  void refresh() override;

 Q_SIGNALS:
  void backedOut();

 private:
  AreaPage* area_;
};

} // namespace gk::ui
