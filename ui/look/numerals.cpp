#include "ui/look/numerals.h"

#include <algorithm>

namespace gk::ui {

namespace {

/// Each digit by itself, and what is between digits as it is; with the width of its place.
template <class Take>
void inPlaces(const QString& text, const QFontMetricsF& letters, const Take& take) {
  const double zero = letters.horizontalAdvance(u'0');
  for (qsizetype from = 0; from < text.size();) {
    const bool isDigit = text[from].isDigit();
    auto to = from + 1;
    while (!isDigit && to < text.size() && !text[to].isDigit())
      ++to;
    const auto piece = text.mid(from, to - from);
    take(piece, isDigit ? zero : letters.horizontalAdvance(piece), isDigit);
    from = to;
  }
}

} // namespace

double evenWidth(const QString& text, const QFontMetricsF& letters) {
  double whole = 0;
  inPlaces(text, letters, [&](const QString&, double wide, bool) { whole += wide; });
  return whole;
}

void drawEven(QPainter& painter, const QRectF& box, Qt::Alignment how, const QString& text) {
  const QFontMetricsF letters(painter.font());
  const double missing = box.width() - evenWidth(text, letters);
  double x = box.left();
  if (how.testFlag(Qt::AlignRight))
    x += missing;
  else if (how.testFlag(Qt::AlignHCenter))
    x += missing / 2;
  const auto upright = how & Qt::AlignVertical_Mask;
  inPlaces(text, letters, [&](const QString& piece, double wide, bool isDigit) {
    const auto within = upright | (isDigit ? Qt::AlignHCenter : Qt::AlignLeft);
    painter.drawText(QRectF(x, box.top(), wide, box.height()),
                     static_cast<int>(within.toInt()) | int{Qt::TextDontClip}, piece);
    x += wide;
  });
}

bool isFigure(const QString& text) {
  const auto isDigit = [](QChar sign) { return sign.isDigit(); };
  const auto isWord = [](QChar sign) { return sign.isLetter() || sign == u'\n'; };
  return std::ranges::any_of(text, isDigit) && std::ranges::none_of(text, isWord);
}

} // namespace gk::ui
