#include "ui/paper/sheet_layout.h"

#include "reports/publish/issue.h"
#include "ui/support/text.h"

#include <QFontMetricsF>
#include <QPainter>
#include <QSvgRenderer>
#include <QTextLayout>

#include <algorithm>
#include <cmath>
#include <numeric>

// Headings, tables and notes.
namespace gk::ui {

namespace {

constexpr double lineFactor = 1.28;
constexpr double titlePoints = 18;
constexpr double headingPoints = 12;
constexpr double footPoints = 8;
constexpr double plotWidth = 480;
constexpr double cellGap = 7;
constexpr std::size_t rowsKept = 3;   ///< of the end of a table, with its notes
constexpr std::size_t shortRows = 10; ///< a table of so few is not torn

double notePoints(bool hasFront) {
  return hasFront ? 7 : 8;
}

/// So that digits below each other stand in columns: each in the middle of a place as wide as a
/// zero's.
void evenDigits(QTextLayout& layout, const QFont& font) {
  const QFontMetricsF metrics(font);
  const double wide = metrics.horizontalAdvance(u'0');
  const auto words = layout.text();
  QList<double> after(words.size(), 0.0); // each letter
  for (qsizetype i = 0; i < words.size(); ++i) {
    if (!words[i].isDigit()) continue;
    const double missing = wide - metrics.horizontalAdvance(words[i]);
    after[i] += missing / 2;
    if (i > 0) after[i - 1] += missing / 2;
  }
  QList<QTextLayout::FormatRange> ranges;
  for (int i = 0; i < words.size(); ++i) {
    if (std::abs(after[i]) < 0.01) continue;
    QTextCharFormat spaced;
    spaced.setFontLetterSpacingType(QFont::AbsoluteSpacing);
    spaced.setFontLetterSpacing(after[i]);
    ranges.push_back({i, 1, spaced});
  }
  layout.setFormats(ranges);
}

PaperWords::To sideOf(const reports::Column& column) {
  return column.isNumber() ? PaperWords::To::figures : PaperWords::To::left;
}

} // namespace

PaperWords::PaperWords(const QString& words, const QFont& font, double width, To side)
    : layout_(std::make_shared<QTextLayout>(words, font)),
      lineHeight_(font.pixelSize() * lineFactor) {
  QTextOption option(side == To::left ? Qt::AlignLeft : Qt::AlignRight);
  option.setWrapMode(QTextOption::WrapAtWordBoundaryOrAnywhere);
  option.setUseDesignMetrics(true);
  layout_->setTextOption(option);
  if (side == To::figures) evenDigits(*layout_, font);
  layout_->beginLayout();
  for (auto line = layout_->createLine(); line.isValid(); line = layout_->createLine()) {
    line.setLineWidth(width);
    line.setPosition({0, 0});
  }
  layout_->endLayout();
}

int PaperWords::lines() const {
  return layout_->lineCount();
}

std::shared_ptr<QSvgRenderer> paperPicture(const reports::Plot& plot, double width) {
  auto svg = std::make_shared<QSvgRenderer>();
  svg->load(QByteArray::fromStdString(reports::toSvg(plot, {width})));
  return svg;
}

SheetLayout::SheetLayout(const std::string& title, const std::vector<reports::Table>& tables,
                         const ReportFoot& foot, double letters, double pictures)
    : title_(toQt(title)), foot_(foot), letters_(letters), pictures_(pictures),
      size_(sizeOf(foot.paper)) {
  // A page that is handed out is upright.
  const bool wide = std::ranges::any_of(tables, [&](const auto& table) {
    return !table.front && isSqueezed(table, size_.width() - 2 * margin);
  });
  if (wide) size_.transpose();
  newSheet();
  const auto pages = reports::notesOnce(tables);
  const bool hasFront = !tables.empty() && tables.front().front;
  if (!hasFront) {
    put(Words(title_, paperFont(titlePoints, true), room()));
    if (!foot_.version.isEmpty()) put(Words(foot_.version, paperFont(letters_), room()));
    y_ += 6;
  }
  for (const auto& table : pages.tables) {
    if (table.front) begin(*table.front);
    add(table);
  }
  if (pages.shared.empty()) return;
  y_ += 12;
  put(Words(u"Notes"_s, paperFont(headingPoints, true), room()));
  y_ += 3;
  for (const auto& note : pages.shared)
    putNote(note, notePoints(hasFront));
}

void SheetLayout::paint(QPainter& painter, int at) const {
  const auto& sheet = sheets_.at(static_cast<std::size_t>(at));
  for (const auto& one : sheet.bars)
    painter.fillRect(one.on, paperMain);
  for (const auto& one : sheet.lines) {
    painter.setPen(one.ink);
    one.of->lineAt(one.line).draw(&painter, one.at);
  }
  for (const auto& one : sheet.rules) {
    painter.setPen(QPen(one.ink, one.thick));
    painter.drawLine(one.from, one.from + QPointF(one.length, 0));
  }
  for (const auto& one : sheet.pictures)
    one.svg->render(&painter, one.on);
  paintMark(painter);
  paintFoot(painter, at);
}

void SheetLayout::newSheet() {
  sheets_.emplace_back();
  y_ = top();
}

void SheetLayout::need(double height) {
  if (height > left() && y_ > top()) newSheet();
}

void SheetLayout::put(const Words& words, const QColor& ink) {
  if (words.height() <= bottom() - top()) need(words.height());
  for (int line = 0; line < words.lines(); ++line) {
    need(words.lineHeight());
    sheets_.back().lines.push_back({words.layout(), line, {margin, y_}, ink});
    y_ += words.lineHeight();
  }
}

void SheetLayout::putNote(const std::string& note, double points) {
  put(Words(toQt(note), paperFont(points), room()), paperQuiet);
  y_ += 2;
}

void SheetLayout::putAt(QPointF where, const Words& words, const QColor& ink) {
  for (int line = 0; line < words.lines(); ++line)
    sheets_.back().lines.push_back(
        {words.layout(), line, where + QPointF(0, line * words.lineHeight()), ink});
}

void SheetLayout::add(const reports::Table& table) {
  const double small = notePoints(table.front.has_value());
  // What the whole report is called needs no second heading.
  const auto title = toQt(table.title) == title_ ? QString() : toQt(table.title);
  const Words heading(title, paperFont(headingPoints, true), room());
  const auto svg = table.plot ? paperPicture(*table.plot) : nullptr;
  const Words says(table.plot ? toQt(table.plot->says) : QString(), paperFont(letters_), room());
  const auto plan = planColumns(table, room(), table.front ? smallLetters : letters_);
  least_ = std::min(least_, plan.points);
  double notesHeight = 0;
  for (const auto& note : table.notes)
    notesHeight += Words(toQt(note), paperFont(small), room()).height() + 2;
  if (y_ > top() + 40) y_ += letters_ > smallLetters ? 12 : 8;
  // A heading stays with its plot and with the head of the table and two rows; a short table
  // stays whole.
  const bool asList = reports::isList(table);
  const double two = asList ? listHeight(table, plan.points) : rowsHeight(table, plan, 2);
  const double over = heading.height() + 6 + (svg ? says.height() + 6 : 0);
  auto picture = svg ? pictureSize(*svg, bottom() - top() - over - two) : QSizeF();
  // A picture gives way, and a table is torn, before half a sheet stays empty.
  if (const double rest = left() - over - two;
      rest < picture.height() && rest > 0.55 * picture.height())
    picture.scale(picture.width(), rest, Qt::KeepAspectRatio);
  const double whole = rowsHeight(table, plan, shortRows) + notesHeight + 9;
  const bool isShort = table.rows.size() <= shortRows && plan.bands.size() == 1 &&
                       over + picture.height() + whole <= bottom() - top();
  const bool isTorn = table.rows.size() > rowsKept && left() > (bottom() - top()) / 2;
  need(over + picture.height() + (isShort && !asList && !isTorn ? whole : two));
  if (!title.isEmpty()) put(heading);
  y_ += 3;
  if (svg) { // what is found stands above its picture
    put(says);
    y_ += 4;
    sheets_.back().pictures.push_back({svg, {QPointF(margin, y_), picture}});
    y_ += picture.height() + 2;
  }
  if (table.rows.empty())
    put(Words(u"None."_s, paperFont(letters_), room()));
  else if (asList)
    putList(table, plan.points);
  else
    for (const auto& band : plan.bands)
      addBand(table, band, plan.points, &band == &plan.bands.back() ? notesHeight : 0);
  y_ += 3;
  for (const auto& note : table.notes)
    putNote(note, small);
}

QSizeF SheetLayout::pictureSize(const QSvgRenderer& svg, double left) const {
  const QSizeF most(std::min(plotWidth, room()), std::max(left, (bottom() - top()) / 2));
  return QSizeF(svg.defaultSize()).scaled(most, Qt::KeepAspectRatio);
}

SheetLayout::Row SheetLayout::headOf(const reports::Table& table, const Band& band, double points) {
  Row row;
  const auto font = paperFont(points, true);
  for (std::size_t i = 0; i < band.columns.size(); ++i) {
    const auto& column = table.columns[band.columns[i]];
    row.emplace_back(toQt(column.heading), font, std::max(band.widths[i] - cellGap, 1.0),
                     sideOf(column));
  }
  return row;
}

SheetLayout::Row SheetLayout::rowOf(const reports::Table& table, const Band& band, double points,
                                    std::size_t at, bool again) {
  Row row;
  const bool isTotal = table.rows[at].front() == "Total";
  for (std::size_t i = 0; i < band.columns.size(); ++i) {
    const auto which = band.columns[i];
    const auto& column = table.columns[which];
    const auto cell = again ? cellShown(table, at, which) : cellToRead(table, at, which);
    row.emplace_back(toQt(cell), paperFont(points, isTotal || column.group),
                     std::max(band.widths[i] - cellGap, 1.0), sideOf(column));
  }
  return row;
}

int SheetLayout::linesOf(const Row& row) {
  int most = 1;
  for (const auto& cell : row)
    most = std::max(most, cell.lines());
  return most;
}

double SheetLayout::heightOf(const Row& row) {
  return linesOf(row) * row.front().lineHeight() + 3;
}

double SheetLayout::rowsHeight(const reports::Table& table, const ColumnPlan& plan,
                               std::size_t rows) {
  if (table.rows.empty()) return 14;
  const auto& band = plan.bands.front();
  double height = heightOf(headOf(table, band, plan.points));
  for (std::size_t i = 0; i < std::min(rows, table.rows.size()); ++i)
    height += heightOf(rowOf(table, band, plan.points, i));
  return height;
}

void SheetLayout::addBand(const reports::Table& table, const Band& band, double points,
                          double after) {
  const auto head = headOf(table, band, points);
  need(heightOf(head) + heightOf(rowOf(table, band, points, 0)));
  putHead(head, band);
  const auto goOn = [&] {
    newSheet();
    put(Words(toQt(table.title) + u" (continued)"_s, paperFont(notePoints(false), true), room()));
    putHead(head, band);
  };
  const double sheet = bottom() - top() - heightOf(head) - 2 * notePoints(false);
  for (std::size_t at = 0; at < table.rows.size(); ++at) {
    auto row = rowOf(table, band, points, at);
    const double together = heightOf(row) + keptBelow(table, band, points, at, after);
    const bool isTall = heightOf(row) + heightOf(head) > bottom() - top();
    if (at > 0 &&
        ((together > left() && together <= sheet) || (heightOf(row) > left() && !isTall))) {
      goOn();
      row = rowOf(table, band, points, at, true);
    }
    const auto lines = linesOf(row);
    for (int from = 0; from < lines;) {
      const bool fits = (lines - from) * row.front().lineHeight() + 3 <= left();
      const bool fitsNone = left() < 3 * row.front().lineHeight();
      const bool fitsASheet = heightOf(row) + heightOf(head) <= bottom() - top();
      if (!fits && (fitsASheet || fitsNone)) goOn();
      const auto most = static_cast<int>((left() - 3) / row.front().lineHeight());
      const auto upTo = std::min(lines, from + std::max(most, 1));
      putRow(row, band, from, upTo);
      from = upTo;
    }
  }
  y_ += 6;
}

double SheetLayout::keptBelow(const reports::Table& table, const Band& band, double points,
                              std::size_t at, double after) {
  if (at + rowsKept < table.rows.size()) return 0;
  double height = after > 0 ? after + 9 : 0;
  for (std::size_t below = at + 1; below < table.rows.size(); ++below)
    height += heightOf(rowOf(table, band, points, below));
  return height;
}

void SheetLayout::putHead(const Row& row, const Band& band) {
  putLines(row, band, 0, linesOf(row), paperQuiet);
  putRule(band, 1, paperInk);
}

void SheetLayout::putRow(const Row& row, const Band& band, int from, int upTo) {
  putLines(row, band, from, upTo, paperInk);
  putRule(band, 0.5, paperLine);
}

void SheetLayout::putLines(const Row& row, const Band& band, int from, int upTo,
                           const QColor& ink) {
  double x = margin;
  for (std::size_t i = 0; i < row.size(); ++i) {
    for (int line = from; line < std::min(upTo, row[i].lines()); ++line)
      sheets_.back().lines.push_back(
          {row[i].layout(), line, {x, y_ + (line - from) * row[i].lineHeight()}, ink});
    x += band.widths[i];
  }
  y_ += (upTo - from) * row.front().lineHeight() + 1;
}

void SheetLayout::putRule(const Band& band, double thick, const QColor& ink) {
  const double length = std::accumulate(band.widths.begin(), band.widths.end(), 0.0);
  sheets_.back().rules.push_back({{margin, y_}, length - 4, thick, ink});
  y_ += 2;
}

void SheetLayout::paintMark(QPainter& painter) const {
  if (foot_.mark.isEmpty()) return;
  const auto font = paperFont(8, true);
  const double wide = widthOf(foot_.mark, font) + 12;
  const QRectF box(margin + room() - wide, margin, wide, 13);
  painter.setPen(QPen(paperInk, 0.8));
  painter.setBrush(Qt::NoBrush);
  painter.drawRoundedRect(box, 3, 3);
  painter.setFont(font);
  painter.drawText(box, Qt::AlignCenter, foot_.mark);
}

void SheetLayout::paintFoot(QPainter& painter, int at) const {
  const double top = size_.height() - margin - footHeight + 8;
  const auto font = paperFont(footPoints);
  const QFontMetricsF metrics(font);
  const auto page = u"page %1 of %2"_s.arg(at + 1).arg(count());
  QStringList words;
  for (const auto& one :
       {foot_.program, foot_.term, u"printed "_s + foot_.printedOn,
        u"Groovekeeper " GK_VERSION ""_s, toQt(reports::shortVersion(toStd(foot_.version)))})
    if (!one.isEmpty()) words += one;
  painter.setPen(QPen(paperQuiet, 0.5));
  painter.setFont(font);
  painter.drawLine(QPointF(margin, top), QPointF(margin + room(), top));
  const QRectF first(margin, top + 2, room(), 11);
  painter.drawText(first, Qt::AlignRight | Qt::AlignVCenter, page);
  painter.drawText(first, Qt::AlignLeft | Qt::AlignVCenter,
                   metrics.elidedText(title_, Qt::ElideRight, room() - 70));
  painter.drawText(first.translated(0, 11), Qt::AlignLeft | Qt::AlignVCenter,
                   metrics.elidedText(words.join(u" · "_s), Qt::ElideRight, room() * 0.97));
}

} // namespace gk::ui
