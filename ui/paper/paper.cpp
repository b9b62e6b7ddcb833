#include "ui/paper/paper.h"

#include <QPageSize>

#include <algorithm>
#include <array>

namespace gk::ui {

namespace {

/// Where Letter is the usual sheet (from memory, not checked).
constexpr std::array letterCountries{
    QLocale::AnyTerritory, QLocale::UnitedStates, QLocale::Canada,    QLocale::Mexico,
    QLocale::Chile,        QLocale::Colombia,     QLocale::CostaRica, QLocale::DominicanRepublic,
    QLocale::ElSalvador,   QLocale::Guatemala,    QLocale::Nicaragua, QLocale::Panama,
    QLocale::Philippines,  QLocale::PuertoRico,   QLocale::Venezuela};

QPageSize pageSize(PaperSize paper) {
  return QPageSize(paper == PaperSize::a4 ? QPageSize::A4 : QPageSize::Letter);
}

} // namespace

QSizeF sizeOf(PaperSize paper) {
  return pageSize(paper).sizePoints();
}

QPageLayout pageOf(PaperSize paper, QPageLayout::Orientation orientation) {
  QPageLayout layout(pageSize(paper), orientation, QMarginsF());
  layout.setMode(QPageLayout::FullPageMode);
  return layout;
}

PaperSize usualPaper(const QLocale& locale) {
  const auto isLetter =
      std::ranges::find(letterCountries, locale.territory()) != letterCountries.end();
  return isLetter ? PaperSize::letter : PaperSize::a4;
}

} // namespace gk::ui
