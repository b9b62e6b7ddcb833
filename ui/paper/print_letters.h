#pragma once

#include "base/progress.h"
#include "base/result.h"
#include "reports/calls/urgent_form.h"
#include "ui/paper/paper.h"

#include <QByteArray>

#include <functional>
#include <vector>

class QPagedPaintDevice;
class QPainter;

namespace gk::ui {

/// Where things stand on a sheet, in points. A letter's upper third is the address, name and room
/// alone; the sheet is folded back below it and in below the second third, so that the text lies
/// between the folds and only the address can be read.
struct LetterSheet {
  double width;
  double height;

  static constexpr double margin = 54;
  [[nodiscard]] double textWidth() const { return width - 2 * margin; }
  [[nodiscard]] double firstFold() const { return height / 3; }
  [[nodiscard]] double secondFold() const { return 2 * height / 3; }
  [[nodiscard]] double textTop() const { return firstFold() + 16; }
  [[nodiscard]] double footTop() const { return height - 40; }
};
LetterSheet letterSheet(PaperSize paper);

/// Each letter begins on a sheet of its own; the foot of each page has the child's name, the day
/// and "page 1 of 1". Sets the paper of `device`. When it is stopped a printer prints nothing.
void printLetters(QPagedPaintDevice& device, const std::vector<reports::LetterText>& letters,
                  PaperSize paper, const base::Progress& progress = {});
/// As above, for the nurse's sheets: not folded, one child a sheet.
void printForms(QPagedPaintDevice& device, const std::vector<reports::UrgentForm>& forms,
                PaperSize paper, const base::Progress& progress = {});

/// One page of it, from 0, on any painter whose unit is a point from the corner of the sheet.
void paintPage(QPainter& painter, const reports::LetterText& letter, PaperSize paper, int page);
void paintPage(QPainter& painter, const reports::UrgentForm& form, PaperSize paper, int page);

/// How many pages a letter takes.
int pagesOf(const reports::LetterText& letter, PaperSize paper);
int pagesOf(const reports::UrgentForm& form, PaperSize paper);

/// What `paint` puts on paper, as the bytes of a PDF file.
QByteArray asPdf(const QString& title, const std::function<void(QPagedPaintDevice&)>& paint);

} // namespace gk::ui
