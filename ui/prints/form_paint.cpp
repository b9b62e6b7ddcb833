#include "ui/prints/form_paint.h"

#include "ui/support/text.h"

#include <QFontMetricsF>
#include <QPainter>

#include <algorithm>

namespace gk::ui {

namespace {

constexpr double formMargin = 44;
constexpr double codeSide = 84;
constexpr double formFoot = 26;
constexpr double mostLetters = 12;

/// Lays the parts out below each other; paints where there is a painter. How high all of it is.
double layForm(QPainter* painter, const reports::ConsentSheet& sheet, QSizeF page, double points) {
  const double width = page.width() - 2 * formMargin;
  double y = formMargin;
  const bool hasCode = !sheet.number.empty();
  const auto room = [&](double left) {
    // Beside the code the lines are shorter.
    const double beside = hasCode && y < formMargin + codeSide + 8 ? codeSide + 10 : 0;
    return QRectF(formMargin + left, y, width - left - beside, page.height());
  };
  if (!sheet.draftMark.empty()) {
    const auto at = room(0);
    const double high = drawWords(nullptr, toQt(sheet.draftMark), printFont(points, true),
                                  at.adjusted(6, 0, -6, 0));
    if (painter) {
      painter->drawRect(QRectF(at.left(), at.top(), at.width(), high + 6));
      drawWords(painter, toQt(sheet.draftMark), printFont(points, true), at.adjusted(6, 3, -6, 0));
    }
    y += high + 12;
  }
  bool isFirst = true;
  for (const auto& part : sheet.parts) {
    switch (part.kind) {
    case reports::FormPart::Kind::heading:
      y += isFirst ? 0 : points * 0.55;
      y += drawWords(painter, toQt(part.text),
                     printFont(isFirst ? points * 1.5 : points * 1.15, true), room(0));
      y += points * 0.15;
      isFirst = false;
      break;
    case reports::FormPart::Kind::text:
      y += drawWords(painter, toQt(part.text), printFont(points), room(0)) + points * 0.3;
      break;
    case reports::FormPart::Kind::box: {
      if (painter) painter->drawRect(QRectF(formMargin + 2, y + points * 0.15, points, points));
      y += drawWords(painter, toQt(part.text), printFont(points), room(points * 2)) + points * 0.25;
      break;
    }
    case reports::FormPart::Kind::write: {
      y += points * 1.9;
      const auto all = room(0);
      const auto fields = std::max<std::size_t>(part.labels.size(), 1);
      const double each = all.width() / static_cast<double>(fields);
      double high = 0;
      for (std::size_t i = 0; i < part.labels.size(); ++i) {
        const QRectF at(all.left() + each * static_cast<double>(i), y, each - 10, all.height());
        if (painter) painter->drawLine(at.topLeft(), at.topRight());
        high = std::max(high, drawWords(painter, toQt(part.labels[i]), printFont(points * 0.85),
                                        at.adjusted(0, 2, 0, 0)));
      }
      y += high + points * 0.5;
      break;
    }
    }
  }
  return y;
}

} // namespace

double consentFormLetters(const reports::ConsentSheet& sheet, PaperSize paper) {
  const auto page = sizeOf(paper);
  double points = mostLetters;
  while (points > 4 &&
         layForm(nullptr, sheet, page, points) > page.height() - formMargin - formFoot)
    points -= 1;
  return points;
}

void paintConsentForm(QPainter& painter, const reports::ConsentSheet& sheet, PaperSize paper) {
  const auto page = sizeOf(paper);
  const double points = consentFormLetters(sheet, paper);
  painter.setPen(QPen(Qt::black, 0.8));
  if (const auto code = reports::qrCode(sheet.number)) {
    const QRectF corner(page.width() - formMargin - codeSide, formMargin - 8, codeSide, codeSide);
    drawQrCode(painter, *code, corner);
    painter.setFont(printFont(11, true));
    painter.drawText(QRectF(corner.left(), corner.bottom() - 4, codeSide, 16), Qt::AlignCenter,
                     toQt(sheet.number));
  }
  layForm(&painter, sheet, page, points);
  painter.setFont(printFont(8));
  const QRectF foot(formMargin, page.height() - formMargin, page.width() - 2 * formMargin, 12);
  painter.drawText(foot, Qt::AlignLeft | Qt::AlignVCenter,
                   toQt(sheet.language + ", version " + sheet.version));
  painter.drawText(foot, Qt::AlignRight | Qt::AlignVCenter,
                   sheet.number.empty()
                       ? QString()
                       : u"Names a student: keep it locked up. "_s + toQt(sheet.number));
}

int LabelRun::pages() const {
  const auto each = static_cast<std::size_t>(sheet->count());
  return labels.empty()
             ? 0
             : static_cast<int>((labels.size() + static_cast<std::size_t>(used) + each - 1) / each);
}

void paintUsedPlaces(QPainter& painter, const LabelRun& run) {
  const auto& sheet = *run.sheet;
  painter.save();
  painter.setPen(QPen(Qt::gray, 1, Qt::DotLine));
  for (int place = 0; place < run.used; ++place) {
    const QRectF all(sheet.x(place), sheet.y(place), sheet.width, sheet.height);
    painter.drawRect(all);
    painter.drawLine(all.topLeft(), all.bottomRight());
    painter.drawLine(all.topRight(), all.bottomLeft());
  }
  painter.restore();
}

void paintLabels(QPainter& painter, const LabelRun& run, int page) {
  constexpr double inset = 6;
  const auto& sheet = *run.sheet;
  for (int place = page == 0 ? run.used : 0; place < sheet.count(); ++place) {
    const auto which = static_cast<std::size_t>(page * sheet.count() + place - run.used);
    if (which >= run.labels.size()) return;
    const auto& label = run.labels[which];
    const QRectF all(sheet.x(place), sheet.y(place), sheet.width, sheet.height);
    if (run.cut) {
      painter.setPen(QPen(Qt::black, 0.5, Qt::DashLine));
      painter.drawRect(all);
    }
    painter.setPen(Qt::black);
    const auto inside = all.adjusted(inset, inset, -inset, -inset);
    const double side = std::min({inside.height(), inside.width() * 0.4, 96.0});
    if (const auto code = reports::qrCode(label.number))
      drawQrCode(painter, *code, {inside.right() - side, inside.top(), side, side});
    QRectF words(inside.left(), inside.top() + 2, inside.width() - side - 4, inside.height());
    painter.save();
    painter.setClipRect(inside);
    const double large = sheet.height > 100 ? 16 : 12;
    const double small = sheet.height > 100 ? 12 : 9;
    for (const auto& [text, points, bold] : {std::tuple(label.name, large, true),
                                             {toQt(label.number), large, true},
                                             {label.place, small, false},
                                             {label.school, small, false}})
      if (!text.isEmpty()) {
        const auto font = printFont(points, bold);
        // One line each: what is too long ends in dots, and the number is never pushed off.
        const auto shown = QFontMetricsF(font).elidedText(text, Qt::ElideRight, words.width());
        words.setTop(words.top() + drawWords(&painter, shown, font, words));
      }
    painter.restore();
  }
}

} // namespace gk::ui
