#include "reports/funder/earlier_term.h"

namespace gk::reports {

namespace {

/// Of the last row, which is the total.
template <class E>
Cell countIn(const std::vector<ReleasedRow<E>>& rows, E figure, int under) {
  if (rows.empty() || !rows.back().schools.empty()) return noFigure;
  const auto at = rows.back().cells.find(figure);
  if (at == rows.back().cells.end()) return noFigure;
  switch (at->second.showing) {
  case Showing::number:
    return at->second.value;
  case Showing::fewer:
    return Withheld{under};
  case Showing::withheld:
    break;
  }
  return Withheld{};
}

Cell shareOfCells(const Cell& part, const Cell& whole) {
  const auto* some = part.as<Count>();
  const auto* all = whole.as<Count>();
  if (some && all) return shareOf(static_cast<int>(some->value), static_cast<int>(all->value));
  return part.isWithheld() || whole.isWithheld() ? Cell(Withheld{}) : Cell(noFigure);
}

} // namespace

Cell FiguresBefore::count(Figure figure) const {
  return any() ? countIn(term_->release.term, figure, term_->release.under) : Cell(noFigure);
}

Cell FiguresBefore::count(CheckFigure figure) const {
  return any() ? countIn(term_->release.checks, figure, term_->release.under) : Cell(noFigure);
}

Cell FiguresBefore::share(Figure part, Figure whole) const {
  return shareOfCells(count(part), count(whole));
}

Cell FiguresBefore::share(CheckFigure part, CheckFigure whole) const {
  return shareOfCells(count(part), count(whole));
}

Cell FiguresBefore::sealedShare() const {
  const auto inNeed = count(Figure::sealedInNeed);
  return shareOfCells(inNeed.as<Missing>() ? count(Figure::sealed) : inNeed,
                      count(Figure::needing));
}

Cell FiguresBefore::varnishShare() const {
  const auto screened = count(Figure::varnishScreened);
  return shareOfCells(screened.as<Missing>() ? count(Figure::varnish) : screened,
                      count(Figure::screened));
}

Cell FiguresBefore::untreatedShare() const {
  const auto known = count(Figure::decayKnown);
  return shareOfCells(count(Figure::untreated),
                      known.as<Missing>() ? count(Figure::screened) : known);
}

} // namespace gk::reports
