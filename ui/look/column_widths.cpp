#include "ui/look/column_widths.h"

#include "ui/support/text.h"

#include <QFontMetricsF>
#include <QStringList>

#include <algorithm>
#include <array>
#include <numeric>

namespace gk::ui {

namespace {

constexpr double gap = 9;
constexpr double widestColumn = 250; ///< of words, before they are broken into lines
constexpr std::array letterSizes{largestLetters, smallLetters, 7.0};

/// The least and the wished for width of each column.
struct Wishes {
  std::vector<double> least;
  std::vector<double> wished;
};

double sum(const std::vector<double>& widths) {
  return std::accumulate(widths.begin(), widths.end(), 0.0);
}

Wishes wishesOf(const reports::Table& table, double points) {
  const auto font = paperFont(points);
  const auto bold = paperFont(points, true);
  Wishes out;
  for (std::size_t at = 0; at < table.columns.size(); ++at) {
    const auto& column = table.columns[at];
    double least = widestWord(toQt(column.heading), bold);
    double wished = std::max(least, widthOf(toQt(column.heading), bold) / 2);
    for (std::size_t row = 0; row < table.rows.size(); ++row) {
      const auto words = toQt(cellShown(table, row, at));
      const auto whole = widthOf(words, bold);
      wished = std::max(wished, whole);
      // A short cell is a figure or a date, which reads badly in two lines.
      least = std::max(least, whole < 60 ? whole : widestWord(words, font));
    }
    least = std::min(least, widestColumn);
    out.least.push_back(least + gap);
    out.wished.push_back(std::clamp(wished, least, std::max(least, widestColumn)) + gap);
  }
  return out;
}

/// As wished where there is room; else the room left over the least goes to who misses most.
std::vector<double> shared(const Wishes& wishes, const std::vector<std::size_t>& columns,
                           double room) {
  std::vector<double> least;
  std::vector<double> missing;
  for (const auto at : columns) {
    least.push_back(wishes.least[at]);
    missing.push_back(wishes.wished[at] - wishes.least[at]);
  }
  const auto over = std::max(room - sum(least), 0.0);
  const auto part = sum(missing) > 0 ? std::min(over / sum(missing), 1.0) : 0.0;
  for (std::size_t i = 0; i < least.size(); ++i)
    least[i] = std::min(least[i] + part * missing[i], room);
  return least;
}

std::vector<Band> bandsOf(const Wishes& wishes, double room) {
  std::vector<Band> bands;
  double used = 0;
  for (std::size_t at = 0; at < wishes.least.size(); ++at) {
    if (bands.empty()) {
      bands.push_back({{at}, {}});
      used = wishes.least[at];
    } else if (used + wishes.least[at] > room && bands.back().columns.size() > 1) {
      bands.push_back({{0, at}, {}});
      used = wishes.least[0] + wishes.least[at];
    } else {
      bands.back().columns.push_back(at);
      used += wishes.least[at];
    }
  }
  for (auto& band : bands) {
    band.widths = shared(wishes, band.columns, room);
    // Two columns may still be wider than the sheet: their words are broken anywhere.
    if (const auto all = sum(band.widths); all > room)
      for (auto& width : band.widths)
        width *= room / all;
  }
  return bands;
}

} // namespace

QFont paperFont(double points, bool bold) {
  QFont font;
  font.setFamilies({u"Inter"_s, u"Noto Sans"_s, u"DejaVu Sans"_s});
  font.setPixelSize(static_cast<int>(points));
  font.setBold(bold);
  font.setHintingPreference(QFont::PreferNoHinting);
  return font;
}

double widthOf(const QString& words, const QFont& font) {
  // A little over, since the metrics of the screen and of paper differ by a hair. Digits may stand
  // in columns, each as wide as a zero.
  auto widest = words;
  for (auto& letter : widest)
    if (letter.isDigit()) letter = u'0';
  return QFontMetricsF(font).horizontalAdvance(widest) * 1.02 + 1;
}

double widestWord(const QString& words, const QFont& font) {
  double widest = 0;
  for (const auto& word : words.split(u' ', Qt::SkipEmptyParts))
    widest = std::max(widest, widthOf(word, font));
  return widest;
}

ColumnPlan planColumns(const reports::Table& table, double room, double largest) {
  for (const auto points : letterSizes)
    if (const auto wishes = wishesOf(table, points); points <= largest && sum(wishes.least) <= room)
      return {points, bandsOf(wishes, room)};
  return {smallLetters, bandsOf(wishesOf(table, smallLetters), room)};
}

bool isSqueezed(const reports::Table& table, double room) {
  const auto wishes = wishesOf(table, largestLetters);
  return sum(wishes.least) > room || sum(wishes.wished) > 1.5 * room;
}

} // namespace gk::ui
