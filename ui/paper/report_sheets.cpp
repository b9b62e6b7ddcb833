#include "ui/paper/report_sheets.h"

#include "reports/publish/issue.h"
#include "ui/look/column_widths.h"
#include "ui/paper/print_letters.h"
#include "ui/support/text.h"

#include <QFontMetricsF>
#include <QPagedPaintDevice>
#include <QPainter>
#include <QSvgRenderer>
#include <QTextLayout>

#include <algorithm>
#include <cmath>

namespace gk::ui {

namespace {

constexpr double footHeight = 30;
constexpr double lineFactor = 1.28;
constexpr double titlePoints = 16;
constexpr double headingPoints = 12;
constexpr double notePoints = 8;
constexpr double footPoints = 8;
constexpr double plotWidth = 480;
constexpr std::size_t rowsKept = 3;   ///< of the end of a table, with its notes
constexpr std::size_t shortRows = 10; ///< a table of so few is not torn

/// Words broken into lines of one width.
class Words {
 public:
  Words(const QString& words, const QFont& font, double width, bool toTheRight = false)
      : layout_(std::make_shared<QTextLayout>(words, font)),
        lineHeight_(font.pixelSize() * lineFactor) {
    QTextOption option(toTheRight ? Qt::AlignRight : Qt::AlignLeft);
    option.setWrapMode(QTextOption::WrapAtWordBoundaryOrAnywhere);
    option.setUseDesignMetrics(true);
    layout_->setTextOption(option);
    layout_->beginLayout();
    for (auto line = layout_->createLine(); line.isValid(); line = layout_->createLine()) {
      line.setLineWidth(width);
      line.setPosition({0, 0});
    }
    layout_->endLayout();
  }

  [[nodiscard]] int lines() const { return layout_->lineCount(); }
  [[nodiscard]] double lineHeight() const { return lineHeight_; }
  [[nodiscard]] double height() const { return lines() * lineHeight_; }
  [[nodiscard]] const std::shared_ptr<QTextLayout>& layout() const { return layout_; }

 private:
  std::shared_ptr<QTextLayout> layout_;
  double lineHeight_;
};

struct Line {
  std::shared_ptr<QTextLayout> of;
  int line;
  QPointF at;
};
struct Rule {
  QPointF from;
  double length;
  double thick;
};
struct Picture {
  std::shared_ptr<QSvgRenderer> svg;
  QRectF on;
};
struct Sheet {
  std::vector<Line> lines;
  std::vector<Rule> rules;
  std::vector<Picture> pictures;
};

std::shared_ptr<QSvgRenderer> drawn(const reports::Plot& plot) {
  auto svg = std::make_shared<QSvgRenderer>();
  svg->load(QByteArray::fromStdString(reports::toSvg(plot)));
  return svg;
}

} // namespace

class ReportSheets::Layout {
 public:
  Layout(const std::string& title, const std::vector<reports::Table>& tables,
         const ReportFoot& foot, double letters)
      : title_(toQt(title)), foot_(foot), letters_(letters), size_(sizeOf(foot.paper)) {
    const bool wide = std::ranges::any_of(
        tables, [&](const auto& table) { return isSqueezed(table, size_.width() - 2 * margin); });
    if (wide) size_.transpose();
    newSheet();
    put(Words(title_, paperFont(titlePoints, true), room()));
    if (!foot_.version.isEmpty()) put(Words(foot_.version, paperFont(letters_), room()));
    y_ += 6;
    for (const auto& table : tables)
      add(table);
  }

  [[nodiscard]] int count() const { return static_cast<int>(sheets_.size()); }
  [[nodiscard]] QSizeF size() const { return size_; }
  [[nodiscard]] double letters() const { return least_; }

  void paint(QPainter& painter, int at) const {
    const auto& sheet = sheets_.at(static_cast<std::size_t>(at));
    painter.setPen(Qt::black);
    for (const auto& one : sheet.lines)
      one.of->lineAt(one.line).draw(&painter, one.at);
    for (const auto& one : sheet.rules) {
      painter.setPen(QPen(Qt::black, one.thick));
      painter.drawLine(one.from, one.from + QPointF(one.length, 0));
    }
    for (const auto& one : sheet.pictures)
      one.svg->render(&painter, one.on);
    paintFoot(painter, at);
  }

 private:
  [[nodiscard]] double room() const { return size_.width() - 2 * margin; }
  [[nodiscard]] double bottom() const { return size_.height() - margin - footHeight; }
  [[nodiscard]] double left() const { return bottom() - y_; }

  void newSheet() {
    sheets_.emplace_back();
    y_ = margin;
  }
  void need(double height) {
    if (height > left() && y_ > margin) newSheet();
  }

  /// Whole on this sheet or the next where a sheet can hold it.
  void put(const Words& words) {
    if (words.height() <= bottom() - margin) need(words.height());
    for (int line = 0; line < words.lines(); ++line) {
      need(words.lineHeight());
      sheets_.back().lines.push_back({words.layout(), line, {margin, y_}});
      y_ += words.lineHeight();
    }
  }

  void add(const reports::Table& table) {
    const Words heading(toQt(table.title), paperFont(headingPoints, true), room());
    const auto svg = table.plot ? drawn(*table.plot) : nullptr;
    const Words says(table.plot ? toQt(table.plot->says) : QString(), paperFont(notePoints),
                     room());
    const auto plan = planColumns(table, room(), letters_);
    least_ = std::min(least_, plan.points);
    std::vector<Words> notes;
    double notesHeight = 0;
    for (const auto& note : table.notes) {
      notes.emplace_back(toQt(note), paperFont(notePoints), room());
      notesHeight += notes.back().height();
    }
    if (y_ > margin + 40) y_ += letters_ > smallLetters ? 12 : 8;
    // A heading stays with its plot and with the head of the table and two rows; a short table
    // stays whole.
    const double two = rowsHeight(table, plan, 2);
    const double over = heading.height() + 6 + (svg ? says.height() + 6 : 0);
    const auto picture = svg ? pictureSize(*svg, bottom() - margin - over - two) : QSizeF();
    const double whole = rowsHeight(table, plan, shortRows) + notesHeight + 9;
    const bool isShort = table.rows.size() <= shortRows && plan.bands.size() == 1 &&
                         over + picture.height() + whole <= bottom() - margin;
    need(over + picture.height() + (isShort ? whole : two));
    put(heading);
    y_ += 3;
    if (svg) {
      sheets_.back().pictures.push_back({svg, {QPointF(margin, y_), picture}});
      y_ += picture.height() + 2;
      put(says);
      y_ += 4;
    }
    if (table.rows.empty())
      put(Words(u"None."_s, paperFont(letters_), room()));
    else
      for (const auto& band : plan.bands)
        addBand(table, band, plan.points, &band == &plan.bands.back() ? notesHeight : 0);
    y_ += 3;
    for (const auto& note : notes)
      put(note);
  }

  /// Smaller where the table's first rows would not come on its sheet; rows taller than half a
  /// sheet do not count.
  [[nodiscard]] QSizeF pictureSize(const QSvgRenderer& svg, double left) const {
    const QSizeF most(std::min(plotWidth, room()), std::max(left, (bottom() - margin) / 2));
    return QSizeF(svg.defaultSize()).scaled(most, Qt::KeepAspectRatio);
  }

  using Row = std::vector<Words>;

  static Row headOf(const reports::Table& table, const Band& band, double points) {
    Row row;
    const auto font = paperFont(points, true);
    for (std::size_t i = 0; i < band.columns.size(); ++i) {
      const auto& column = table.columns[band.columns[i]];
      row.emplace_back(toQt(column.heading), font, std::max(band.widths[i] - 7, 1.0),
                       column.isNumber());
    }
    return row;
  }

  /// `anew`: on a new sheet, where its group is named again.
  static Row rowOf(const reports::Table& table, const Band& band, double points, std::size_t at,
                   bool anew = false) {
    Row row;
    const bool isTotal = table.rows[at].front() == "Total";
    for (std::size_t i = 0; i < band.columns.size(); ++i) {
      const auto which = band.columns[i];
      const auto& column = table.columns[which];
      const auto cell = anew ? cellShown(table, at, which) : cellToRead(table, at, which);
      row.emplace_back(toQt(cell), paperFont(points, isTotal || column.group),
                       std::max(band.widths[i] - 7, 1.0), column.isNumber());
    }
    return row;
  }

  static int linesOf(const Row& row) {
    int most = 1;
    for (const auto& cell : row)
      most = std::max(most, cell.lines());
    return most;
  }

  [[nodiscard]] static double heightOf(const Row& row) {
    return linesOf(row) * row.front().lineHeight() + 3;
  }

  [[nodiscard]] static double rowsHeight(const reports::Table& table, const ColumnPlan& plan,
                                         std::size_t rows) {
    if (table.rows.empty()) return 14;
    const auto& band = plan.bands.front();
    double height = heightOf(headOf(table, band, plan.points));
    for (std::size_t i = 0; i < std::min(rows, table.rows.size()); ++i)
      height += heightOf(rowOf(table, band, plan.points, i));
    return height;
  }

  /// `after` is what stays with the last rows.
  void addBand(const reports::Table& table, const Band& band, double points, double after) {
    const auto head = headOf(table, band, points);
    need(heightOf(head) + heightOf(rowOf(table, band, points, 0)));
    putRow(head, band, 0, linesOf(head), 0.8);
    const auto goOn = [&] {
      newSheet();
      put(Words(toQt(table.title) + u" (continued)"_s, paperFont(notePoints, true), room()));
      putRow(head, band, 0, linesOf(head), 0.8);
    };
    const double sheet = bottom() - margin - heightOf(head) - 2 * notePoints;
    for (std::size_t at = 0; at < table.rows.size(); ++at) {
      auto row = rowOf(table, band, points, at);
      const double together = heightOf(row) + keptBelow(table, band, points, at, after);
      const bool isTall = heightOf(row) + heightOf(head) > bottom() - margin;
      if (at > 0 &&
          ((together > left() && together <= sheet) || (heightOf(row) > left() && !isTall))) {
        goOn();
        row = rowOf(table, band, points, at, true);
      }
      const auto lines = linesOf(row);
      for (int from = 0; from < lines;) {
        const bool fits = (lines - from) * row.front().lineHeight() + 3 <= left();
        const bool fitsNone = left() < 3 * row.front().lineHeight();
        const bool fitsASheet = heightOf(row) + heightOf(head) <= bottom() - margin;
        if (!fits && (fitsASheet || fitsNone)) goOn();
        const auto most = static_cast<int>((left() - 3) / row.front().lineHeight());
        const auto upTo = std::min(lines, from + std::max(most, 1));
        putRow(row, band, from, upTo, 0.25);
        from = upTo;
      }
    }
    y_ += 6;
  }

  /// What comes below this row and must be on its sheet: below the last rows the rest of them and
  /// the notes, so that neither stands alone.
  [[nodiscard]] static double keptBelow(const reports::Table& table, const Band& band,
                                        double points, std::size_t at, double after) {
    if (at + rowsKept < table.rows.size()) return 0;
    double height = after > 0 ? after + 9 : 0;
    for (std::size_t below = at + 1; below < table.rows.size(); ++below)
      height += heightOf(rowOf(table, band, points, below));
    return height;
  }

  /// Lines `from` to before `upTo` of each cell, with a rule below.
  void putRow(const Row& row, const Band& band, int from, int upTo, double rule) {
    double x = margin;
    for (std::size_t i = 0; i < row.size(); ++i) {
      for (int line = from; line < std::min(upTo, row[i].lines()); ++line)
        sheets_.back().lines.push_back(
            {row[i].layout(), line, {x, y_ + (line - from) * row[i].lineHeight()}});
      x += band.widths[i];
    }
    y_ += (upTo - from) * row.front().lineHeight() + 1;
    sheets_.back().rules.push_back({{margin, y_}, x - margin - 4, rule});
    y_ += 2;
  }

  void paintFoot(QPainter& painter, int at) const {
    const double top = size_.height() - margin - footHeight + 8;
    const auto font = paperFont(footPoints);
    const QFontMetricsF metrics(font);
    const auto page = u"page %1 of %2"_s.arg(at + 1).arg(count());
    QStringList words;
    for (const auto& one :
         {foot_.program, foot_.term, u"printed "_s + foot_.printedOn,
          u"Groovekeeper " GK_VERSION ""_s, toQt(reports::shortVersion(toStd(foot_.version)))})
      if (!one.isEmpty()) words += one;
    painter.setPen(QPen(Qt::black, 0.5));
    painter.setFont(font);
    painter.drawLine(QPointF(margin, top), QPointF(margin + room(), top));
    const QRectF first(margin, top + 2, room(), 11);
    painter.drawText(first, Qt::AlignRight | Qt::AlignVCenter, page);
    painter.drawText(first, Qt::AlignLeft | Qt::AlignVCenter,
                     metrics.elidedText(title_, Qt::ElideRight, room() - 70));
    painter.drawText(first.translated(0, 11), Qt::AlignLeft | Qt::AlignVCenter,
                     metrics.elidedText(words.join(u" · "_s), Qt::ElideRight, room() * 0.97));
  }

  QString title_;
  ReportFoot foot_;
  double letters_; ///< points, of rows at most
  double least_ = largestLetters;
  QSizeF size_;
  std::vector<Sheet> sheets_;
  double y_ = margin;
};

ReportSheets::ReportSheets(const std::string& title, const std::vector<reports::Table>& tables,
                           const ReportFoot& foot)
    : paper_(foot.paper), layout_(std::make_unique<Layout>(title, tables, foot, largestLetters)) {
  if (count() == 1) return;
  auto small = std::make_unique<Layout>(title, tables, foot, smallLetters);
  if (small->count() < count()) layout_ = std::move(small);
}

ReportSheets::~ReportSheets() = default;

int ReportSheets::count() const {
  return layout_->count();
}

double ReportSheets::letters() const {
  return layout_->letters();
}

QSizeF ReportSheets::size() const {
  return layout_->size();
}

void ReportSheets::paint(QPainter& painter, int sheet) const {
  layout_->paint(painter, sheet);
}

void ReportSheets::print(QPagedPaintDevice& device, const base::Progress& progress) const {
  const bool onItsSide = size().width() > size().height();
  device.setPageLayout(pageOf(paper_, onItsSide ? QPageLayout::Landscape : QPageLayout::Portrait));
  QPainter painter(&device);
  if (!painter.isActive()) return;
  painter.scale(device.logicalDpiX() / 72.0, device.logicalDpiY() / 72.0);
  for (int sheet = 0; sheet < count(); ++sheet) {
    progress.at(base::Stage::drawing, sheet, count());
    if (progress.isStopped()) return;
    if (sheet > 0) device.newPage();
    paint(painter, sheet);
  }
}

QByteArray reportPdf(const std::string& title, const std::vector<reports::Table>& tables,
                     const ReportFoot& foot, const base::Progress& progress) {
  const ReportSheets sheets(title, tables, foot);
  return asPdf(toQt(title), [&](QPagedPaintDevice& device) { sheets.print(device, progress); });
}

} // namespace gk::ui
