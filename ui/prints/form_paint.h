#pragma once

#include "reports/sheets/consent_form.h"
#include "reports/sheets/label_sheet.h"
#include "ui/prints/print_pages.h"

#include <span>

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

/// One sheet of them, from 0. A slip's lines to cut by are drawn where `cut`.
void paintLabels(QPainter& painter, const reports::LabelSheet& sheet,
                 std::span<const ChildLabel> labels, int page, bool cut);
int labelPages(const reports::LabelSheet& sheet, std::size_t labels);

} // namespace gk::ui
