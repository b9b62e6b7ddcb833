#include "ui/paper/sheet_layout.h"
#include "ui/support/text.h"

#include <QStringList>
#include <QSvgRenderer>

#include <algorithm>

// What stands on a sheet without a table.
namespace gk::ui {

namespace {

constexpr double numberPoints = 25;
constexpr double numberLine = numberPoints * 1.28;

} // namespace

void SheetLayout::begin(const reports::Front& front) {
  if (y_ > top()) newSheet();
  put(Words(toQt(front.over), paperFont(11, true), room()), paperMain);
  y_ += 1;
  put(Words(toQt(front.name), paperFont(21, true), room()));
  put(Words(toQt(front.under), paperFont(10), room()), paperQuiet);
  if (!foot_.version.isEmpty()) put(Words(foot_.version, paperFont(7), room()), paperQuiet);
  y_ += 8;
  QStringList sentences;
  for (const auto& one : front.sentences)
    sentences += toQt(one);
  put(Words(sentences.join(u' '), paperFont(12), room()));
  y_ += 10;
  putFigures(front.figures);
  putPictures(front.pictures);
}

void SheetLayout::putFigures(const std::vector<reports::FrontFigure>& figures) {
  if (figures.empty()) return;
  const double wide = (room() + between) / static_cast<double>(figures.size()) - between;
  double most = 0;
  std::vector<QRectF> bars;
  double x = margin;
  for (const auto& figure : figures) {
    const double inside = wide - 10;
    const auto number = toQt(reports::toRead(figure.number) + figure.unit);
    auto points = numberPoints;
    while (points > 11 && ui::widthOf(number, paperFont(points, true)) > inside)
      --points;
    double y = y_;
    const auto one = [&](const QString& text, const QFont& font, const QColor& ink) {
      if (text.isEmpty()) return;
      const Words words(text, font, inside);
      putAt({x + 10, y}, words, ink);
      y += words.height();
    };
    one(number, paperFont(points, true), paperInk);
    y = y_ + numberLine;
    one(toQt(figure.words), paperFont(9), paperInk);
    one(toQt(figure.before), paperFont(9, true), paperQuiet);
    most = std::max(most, y - y_);
    bars.emplace_back(x, y_, 3, 0);
    x += wide + between;
  }
  for (auto& bar : bars) {
    bar.setHeight(most);
    sheets_.back().bars.push_back({bar});
  }
  y_ += most + 12;
}

void SheetLayout::putPictures(const std::vector<reports::FrontPicture>& pictures) {
  const double wide = (room() - between) / 2;
  double most = 0;
  double x = margin;
  for (const auto& picture : pictures) {
    double y = y_;
    const Words title(toQt(picture.title), paperFont(11, true), wide);
    putAt({x, y}, title);
    y += title.height() + 1;
    const Words says(toQt(picture.plot.says), paperFont(8), wide);
    putAt({x, y}, says, paperQuiet);
    y += says.height() + 2;
    const auto svg = paperPicture(picture.plot, reports::halfWidth);
    const auto size =
        QSizeF(svg->defaultSize()).scaled(wide * pictures_, 1000, Qt::KeepAspectRatio);
    sheets_.back().pictures.push_back({svg, {QPointF(x, y), size}});
    most = std::max(most, y + size.height() - y_);
    x += wide + between;
  }
  y_ += most + 2;
}

double SheetLayout::putList(const reports::Table& table, double points, bool isMeasured) {
  const int columns = room() > 600 ? 3 : 2;
  const double wide = (room() + between) / columns - between;
  const auto count = table.columns.size();
  const auto rows =
      (count + static_cast<std::size_t>(columns) - 1) / static_cast<std::size_t>(columns);
  double height = 0;
  for (std::size_t row = 0; row < rows; ++row) {
    double most = 0;
    for (std::size_t column = 0; column < static_cast<std::size_t>(columns); ++column) {
      const auto at = column * rows + row;
      if (at >= count) continue;
      const Words name(toQt(table.columns[at].heading), paperFont(points), wide * 0.6);
      const auto side = table.columns[at].isNumber() ? Words::To::figures : Words::To::right;
      const Words value(toQt(cellShown(table, 0, at)), paperFont(points, true), wide * 0.4, side);
      const double high = std::max(name.height(), value.height()) + 3;
      most = std::max(most, high);
      if (isMeasured) continue;
      const double x = margin + static_cast<double>(column) * (wide + between);
      putAt({x, y_}, name, paperQuiet);
      putAt({x + wide * 0.6, y_}, value);
      sheets_.back().rules.push_back({{x, y_ + high - 1}, wide, 0.4, paperLine});
    }
    if (!isMeasured) y_ += most + 1;
    height += most + 1;
  }
  return height;
}

/// A list is short and never torn: `add` has made room for it.
double SheetLayout::listHeight(const reports::Table& table, double points) {
  return putList(table, points, true);
}

} // namespace gk::ui
