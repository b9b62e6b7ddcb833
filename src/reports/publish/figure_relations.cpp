#include "reports/publish/figure_relations.h"

namespace gk::reports {

namespace {

/// What one row's figures have to do with each other.
template <class E>
class RowSums {
 public:
  RowSums(CountSystem& system, const std::map<E, std::size_t>& row) : system_(system), row_(row) {}

  void sum(E whole, const std::vector<E>& parts) {
    if (const auto cells = found(whole, parts); cells && left(*cells) == 0)
      system_.sums.push_back(*cells);
  }

  /// Only where the parts do not exceed the whole: else a reader knows nothing of it.
  void rest(CountKind kind, E whole, const std::vector<E>& parts) {
    if (auto cells = found(whole, parts); cells && left(*cells) >= 0)
      system_.addRest(kind, cells->whole, std::move(cells->parts));
  }

 private:
  [[nodiscard]] std::optional<CountSum> found(E whole, const std::vector<E>& parts) const {
    if (!row_.contains(whole)) return std::nullopt;
    CountSum out{row_.at(whole), {}};
    for (const auto part : parts) {
      if (!row_.contains(part)) return std::nullopt;
      out.parts.push_back(row_.at(part));
    }
    return out;
  }

  [[nodiscard]] int left(const CountSum& cells) const {
    int out = system_.cells.at(cells.whole).value;
    for (const auto part : cells.parts)
      out -= system_.cells.at(part).value;
    return out;
  }

  CountSystem& system_;
  const std::map<E, std::size_t>& row_;
};

} // namespace

std::map<Figure, std::optional<int>> rowOf(const Participation& at) {
  return {{Figure::enrolled, at.enrolled},
          {Figure::formsBack, at.formsBack},
          {Figure::consented, at.consented},
          {Figure::screened, at.screened},
          {Figure::notScreened, at.consented - at.screened},
          {Figure::needing, at.needing},
          {Figure::sealed, at.sealed},
          {Figure::firstMolars, at.firstMolars},
          {Figure::secondMolars, at.secondMolars},
          {Figure::otherTeeth, at.otherTeeth},
          {Figure::teeth, at.teeth()},
          {Figure::varnish, at.varnish},
          {Figure::untreated, at.untreated},
          {Figure::early, at.early},
          {Figure::urgent, at.urgent}};
}

std::map<CheckFigure, std::optional<int>> rowOf(const RetentionLine& at) {
  return {{CheckFigure::childrenDue, at.childrenDue},
          {CheckFigure::childrenFound, at.childrenFound},
          {CheckFigure::due, at.due},
          {CheckFigure::examined, at.examined},
          {CheckFigure::assessable, at.assessable},
          {CheckFigure::whole, at.whole},
          {CheckFigure::part, at.part},
          {CheckFigure::lost, at.lost},
          {CheckFigure::cannotAssess, at.cannotAssess}};
}

std::map<CheckFigure, std::optional<int>> rowOf(const EarlyChecks& at) {
  return {{CheckFigure::childrenFound, at.children},
          {CheckFigure::examined, at.examined},
          {CheckFigure::assessable, at.assessable},
          {CheckFigure::whole, at.whole},
          {CheckFigure::part, at.part},
          {CheckFigure::lost, at.lost},
          {CheckFigure::cannotAssess, at.cannotAssess}};
}

std::map<PupilFigure, std::optional<int>> rowOf(const PupilCounts& counts) {
  std::map<PupilFigure, std::optional<int>> row;
  for (std::size_t i = 0; i < counts.size(); ++i)
    row[static_cast<PupilFigure>(i)] = counts.at(i);
  return row;
}

double dearness(Figure figure) {
  switch (figure) {
  case Figure::screened:
    return 4;
  case Figure::enrolled:
  case Figure::consented:
  case Figure::needing:
    return 2;
  case Figure::formsBack:
  case Figure::notScreened:
  case Figure::sealed:
  case Figure::firstMolars:
  case Figure::secondMolars:
  case Figure::otherTeeth:
  case Figure::teeth:
  case Figure::varnish:
  case Figure::untreated:
  case Figure::early:
  case Figure::urgent:
    return 1;
  }
  base::fail("no such figure");
}

double dearness(CheckFigure figure) {
  return figure == CheckFigure::assessable || figure == CheckFigure::childrenDue ? 2 : 1;
}

double dearness(PupilFigure figure) {
  return figure == PupilFigure::screened ? 4 : 1;
}

CountKind kindOf(PupilFigure /*figure*/) {
  return CountKind::count;
}

CountKind kindOf(Figure figure) {
  return figure == Figure::notScreened ? CountKind::rest : CountKind::count;
}

CountKind kindOf(CheckFigure /*figure*/) {
  return CountKind::count;
}

void relate(CountSystem& system, const std::map<Figure, std::size_t>& row) {
  RowSums sums(system, row);
  sums.rest(CountKind::rest, Figure::enrolled, {Figure::formsBack});
  sums.rest(CountKind::rest, Figure::enrolled, {Figure::consented});
  sums.rest(CountKind::rest, Figure::formsBack, {Figure::consented});
  sums.rest(CountKind::rest, Figure::formsBack, {Figure::screened});
  sums.sum(Figure::consented, {Figure::screened, Figure::notScreened});
  sums.rest(CountKind::rest, Figure::screened, {Figure::needing});
  sums.rest(CountKind::rest, Figure::needing, {Figure::sealed});
  sums.rest(CountKind::rest, Figure::screened, {Figure::sealed});
  sums.rest(CountKind::rest, Figure::screened, {Figure::varnish});
  sums.rest(CountKind::rest, Figure::screened, {Figure::untreated});
  sums.rest(CountKind::rest, Figure::screened, {Figure::early, Figure::urgent});
  sums.sum(Figure::teeth, {Figure::firstMolars, Figure::secondMolars, Figure::otherTeeth});
  sums.rest(CountKind::slack, Figure::teeth, {Figure::sealed});
  sums.sum(Figure::untreated, {Figure::early, Figure::urgent});
}

void relate(CountSystem& system, const std::map<CheckFigure, std::size_t>& row) {
  RowSums sums(system, row);
  sums.rest(CountKind::rest, CheckFigure::childrenDue, {CheckFigure::childrenFound});
  sums.rest(CountKind::rest, CheckFigure::due, {CheckFigure::examined});
  sums.rest(CountKind::slack, CheckFigure::due, {CheckFigure::childrenDue});
  sums.rest(CountKind::slack, CheckFigure::examined, {CheckFigure::childrenFound});
  sums.sum(CheckFigure::examined, {CheckFigure::assessable, CheckFigure::cannotAssess});
  sums.sum(CheckFigure::assessable, {CheckFigure::whole, CheckFigure::part, CheckFigure::lost});
}

void relate(CountSystem& system, const std::map<PupilFigure, std::size_t>& row) {
  RowSums sums(system, row);
  for (const auto& question : pupilQuestions()) {
    sums.sum(PupilFigure::screened, question.figures);
    // That nobody answered tells nothing of anybody.
    for (std::size_t i = 0; i + 1 < question.figures.size(); ++i)
      sums.rest(CountKind::rest, PupilFigure::screened, {question.figures[i]});
  }
}

} // namespace gk::reports
