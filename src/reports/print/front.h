#pragma once

#include "reports/print/cell.h"
#include "reports/print/plot.h"

#include <string>
#include <vector>

namespace gk::reports {

/// A headline number, and below it what it counts and what it was before.
struct FrontFigure {
  Cell number;
  std::string unit{}; ///< right behind it: "%"
  std::string words;
  std::string before{}; ///< "Fall 2025: 296"; empty where nothing is to stand beside it
  bool operator==(const FrontFigure&) const = default;
};

struct FrontPicture {
  std::string title;
  Plot plot;
  bool operator==(const FrontPicture&) const = default;
};

/// What a page that is handed out says before its table: whose it is, three sentences, four
/// headline numbers and two pictures. All of it is made of cells that may be shown.
struct Front {
  std::string over; ///< above the name: the period, and for whom
  std::string name;
  std::string under; ///< below it: dates, schools, days
  std::vector<std::string> sentences{};
  std::vector<FrontFigure> figures{};
  std::vector<FrontPicture> pictures{};
  bool operator==(const Front&) const = default;
};

/// A picture beside another is so many units wide, and its letters as large as elsewhere.
inline constexpr double halfWidth = 400;

} // namespace gk::reports
