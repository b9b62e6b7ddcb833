#include "ui/mouth/arch.h"

#include <algorithm>

namespace gk::ui {

using dentition::Surface;
using dentition::Tooth;

namespace {

constexpr int between = 6;
constexpr int middle = 10;

} // namespace

TabSide cheekSide(const Tooth& tooth) {
  const bool atTheBack = tooth.isMolar() || tooth.isPremolar();
  if (!atTheBack) return tooth.isUpper() ? TabSide::top : TabSide::bottom;
  return tooth.isRight() ? TabSide::left : TabSide::right;
}

TabSide tongueSide(const Tooth& tooth) {
  switch (cheekSide(tooth)) {
  case TabSide::left:
    return TabSide::right;
  case TabSide::right:
    return TabSide::left;
  case TabSide::top:
    return TabSide::bottom;
  case TabSide::bottom:
    return TabSide::top;
  }
  return TabSide::right;
}

std::optional<TabSide> tabSide(const Tooth& tooth, Surface surface) {
  switch (surface) {
  case Surface::occlusal:
    return std::nullopt;
  case Surface::buccalPit:
    return cheekSide(tooth);
  case Surface::lingualGroove:
    return tongueSide(tooth);
  }
  return std::nullopt;
}

Arch::Arch(QSize size, int band, int others) : size_(size), band_(band), others_(others) {
  const int room = size.height() - band_ - between;
  if (others_ > 0) otherRow_ = std::min(132, room * 26 / 100);
  row_ = (room - (others_ > 0 ? otherRow_ + between : 0)) / 2;
}

QRect Arch::molar(const Tooth& tooth) const {
  const int half = (size_.width() - middle) / 2;
  const int first = (half - between) * 53 / 100;
  const int second = half - between - first;
  const bool isFirst = tooth.isFirstPermanentMolar();
  const int fromMiddle = isFirst ? 0 : first + between;
  const int width = isFirst ? first : second;
  const int x = tooth.isRight() ? half - fromMiddle - width : half + middle + fromMiddle;
  const int top = tooth.isUpper() ? band_ : band_ + row_ + between;
  return {x, top, width, row_};
}

QRect Arch::other(int place) const {
  const int width = std::clamp((size_.width() + between) / std::max(others_, 1) - between, 60, 250);
  return {place * (width + between), band_ + 2 * row_ + 2 * between, width, otherRow_};
}

} // namespace gk::ui
