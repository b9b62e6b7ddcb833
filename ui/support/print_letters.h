#pragma once

#include "base/result.h"
#include "reports/urgent_form.h"

#include <QByteArray>

#include <functional>
#include <vector>

class QPagedPaintDevice;
class QPainter;

namespace gk::ui {

/// Letter paper (8.5 by 11 inches) in points. A letter's upper third is the address, name and room
/// alone; the sheet is folded back below it and in below the second third, so that the text lies
/// between the folds and only the address can be read.
namespace paper {
inline constexpr double width = 612;
inline constexpr double height = 792;
inline constexpr double margin = 54;
inline constexpr double firstFold = height / 3;
inline constexpr double secondFold = 2 * height / 3;
inline constexpr double textTop = firstFold + 16;
inline constexpr double footTop = height - 40;
} // namespace paper

/// Each letter begins on a sheet of its own; the foot of each page has the child's name, the day
/// and "page 1 of 1". Sets the paper of `device`.
void printLetters(QPagedPaintDevice& device, const std::vector<reports::LetterText>& letters);
/// As above, for the nurse's sheets: not folded, one child a sheet.
void printForms(QPagedPaintDevice& device, const std::vector<reports::UrgentForm>& forms);

/// One page of it, from 0, on any painter whose unit is a point from the corner of the sheet.
void paintPage(QPainter& painter, const reports::LetterText& letter, int page);
void paintPage(QPainter& painter, const reports::UrgentForm& form, int page);

/// How many pages a letter takes.
int pagesOf(const reports::LetterText& letter);
int pagesOf(const reports::UrgentForm& form);

/// What `paint` puts on paper, as the bytes of a PDF file.
QByteArray asPdf(const QString& title, const std::function<void(QPagedPaintDevice&)>& paint);

} // namespace gk::ui
