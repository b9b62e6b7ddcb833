#include "ui/lists/overview_view.h"

#include "base/text/text.h"
#include "ui/keys/icons.h"
#include "ui/lists/plot_view.h"
#include "ui/look/numerals.h"
#include "ui/look/style.h"
#include "ui/support/text.h"

#include <QPainter>
#include <QStringList>
#include <QSvgRenderer>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <vector>

namespace gk::ui {

namespace {

constexpr int cardGap = 12;
constexpr int cardMargin = 14;
constexpr auto overLeft = Qt::AlignLeft | Qt::AlignVCenter;
constexpr int namesWrap = int{Qt::AlignLeft} | int{Qt::AlignVCenter} | int{Qt::TextWordWrap};
constexpr auto overRight = Qt::AlignRight | Qt::AlignVCenter;

/// Title and sentence of a picture.
int headRoom() {
  return style::px(64);
}

} // namespace

OverviewView::OverviewView(QWidget* parent) : QWidget(parent) {
  setObjectName(u"totalsOverview"_s);
  setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
  style::whenDressed(this, [this] { updateGeometry(); });
}

void OverviewView::show(const Overview& overview) {
  overview_ = overview;
  sayAll();
  updateGeometry();
  update();
}

void OverviewView::turn() {
  turned_ = !turned_;
  sayAll();
  update();
}

void OverviewView::showTrend(const Trend& trend) {
  trend_ = trend;
  sayAll();
  update();
}

void OverviewView::sayAll() {
  QStringList words;
  for (const auto& figure : overview_.figures)
    words += figure.title + u' ' + figure.number + u", "_s + figure.of +
             (figure.benchmark.isEmpty() ? QString() : u", "_s + figure.benchmark);
  words += turned_ ? trend_.says : overview_.funnelSays;
  words += turned_ ? overview_.findingsSays : overview_.dotsSay;
  setAccessibleName(words.join(u". "_s));
}

QFont OverviewView::letters(int pixels, QFont::Weight weight) const {
  auto made = font();
  made.setPixelSize(style::px(pixels));
  made.setWeight(weight);
  return made;
}

int OverviewView::figureHeight() const {
  return style::px(104);
}

int OverviewView::rowHeight() const {
  return style::px(24);
}

double OverviewView::namesRoom(double boxWidth) const {
  double names = 0;
  for (const auto& dot : overview_.dots) {
    const QFontMetricsF words(letters(14, dot.isBelow ? QFont::Bold : QFont::Normal));
    names = std::max(names, words.horizontalAdvance(dot.words));
  }
  return std::min(names, boxWidth * 0.34) + 8;
}

std::vector<int> OverviewView::dotRows(double boxWidth) const {
  const QRect room(0, 0, static_cast<int>(namesRoom(boxWidth)), 10000);
  std::vector<int> rows;
  for (const auto& dot : overview_.dots) {
    const QFontMetrics words(letters(14, dot.isBelow ? QFont::Bold : QFont::Normal));
    rows.push_back(
        std::max(rowHeight(), words.boundingRect(room, namesWrap, dot.words).height() + 4));
  }
  return rows;
}

QSize OverviewView::sizeHint() const {
  // Large letters have two figures beside each other, and the pictures below each other.
  const bool large = lookNow().percent > 120;
  const auto rows = std::max<std::size_t>(overview_.funnel.size(), 4);
  const auto dots = dotRows(large ? width() : (width() - cardGap) / 2.0);
  const int dotsHigh = std::accumulate(dots.begin(), dots.end(), rowHeight());
  const int picture =
      headRoom() + std::max(static_cast<int>(rows) * rowHeight(), dotsHigh) + cardMargin;
  return {900, large ? 2 * (figureHeight() + cardGap) + 2 * picture + cardGap
                     : figureHeight() + cardGap + picture};
}

QSize OverviewView::minimumSizeHint() const {
  return {400, sizeHint().height()};
}

void OverviewView::resizeEvent(QResizeEvent* event) {
  QWidget::resizeEvent(event);
  updateGeometry(); // names wrap otherwise
}

void OverviewView::paintCard(QPainter& painter, const QRectF& box) const {
  painter.setPen(QPen(style::line(), 1));
  painter.setBrush(style::card());
  painter.drawRoundedRect(box.adjusted(0.5, 0.5, -0.5, -0.5), 10, 10);
}

void OverviewView::paintFigure(QPainter& painter, const QRectF& box,
                               const Overview::Figure& figure) const {
  paintCard(painter, box);
  const auto inside = box.adjusted(cardMargin, 8, -cardMargin, -8);
  const double line = inside.height();
  const auto at = [&](double from, double to) {
    return QRectF(inside.left(), inside.top() + line * from, inside.width(), line * (to - from));
  };
  painter.setPen(style::ink());
  painter.setFont(letters(15, QFont::DemiBold));
  painter.drawText(at(0, 0.22), overLeft, figure.title);
  painter.setFont(letters(34, QFont::ExtraBold));
  painter.drawText(at(0.2, 0.62), overLeft, figure.number);
  // Letters give way before words do.
  const auto fitting = [](QFont font, const QString& words, double room) {
    while (font.pixelSize() > 11 && QFontMetricsF(font).horizontalAdvance(words) > room)
      font.setPixelSize(font.pixelSize() - 1);
    return font;
  };
  painter.setFont(fitting(letters(14), figure.of, inside.width()));
  painter.setPen(style::quiet());
  painter.drawText(at(0.6, 0.8), overLeft, figure.of);
  if (figure.benchmark.isEmpty()) return;
  const auto last = at(0.8, 1);
  const double side = last.height() * 0.95;
  const auto sign = !figure.met ? Icon::note : *figure.met ? Icon::tick : Icon::ask;
  paintIcon(painter, {last.left(), last.center().y() - side / 2, side, side}, sign, style::ink());
  const auto beside = last.adjusted(side + 6, 0, 0, 0);
  painter.setFont(fitting(letters(14, QFont::DemiBold), figure.benchmark, beside.width()));
  painter.setPen(style::ink());
  painter.drawText(beside, overLeft, figure.benchmark);
}

void OverviewView::paintHead(QPainter& painter, const QRectF& box, const QString& title,
                             const QString& says) const {
  paintCard(painter, box);
  const auto inside = box.adjusted(cardMargin, 8, -cardMargin, 0);
  painter.setPen(style::ink());
  painter.setFont(letters(16, QFont::Bold));
  painter.drawText(QRectF(inside.left(), inside.top(), inside.width(), style::px(20)), overLeft,
                   title);
  painter.setPen(style::quiet());
  // The sentence has two lines: letters give way before words do.
  const QRectF room(inside.left(), inside.top() + style::px(20), inside.width(), style::px(36));
  constexpr int wraps = int{Qt::AlignLeft} | int{Qt::AlignTop} | int{Qt::TextWordWrap};
  auto small = letters(14);
  while (small.pixelSize() > 11 &&
         QFontMetricsF(small).boundingRect(room, wraps, says).height() > room.height())
    small.setPixelSize(small.pixelSize() - 1);
  painter.setFont(small);
  painter.drawText(room, wraps, says);
}

void OverviewView::paintFunnel(QPainter& painter, const QRectF& box) const {
  paintHead(painter, box, u"From enrolled to sealed"_s, overview_.funnelSays);
  int most = 1;
  double names = 0;
  double shares = 0; // percents in a column of their own, and what they are of behind them
  double wholes = 0;
  const QFontMetricsF words(letters(14));
  for (const auto& step : overview_.funnel) {
    most = std::max(most, step.count);
    names = std::max(names, words.horizontalAdvance(step.words));
    shares = std::max(shares, evenWidth(step.share.section(u' ', 0, 0), words));
    wholes = std::max(wholes, words.horizontalAdvance(u' ' + step.share.section(u' ', 1)));
  }
  const double left = box.left() + cardMargin + names + 12;
  const double room = box.right() - cardMargin - shares - wholes - 10 - left;
  double y = box.top() + headRoom();
  std::optional<double> before;
  for (const auto& step : overview_.funnel) {
    const double wide = std::max(3.0, room * step.count / most);
    const QRectF bar(left, y + 2, wide, rowHeight() - 5);
    painter.setFont(letters(14, QFont::Medium));
    painter.setPen(style::ink());
    painter.drawText(QRectF(box.left() + cardMargin, y, names + 4, rowHeight()), overRight,
                     step.words);
    if (before && *before > wide) { // lost at this step
      painter.setPen(QPen(style::edge(), 1.5, Qt::DashLine));
      painter.setBrush(Qt::NoBrush);
      painter.drawRoundedRect(QRectF(bar.left(), bar.top(), *before, bar.height()), 3, 3);
    }
    painter.setPen(Qt::NoPen);
    painter.setBrush(style::worn().chart);
    painter.drawRoundedRect(bar, 3, 3);
    painter.setFont(letters(14, QFont::Bold));
    const auto count = QString::number(step.count);
    const bool isInside = evenWidth(count, QFontMetricsF(painter.font())) + 14 < wide;
    painter.setPen(isInside ? style::card() : style::ink());
    drawEven(painter, isInside ? bar.adjusted(8, 0, 0, 0) : bar.adjusted(wide + 6, 0, 60, 0),
             overLeft, count);
    painter.setFont(letters(14));
    painter.setPen(style::quiet());
    const double of = box.right() - cardMargin - wholes;
    drawEven(painter, QRectF(of - shares, y, shares, rowHeight()), overRight,
             step.share.section(u' ', 0, 0));
    painter.drawText(QRectF(of, y, wholes + 4, rowHeight()), overLeft,
                     u' ' + step.share.section(u' ', 1));
    before = wide;
    y += rowHeight();
  }
}

void OverviewView::paintDots(QPainter& painter, const QRectF& box) const {
  paintHead(painter, box, u"Fully retained at one year, by school"_s, overview_.dotsSay);
  if (overview_.dots.empty()) return;
  const QFontMetricsF words(letters(14));
  const double names = namesRoom(box.width());
  const auto rows = dotRows(box.width());
  double low = std::min(overview_.benchmark.value_or(100), overview_.all.value_or(100));
  for (const auto& dot : overview_.dots)
    low = std::min(low, dot.range ? dot.range->low : dot.share);
  low = std::max(0.0, std::floor(low / 10) * 10);
  double wholes = 0;
  for (const auto& dot : overview_.dots)
    wholes = std::max(wholes, evenWidth(u" of %1"_s.arg(dot.of), words));
  const QFontMetricsF bold(letters(14, QFont::Bold));
  const double numbers = evenWidth(u"100.0"_s, bold) + 4 + wholes;
  const double left = box.left() + cardMargin + names + 10;
  const double room = box.right() - cardMargin - numbers - 16 - left;
  const auto x = [&](double percent) { return left + room * (percent - low) / (100 - low); };
  const double top = box.top() + headRoom();
  const double foot = std::accumulate(rows.begin(), rows.end(), top);
  painter.setFont(letters(14));
  for (double tick = low; tick <= 100; tick += low >= 70 ? 10 : 20) {
    painter.setPen(QPen(style::line(), 1));
    painter.drawLine(QPointF(x(tick), top), QPointF(x(tick), foot));
    painter.setPen(style::quiet());
    painter.drawText(QRectF(x(tick) - 30, foot, 60, rowHeight()), Qt::AlignCenter,
                     QString::number(tick) + (tick == 100 ? u"%"_s : QString()));
  }
  const auto cross = [&](std::optional<double> percent, const QPen& pen) -> std::optional<double> {
    if (!percent) return std::nullopt;
    painter.setPen(pen);
    painter.drawLine(QPointF(x(*percent), top), QPointF(x(*percent), foot + 4));
    return x(*percent);
  };
  const auto benchmark = cross(overview_.benchmark, QPen(style::ink(), 2, Qt::DashLine));
  const auto all = cross(overview_.all, QPen(style::worn().chart, 2));
  double y = top;
  for (std::size_t i = 0; i < overview_.dots.size(); ++i) {
    const auto& dot = overview_.dots[i];
    const int high = rows[i];
    const auto color = dot.isBelow ? style::worn().chartOdd : style::worn().chart;
    const double middle = y + high / 2.0;
    if (dot.isBelow) {
      painter.setPen(Qt::NoPen);
      painter.setBrush(style::hand());
      painter.drawRoundedRect(QRectF(box.left() + 6, y + 1, box.width() - 12, high - 2), 5, 5);
    }
    painter.setFont(letters(14, dot.isBelow ? QFont::Bold : QFont::Normal));
    painter.setPen(style::ink());
    painter.drawText(QRectF(box.left() + cardMargin, y, names, high), namesWrap, dot.words);
    painter.setPen(QPen(color, 3));
    if (dot.range) {
      painter.drawLine(QPointF(x(dot.range->low), middle), QPointF(x(dot.range->high), middle));
      for (const double end : {dot.range->low, dot.range->high})
        painter.drawLine(QPointF(x(end), middle - 5), QPointF(x(end), middle + 5));
    }
    painter.setPen(QPen(style::card(), 1.5));
    painter.setBrush(color);
    const QPointF center(x(dot.share), middle);
    if (dot.isBelow)
      painter.drawPolygon(QPolygonF({center + QPointF(0, -8), center + QPointF(8, 0),
                                     center + QPointF(0, 8), center + QPointF(-8, 0)}));
    else
      painter.drawEllipse(center, 6.5, 6.5);
    painter.setPen(style::ink());
    painter.setFont(letters(14, QFont::Bold));
    const auto percent = toQt(base::fixed(dot.share, 1));
    const double right = box.right() - cardMargin;
    drawEven(painter, QRectF(right - numbers, y, numbers - wholes - 4, high), overRight, percent);
    painter.setFont(letters(14));
    painter.setPen(style::quiet());
    drawEven(painter, QRectF(right - wholes, y, wholes, high), overRight, u" of %1"_s.arg(dot.of));
    y += high;
  }
  // Below the picture, between its ticks: above it stands the finding.
  paintDotMarks(painter, benchmark, all, foot + rowHeight() * 0.7, box.right() - cardMargin);
}

void OverviewView::paintPlot(QPainter& painter, const QRectF& box, const QString& title,
                             const QString& says, const reports::Plot& plot) const {
  paintHead(painter, box, title, says);
  const auto room = box.adjusted(cardMargin, headRoom() - 4, -cardMargin, -8);
  // As wide as the room at the usual letters; letters that are larger have fewer units.
  const double unit = style::px(14) / 13.0;
  constexpr double aroundAxes = 66; // names below them, and one row of a key
  const reports::PlotSize units{room.width() / unit,
                                std::max(60.0, room.height() / unit - aroundAxes)};
  QSvgRenderer svg(QByteArray::fromStdString(reports::toSvg(plot, units, plotColors())));
  const auto size = QSizeF(svg.defaultSize()).scaled(room.size(), Qt::KeepAspectRatio);
  svg.render(&painter, QRectF(room.topLeft(), size));
}

void OverviewView::paintTurned(QPainter& painter, const QRectF& first, const QRectF& second) const {
  const auto title = u"From term to term"_s;
  if (trend_.plot)
    paintPlot(painter, first, title, trend_.says, *trend_.plot);
  else
    paintHead(painter, first, title, trend_.says);
  paintPlot(painter, second, u"Findings at the screening"_s, overview_.findingsSays,
            overview_.findings);
}

void OverviewView::paintEvent(QPaintEvent* /*event*/) {
  if (overview_.figures.empty()) return;
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  const bool large = lookNow().percent > 120;
  const int columns = large ? 2 : 4;
  const double wide = (width() + cardGap) / static_cast<double>(columns) - cardGap;
  for (std::size_t i = 0; i < overview_.figures.size(); ++i) {
    const auto row = static_cast<int>(i) / columns;
    const auto column = static_cast<int>(i) % columns;
    paintFigure(
        painter,
        QRectF(column * (wide + cardGap), row * (figureHeight() + cardGap), wide, figureHeight()),
        overview_.figures[i]);
  }
  const int top = (large ? 2 : 1) * (figureHeight() + cardGap);
  if (large) {
    const double high = (height() - top - cardGap) / 2.0;
    if (turned_) {
      paintTurned(painter, QRectF(0, top, width(), high),
                  QRectF(0, top + high + cardGap, width(), high));
      return;
    }
    paintFunnel(painter, QRectF(0, top, width(), high));
    paintDots(painter, QRectF(0, top + high + cardGap, width(), high));
    return;
  }
  const double half = (width() - cardGap) / 2.0;
  if (turned_) {
    paintTurned(painter, QRectF(0, top, half, height() - top),
                QRectF(half + cardGap, top, half, height() - top));
    return;
  }
  paintDots(painter, QRectF(0, top, half, height() - top));
  paintFunnel(painter, QRectF(half + cardGap, top, half, height() - top));
}

} // namespace gk::ui
