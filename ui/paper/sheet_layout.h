#pragma once

#include "ui/look/column_widths.h"
#include "ui/paper/report_sheets.h"

#include <QColor>
#include <QPointF>
#include <QRectF>

class QSvgRenderer;
class QTextLayout;

namespace gk::ui {

// As on the screen and in a web page; each is as plain in gray.
inline const QColor paperInk(0x10, 0x20, 0x1B);
inline const QColor paperQuiet(0x34, 0x45, 0x3F);
inline const QColor paperLine(0xC5, 0xD0, 0xCA);
inline const QColor paperMain(0x0A, 0x6B, 0x5E);

/// Words broken into lines of one width.
class PaperWords {
 public:
  /// `figures`: to the right, each digit as wide as the others, since what stands below is of the
  /// same kind. `right`: what only stands there, such as the number of a student in a list, has no
  /// gap beside its narrow digits.
  enum class To { left, right, figures };
  PaperWords(const QString& words, const QFont& font, double width, To side = To::left);

  [[nodiscard]] int lines() const;
  [[nodiscard]] double lineHeight() const { return lineHeight_; }
  [[nodiscard]] double height() const { return lines() * lineHeight_; }
  [[nodiscard]] const std::shared_ptr<QTextLayout>& layout() const { return layout_; }

 private:
  std::shared_ptr<QTextLayout> layout_;
  double lineHeight_;
};

/// Where everything of a report stands on its sheets, for one size of letters.
class SheetLayout {
 public:
  /// `pictures`: how much of their half of the sheet those of a front take.
  SheetLayout(const std::string& title, const std::vector<reports::Table>& tables,
              const ReportFoot& foot, double letters, double pictures = 1);

  [[nodiscard]] int count() const { return static_cast<int>(sheets_.size()); }
  [[nodiscard]] QSizeF size() const { return size_; }
  [[nodiscard]] double letters() const { return least_; }

  void paint(QPainter& painter, int at) const;

 private:
  using Words = PaperWords;
  struct Line {
    std::shared_ptr<QTextLayout> of;
    int line;
    QPointF at;
    QColor ink = paperInk;
  };
  struct Rule {
    QPointF from;
    double length;
    double thick;
    QColor ink = paperInk;
  };
  struct Bar {
    QRectF on;
  };
  struct Picture {
    std::shared_ptr<QSvgRenderer> svg;
    QRectF on;
  };
  struct Sheet {
    std::vector<Line> lines;
    std::vector<Rule> rules;
    std::vector<Picture> pictures;
    std::vector<Bar> bars;
  };

  static constexpr double margin = ReportSheets::margin;
  static constexpr double footHeight = 30;
  static constexpr double markHeight = 16;
  static constexpr double between = 18; ///< of two columns of a list, and of two pictures

  [[nodiscard]] double room() const { return size_.width() - 2 * margin; }
  [[nodiscard]] double bottom() const { return size_.height() - margin - footHeight; }
  [[nodiscard]] double left() const { return bottom() - y_; }

  [[nodiscard]] double top() const { return foot_.mark.isEmpty() ? margin : margin + markHeight; }

  void newSheet();
  void need(double height);

  /// Whole on this sheet or the next where a sheet can hold it.
  void put(const Words& words, const QColor& ink = paperInk);
  void putNote(const std::string& note, double points);
  /// Without moving on, and without asking for room.
  void putAt(QPointF where, const Words& words, const QColor& ink = paperInk);

  /// Always on a sheet of its own: a page for a school is torn off the next one's.
  void begin(const reports::Front& front);

  void putFigures(const std::vector<reports::FrontFigure>& figures);

  /// Two beside each other, on half the sheet each.
  void putPictures(const std::vector<reports::FrontPicture>& pictures);

  /// Headings and values in as many columns as have room.
  double putList(const reports::Table& table, double points, bool isMeasured = false);
  double listHeight(const reports::Table& table, double points);

  void add(const reports::Table& table);

  /// Smaller where the table's first rows would not come on its sheet; rows taller than half a
  /// sheet do not count.
  [[nodiscard]] QSizeF pictureSize(const QSvgRenderer& svg, double left) const;

  using Row = std::vector<Words>;

  [[nodiscard]] static Row headOf(const reports::Table& table, const Band& band, double points);

  /// `again`: on a new sheet, where its group is named again.
  [[nodiscard]] static Row rowOf(const reports::Table& table, const Band& band, double points,
                                 std::size_t at, bool again = false);

  [[nodiscard]] static int linesOf(const Row& row);

  [[nodiscard]] static double heightOf(const Row& row);

  [[nodiscard]] static double rowsHeight(const reports::Table& table, const ColumnPlan& plan,
                                         std::size_t rows);

  /// `after` is what stays with the last rows.
  void addBand(const reports::Table& table, const Band& band, double points, double after);

  /// What comes below this row and must be on its sheet: below the last rows the rest of them and
  /// the notes, so that neither stands alone.
  [[nodiscard]] static double keptBelow(const reports::Table& table, const Band& band,
                                        double points, std::size_t at, double after);

  void putHead(const Row& row, const Band& band);
  /// Lines `from` to before `upTo` of each cell, with a rule below.
  void putRow(const Row& row, const Band& band, int from, int upTo);
  void putLines(const Row& row, const Band& band, int from, int upTo, const QColor& ink);
  void putRule(const Band& band, double thick, const QColor& ink);

  void paintMark(QPainter& painter) const;

  void paintFoot(QPainter& painter, int at) const;

  QString title_;
  ReportFoot foot_;
  double letters_; ///< points, of rows at most
  double pictures_;
  double least_ = largestLetters;
  QSizeF size_;
  std::vector<Sheet> sheets_;
  double y_ = ReportSheets::margin;
};

/// As it is drawn everywhere, so many units wide.
std::shared_ptr<QSvgRenderer> paperPicture(const reports::Plot& plot, double width = 640);

} // namespace gk::ui
