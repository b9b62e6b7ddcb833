#pragma once

#include "reports/sheets/consent_form.h"
#include "reports/sheets/label_sheet.h"
#include "ui/prints/print_pages.h"

#include <vector>

namespace gk::ui {

/// A consent form on one sheet, its letters as large as fit; the child's number as a code in the
/// corner, and in digits below it. A blank form has neither.
void paintConsentForm(QPainter& painter, const reports::ConsentSheet& sheet, PaperSize paper);
/// Points of its smallest letters; under `leastFormLetters` the template is too long for one sheet.
double consentFormLetters(const reports::ConsentSheet& sheet, PaperSize paper);
constexpr double leastFormLetters = 8;

/// A slip or a label of one child.
struct ChildLabel {
  QString name;
  QString place; ///< "Room 6, grade 2"
  QString school;
  std::string number;
};

/// Labels on sheets of which the first may be part-used.
struct LabelRun {
  const reports::LabelSheet* sheet;
  std::vector<ChildLabel> labels{};
  int used = 0;     ///< places of the first sheet that stay empty, from its first
  bool cut = false; ///< slips, with lines to cut by

  [[nodiscard]] int pages() const;
};

/// One sheet of them, from 0.
void paintLabels(QPainter& painter, const LabelRun& run, int page);
/// Where its labels are gone already; for the screen alone.
void paintUsedPlaces(QPainter& painter, const LabelRun& run);

} // namespace gk::ui
