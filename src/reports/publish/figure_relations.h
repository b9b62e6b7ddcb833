#pragma once

#include "reports/publish/published_counts.h"

#include <map>

namespace gk::reports {

/// What is known of the figures of one published row, whichever set they are of.

/// The values; none for a figure that nobody knows.
std::map<Figure, std::optional<int>> rowOf(const Participation& at);
std::map<CheckFigure, std::optional<int>> rowOf(const RetentionLine& at);
std::map<CheckFigure, std::optional<int>> rowOf(const EarlyChecks& at);
std::map<PupilFigure, std::optional<int>> rowOf(const PupilCounts& counts);

/// Denominators of many rates are withheld last; what only fills a column, first.
double dearness(Figure figure);
double dearness(CheckFigure figure);
double dearness(PupilFigure figure);

CountKind kindOf(Figure figure);
CountKind kindOf(CheckFigure figure);
CountKind kindOf(PupilFigure figure);

/// Tells the system what one row's figures, at these places in it, have to do with each other.
void relate(CountSystem& system, const std::map<Figure, std::size_t>& row);
void relate(CountSystem& system, const std::map<CheckFigure, std::size_t>& row);
void relate(CountSystem& system, const std::map<PupilFigure, std::size_t>& row);

} // namespace gk::reports
