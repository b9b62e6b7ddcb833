#pragma once

#include "base/progress.h"
#include "reports/print/table.h"
#include "ui/paper/paper.h"

#include <QByteArray>
#include <QSizeF>
#include <QString>

#include <memory>
#include <vector>

class QPagedPaintDevice;
class QPainter;

namespace gk::ui {

class SheetLayout;

/// What the foot of every sheet says beside the title and the page, and what it is printed on.
struct ReportFoot {
  QString program;
  QString term;      ///< or the day
  QString printedOn; ///< in words
  QString version;   ///< with what it differs in, whole under the title; may be empty
  PaperSize paper = PaperSize::letter;
  QString mark{}; ///< on every sheet: who may read it; may be empty
};

/// A report on sheets, upright or, for wide tables, on their side. Headings stay with what they
/// head, the last rows of a table and its notes stay together, the heads of columns come again on
/// each sheet. A front has a sheet of its own to begin. A table of one row is a list; notes that
/// more than one table has stand once, at the end. Columns that do not fit are made smaller, then
/// go below each other behind the first one; letters are made smaller, never under 8 points, where
/// that saves a sheet. Nothing is cut off.
class ReportSheets {
 public:
  ReportSheets(const std::string& title, const std::vector<reports::Table>& tables,
               const ReportFoot& foot);
  ~ReportSheets();
  ReportSheets(const ReportSheets&) = delete;
  ReportSheets& operator=(const ReportSheets&) = delete;

  [[nodiscard]] int count() const;
  [[nodiscard]] QSizeF size() const; ///< of a sheet, in points
  /// Points of the smallest rows.
  [[nodiscard]] double letters() const;
  /// One sheet, from 0, on any painter whose unit is a point from the corner of the sheet.
  void paint(QPainter& painter, int sheet) const;
  /// All of them; sets the paper of `device`.
  void print(QPagedPaintDevice& device, const base::Progress& progress = {}) const;

  static constexpr double margin = 40; ///< points; nothing is painted in it but the foot

 private:
  PaperSize paper_;
  std::unique_ptr<SheetLayout> layout_;
};

/// The bytes of a PDF file; of one that was stopped, no file.
QByteArray reportPdf(const std::string& title, const std::vector<reports::Table>& tables,
                     const ReportFoot& foot, const base::Progress& progress = {});

} // namespace gk::ui
