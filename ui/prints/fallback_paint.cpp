#include "ui/prints/fallback_paint.h"

#include "chairside/display_names.h"
#include "ui/support/text.h"

#include <QImage>
#include <QPainter>

#include <algorithm>

// The paper sheet in the order of the chair: identity, screening, right side, left side, wipe and
// bite, varnish, finish.
namespace gk::ui {

namespace {

constexpr double sheetMargin = 36;
constexpr int chartRows = 12; ///< to write in, of both charts
constexpr double usualRow = 15.5;
constexpr double leastRow = 11; ///< about 4 mm
constexpr double mostRow = 19;
constexpr double letters = 9;

class FallbackPainter {
 public:
  FallbackPainter(QPainter& painter, QSizeF page, double rowHigh)
      : painter_(painter), rowHigh_(rowHigh), left_(sheetMargin),
        right_(page.width() - sheetMargin), y_(sheetMargin) {
    painter_.setPen(QPen(Qt::black, 0.7));
  }

  [[nodiscard]] double y() const { return y_; }
  [[nodiscard]] double width() const { return right_ - left_; }
  void skip(double by) { y_ += by; }

  void heading(const QString& text) {
    y_ += 3;
    painter_.fillRect(QRectF(left_, y_, width(), 14), QColor(225, 225, 225));
    painter_.setFont(printFont(10, true));
    painter_.drawText(QRectF(left_ + 4, y_, width(), 14), Qt::AlignVCenter, text);
    y_ += 16;
  }

  void words(const QString& text, double points = letters, bool bold = false, double besides = 0) {
    y_ += drawWords(&painter_, text, printFont(points, bold), {left_, y_, width() - besides, 400}) +
          1;
  }

  /// Boxes to check, as many as have room in a line.
  void boxes(const QStringList& choices) {
    painter_.setFont(printFont(letters));
    const QFontMetricsF metrics(printFont(letters));
    double x = left_;
    for (const auto& choice : choices) {
      const double wide = metrics.horizontalAdvance(choice) + 26;
      if (x + wide > right_) {
        x = left_;
        y_ += 14;
      }
      painter_.drawRect(QRectF(x, y_ + 2, 8, 8));
      painter_.drawText(QRectF(x + 12, y_, wide, 13), Qt::AlignVCenter, choice);
      x += wide;
    }
    y_ += 15;
  }

  void grid(const QStringList& heads, const QStringList& rows, const std::vector<double>& shares) {
    double x = left_;
    std::vector<double> edges{left_};
    double high = 0;
    for (std::size_t i = 0; i < shares.size(); ++i) {
      const double wide = width() * shares[i];
      high = std::max(high, drawWords(&painter_, heads.value(static_cast<qsizetype>(i)),
                                      printFont(8, true), {x + 2, y_, wide - 4, 40}));
      x += wide;
      edges.push_back(x);
    }
    y_ += high + 2;
    const double top = y_;
    for (const auto& row : rows) {
      painter_.setFont(printFont(letters));
      painter_.drawText(QRectF(left_ + 3, y_, width() * shares.front() - 4, rowHigh_),
                        Qt::AlignVCenter, row);
      painter_.drawLine(QPointF(left_, y_), QPointF(right_, y_));
      y_ += rowHigh_;
    }
    painter_.drawLine(QPointF(left_, y_), QPointF(right_, y_));
    for (const auto edge : edges)
      painter_.drawLine(QPointF(edge, top), QPointF(edge, y_));
    y_ += 3;
  }

  /// Words with a line to write on behind each.
  void lines(const QStringList& labels) {
    const double each = width() / static_cast<double>(labels.size());
    painter_.setFont(printFont(letters));
    const QFontMetricsF metrics(printFont(letters));
    for (qsizetype i = 0; i < labels.size(); ++i) {
      const double x = left_ + each * static_cast<double>(i);
      painter_.drawText(QRectF(x, y_ + 3, each, 14), Qt::AlignVCenter, labels[i]);
      const double from = x + metrics.horizontalAdvance(labels[i]) + 4;
      painter_.drawLine(QPointF(from, y_ + 16), QPointF(x + each - 8, y_ + 16));
    }
    y_ += 18;
  }

 private:
  QPainter& painter_;
  double rowHigh_;
  double left_;
  double right_;
  double y_;
};

QStringList stepHeads() {
  QStringList heads{u"Tooth"_s};
  for (const auto step : base::displayNamesOf<chairside::Step>())
    heads += capital(toQt(step));
  return heads;
}

double layFallback(QPainter& painter, const FallbackSheet& sheet, QSizeF page, double rowHigh) {
  constexpr double codeSide = 74;
  if (const auto code = reports::qrCode(sheet.number))
    drawQrCode(painter, *code,
               {page.width() - sheetMargin - codeSide, sheetMargin - 10, codeSide, codeSide});
  FallbackPainter on(painter, page, rowHigh);
  const auto blank = u"______________________"_s;
  on.words(u"Paper sheet %1, one student, %2"_s.arg(sheet.sheet, sheet.date), 12, true, codeSide);
  on.words(u"Names a student: keep it locked up, count it out and in, shred it after it was typed "
           "and checked."_s,
           8, false, codeSide);
  on.words((sheet.name.isEmpty() ? blank : sheet.name) + u"    No. "_s + toQt(sheet.number), 13,
           true, codeSide);
  on.words(u"Born %1.  %2"_s.arg(sheet.birth.isEmpty() ? blank : sheet.birth, sheet.place), letters,
           false, codeSide);
  on.heading(u"1  Identity, consent, alerts"_s);
  on.words(sheet.consent, letters, true);
  on.words(sheet.alerts.isEmpty() ? u"No open health alert in the logbook."_s
                                  : u"ALERTS: "_s + sheet.alerts.join(u"; "_s),
           letters, !sheet.alerts.isEmpty());
  on.boxes({u"Name matches"_s, u"Birth date matches"_s, u"Alerts heard"_s, u"Assent"_s,
            u"No health changes"_s, u"Health changes (write below)"_s});
  on.heading(u"2  Screening"_s);
  on.grid({u"Tooth"_s, u"Erupted / partial / un."_s, u"Sound / non-cav. / cavity / filled"_s,
           u"Sealed: ours / elsewhere"_s, u"Plan: seal / reseal / watch / refer"_s, u"Surfaces"_s},
          sheet.teeth, {0.27, 0.14, 0.18, 0.14, 0.17, 0.1});
  on.words(
      u"Untreated decay:  no / yes / cannot tell      Treated decay:  no / yes / cannot tell   "
      "   Urgency:  no obvious problem / early care / urgent care, reason:"_s);
  on.skip(2);
  for (const auto& side : {u"3  Right side"_s, u"4  Left side"_s}) {
    on.heading(side + u" (isolated by: __________________  cheek: ____________  tongue: "
                      "____________)"_s);
    on.grid(stepHeads(), {QString(), QString()}, {0.16, 0.14, 0.14, 0.14, 0.14, 0.14, 0.14});
  }
  on.words(u"Write seconds by the clock for etch, rinse and cure, each start again if it was "
           "interrupted. At least: "_s +
               sheet.minimums + u". Manufacturer's instructions take precedence."_s,
           8);
  on.lines({u"Sealant lot"_s, u"Etchant lot"_s, u"Curing light"_s});
  on.heading(u"5  After curing"_s);
  on.boxes({u"Surface wiped"_s, u"Bite fine"_s, u"Bite adjusted"_s, u"Bite not checked, why:"_s});
  on.heading(u"6  Fluoride varnish"_s);
  on.boxes({u"Applied"_s, u"Not applied, why:"_s});
  on.lines({u"Varnish lot"_s, u"Reason"_s});
  on.heading(u"7  Visit outcome"_s);
  QStringList outcomes;
  for (const auto end : base::displayNamesOf<chairside::DayEnd>())
    outcomes += capital(toQt(end));
  on.boxes(outcomes);
  on.lines({u"Operator"_s, u"Assistant"_s, u"Time"_s});
  on.lines({u"Remarks, no names"_s});
  on.heading(u"8  Typed from this sheet"_s);
  on.words(u"Type it at the chair in this order. Then, on the day board (F1), Alt+P: sheet %1, and "
           "who compared the entries with it."_s.arg(sheet.sheet),
           8);
  on.lines({u"Typed by"_s, u"Compared by, another person"_s, u"On"_s});
  return on.y();
}

} // namespace

/// Rows to write in are as high as the rest leaves room for: many alerts make them lower.
double paintFallback(QPainter& painter, const FallbackSheet& sheet, PaperSize paper) {
  const auto page = sizeOf(paper);
  QImage nowhere(1, 1, QImage::Format_RGB32);
  QPainter measuring(&nowhere);
  const double ends = layFallback(measuring, sheet, page, usualRow);
  const double slack = page.height() - sheetMargin - ends;
  return layFallback(painter, sheet, page,
                     std::clamp(usualRow + slack / chartRows, leastRow, mostRow));
}

} // namespace gk::ui
