#include "base/text/text.h"
#include "ui/lists/overview_view.h"
#include "ui/look/style.h"
#include "ui/support/text.h"

#include <QPainter>

#include <algorithm>
#include <vector>

namespace gk::ui {

/// What the two lines across the schools are: one moves aside for the other.
void OverviewView::paintDotMarks(QPainter& painter, std::optional<double> benchmark,
                                 std::optional<double> all, double y, double right) const {
  const auto font = letters(14, QFont::DemiBold);
  const QFontMetricsF words(font);
  struct Mark {
    QString words;
    double center;
    double wide;
  };
  const auto mark = [&](const QString& text, double center) {
    return Mark{text, center, words.horizontalAdvance(text) + 12};
  };
  std::vector<Mark> marks;
  if (benchmark)
    marks.push_back(mark(u"own benchmark %1%"_s.arg(*overview_.benchmark), *benchmark));
  if (all) marks.push_back(mark(u"all %1%"_s.arg(toQt(base::fixed(*overview_.all, 1))), *all));
  std::ranges::stable_sort(marks, {}, &Mark::center);
  if (marks.size() == 2) {
    const double apart = (marks[0].wide + marks[1].wide) / 2;
    const double lacking = std::max(0.0, apart - (marks[1].center - marks[0].center));
    marks[0].center -= lacking / 2;
    marks[1].center += lacking / 2;
    const double over = std::max(0.0, marks[1].center + marks[1].wide / 2 - right);
    for (auto& each : marks)
      each.center -= over;
  }
  painter.setFont(font);
  painter.setPen(style::ink());
  for (const auto& each : marks)
    painter.drawText(QRectF(each.center - each.wide / 2, y, each.wide, rowHeight()),
                     Qt::AlignCenter, each.words);
}

} // namespace gk::ui
