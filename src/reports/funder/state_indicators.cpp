#include "reports/funder/state_indicators.h"

#include "reports/print/cells.h"
#include "reports/publish/figure_relations.h"
#include "reports/publish/placed_rows.h"
#include "reports/publish/publication.h"

#include <algorithm>
#include <ranges>
#include <tuple>

namespace gk::reports {

namespace {

constexpr const char* withHeading = "Students with it";
constexpr const char* knownHeading = "Students known";
constexpr const char* screenedWords = "Screened";
constexpr double dearAll = 5; ///< the program's own line says more to more readers

/// Where a row's counts stand in the system.
struct PlacedRow {
  std::size_t screened;
  std::array<std::size_t, base::enumCount<Indicator>> known;
  std::array<std::size_t, base::enumCount<Indicator>> with;
};

std::size_t at(const std::array<std::size_t, base::enumCount<Indicator>>& cells, Indicator which) {
  return cells[static_cast<std::size_t>(which)];
}

/// By the names that the one list of relations knows them by.
std::map<IndicatorFigure, std::size_t> figuresOf(const PlacedRow& row) {
  using enum Indicator;
  return {{IndicatorFigure::screened, row.screened},
          {IndicatorFigure::untreatedKnown, at(row.known, untreated)},
          {IndicatorFigure::untreated, at(row.with, untreated)},
          {IndicatorFigure::treatedKnown, at(row.known, treated)},
          {IndicatorFigure::treated, at(row.with, treated)},
          {IndicatorFigure::experienceKnown, at(row.known, experience)},
          {IndicatorFigure::experience, at(row.with, experience)},
          {IndicatorFigure::sealantsKnown, at(row.known, sealants)},
          {IndicatorFigure::sealants, at(row.with, sealants)},
          {IndicatorFigure::noProblem, at(row.with, noProblem)},
          {IndicatorFigure::early, at(row.with, early)},
          {IndicatorFigure::urgent, at(row.with, urgent)}};
}

class IndicatorSystem {
 public:
  explicit IndicatorSystem(const std::vector<IndicatorRow>& rows) : rows_(rows) {
    system_.totalRow = rows.size() - 1;
    for (std::size_t i = 0; i < rows.size(); ++i)
      placed_.push_back(place(rows[i], i));
    for (const auto& row : placed_)
      relate(system_, figuresOf(row));
    addGrades();
    if (rows.size() < 2) return;
    addUp([](const PlacedRow& row) { return row.screened; });
    for (std::size_t i = 0; i < base::enumCount<Indicator>; ++i) {
      addUp([i](const PlacedRow& row) { return row.with.at(i); });
      if (!isKnownOfAll(i)) addUp([i](const PlacedRow& row) { return row.known.at(i); });
    }
  }

  /// What a term's tables told of all schools, of each, and of grades: the same children, or some
  /// of them.
  void addRelease(const Release& release) {
    for (const auto& row : release.grades)
      addGradeRow(row, release.bySchool);
    const auto findings = findingsOfAll();
    std::vector<Placed<Figure>> schools;
    std::optional<Placed<Figure>> total;
    for (const auto& row : release.term) {
      Placed<Figure> placed{row.schools, system_.totalRow, {}};
      for (const auto& [figure, cell] : row.cells)
        if (findings.contains(figure))
          placed.cells[figure] =
              system_.add({.value = cell.value,
                           .kind = kindOf(figure, release.bySchool),
                           .row = system_.totalRow,
                           .printed = false,
                           .outAlready = cell.showing == Showing::number,
                           .saidUnder = cell.showing == Showing::fewer ? release.under : 0});
      relate(system_, placed.cells, release.bySchool);
      if (row.schools.empty())
        total = std::move(placed);
      else
        schools.push_back(std::move(placed));
    }
    if (!total) return;
    addSum(system_, *total, schools);
    if (newer_ && isAlike(*newer_, *total))
      for (const auto& [figure, cell] : total->cells)
        if (const auto at = newer_->cells.find(figure); at != newer_->cells.end())
          system_.sums.push_back({at->second, {cell}});
    newer_ = total;
    for (const auto& [figure, then] : total->cells)
      join(then, findings.at(figure));
    addIndicators(placeIndicators(system_, release, *total));
  }

  /// Figures of the term's tables that all grades together have too.
  [[nodiscard]] std::map<Figure, std::size_t> findingsOfAll() const {
    const auto& all = placed_.back();
    return {{Figure::screened, all.screened},
            {Figure::untreated, at(all.with, Indicator::untreated)},
            {Figure::decayKnown, at(all.known, Indicator::untreated)},
            {Figure::early, at(all.with, Indicator::early)},
            {Figure::urgent, at(all.with, Indicator::urgent)}};
  }

  /// The table of participation says it.
  void knowScreened() { system_.cells[placed_.back().screened].outAlready = true; }

  [[nodiscard]] const CountSystem& system() const { return system_; }
  [[nodiscard]] const std::vector<PlacedRow>& placed() const { return placed_; }

 private:
  /// Each grade's children screened, of which the groups are sums.
  void addGrades() {
    for (std::size_t i = 0; i < rows_.size(); ++i) {
      if (i > 0 && i + 1 == rows_.size()) continue; // the groups together
      CountSum sum{placed_[i].screened, {}};
      for (const auto& [grade, screened] : rows_[i].byGrade) {
        if (rows_[i].byGrade.size() == 1)
          grades_[grade] = placed_[i].screened;
        else
          grades_[grade] = system_.add(
              {.value = screened, .kind = CountKind::slack, .row = i, .printed = false});
        sum.parts.push_back(grades_[grade]);
      }
      if (sum.parts.size() > 1) system_.sums.push_back(std::move(sum));
    }
  }

  /// Whether two pages are of the same children, as far as they say.
  [[nodiscard]] bool isAlike(const Placed<Figure>& one, const Placed<Figure>& other) const {
    return std::ranges::all_of(one.cells, [&](const auto& told) {
      const auto at = other.cells.find(told.first);
      return at == other.cells.end() ||
             system_.cells[at->second].value == system_.cells[told.second].value;
    });
  }

  /// What an earlier state's report told of the same grades, and kept back.
  void addIndicators(const std::vector<Placed<IndicatorFigure>>& earlier) {
    for (const auto& then : earlier)
      for (std::size_t i = 0; i < rows_.size(); ++i)
        if (gradesOf(i) == then.schools)
          for (const auto& [figure, now] : figuresOf(placed_[i]))
            join(then.cells.at(figure), now);
  }

  /// None for all together.
  [[nodiscard]] std::vector<std::string> gradesOf(std::size_t row) const {
    std::vector<std::string> grades;
    if (row + 1 < rows_.size())
      for (const auto& [grade, screened] : rows_[row].byGrade)
        grades.push_back(grade);
    return grades;
  }

  /// A row of a table by grade: those screened of its grades, with what else it said of them.
  void addGradeRow(const ReleasedRow<Figure>& row, BySchool bySchool) {
    const auto told = row.cells.find(Figure::screened);
    if (row.schools.empty() || told == row.cells.end()) return;
    std::map<Figure, std::size_t> cells;
    for (const auto& [figure, cell] : row.cells)
      cells[figure] = system_.add({.value = cell.value,
                                   .kind = kindOf(figure, bySchool),
                                   .row = system_.totalRow,
                                   .printed = false,
                                   .outAlready = cell.showing == Showing::number});
    relate(system_, cells, bySchool);
    std::vector<std::size_t> now;
    int sum = 0;
    for (const auto& grade : row.schools)
      if (const auto at = grades_.find(grade); at != grades_.end()) {
        now.push_back(at->second);
        sum += system_.cells[at->second].value;
      }
    const auto then = cells.at(Figure::screened);
    if (sum == told->second.value && !now.empty())
      system_.sums.push_back({then, std::move(now)});
    else if (now.size() == 1)
      join(then, now.front());
  }

  /// One count under two names.
  [[nodiscard]] bool isKnownOfAll(std::size_t which) const {
    return std::ranges::all_of(
        rows_, [&](const auto& row) { return row.counts.at(which).known == row.screened; });
  }

  /// The same number, or a known sum with what has changed since.
  void join(std::size_t then, std::size_t now) {
    const int before = system_.cells[then].value;
    const int after = system_.cells[now].value;
    if (before == after) {
      system_.sums.push_back({now, {then}});
      system_.cells[now].outAlready |= system_.cells[then].outAlready;
    } else
      system_.addRest(CountKind::count, after > before ? now : then, {after > before ? then : now});
  }

  PlacedRow place(const IndicatorRow& row, std::size_t index) {
    const double dear = index == system_.totalRow ? dearAll : 1;
    const auto cell = [&](int value, double worth) {
      return system_.add({.value = value, .row = index, .dearness = worth * dear});
    };
    PlacedRow out{cell(row.screened, 4), {}, {}};
    for (std::size_t i = 0; i < row.counts.size(); ++i) {
      out.known.at(i) = isKnownOfAll(i) ? out.screened : cell(row.counts.at(i).known, 2);
      const bool isDecay = i <= static_cast<std::size_t>(Indicator::sealants);
      out.with.at(i) = cell(row.counts.at(i).with, isDecay ? 3 : 1);
    }
    return out;
  }

  template <class CellOf>
  void addUp(CellOf cellOf) {
    CountSum sum{cellOf(placed_.back()), {}};
    for (std::size_t i = 0; i + 1 < placed_.size(); ++i)
      sum.parts.push_back(cellOf(placed_[i]));
    system_.sums.push_back(std::move(sum));
  }

  const std::vector<IndicatorRow>& rows_;
  CountSystem system_;
  std::vector<PlacedRow> placed_;
  std::map<std::string, std::size_t> grades_; ///< screened
  std::optional<Placed<Figure>> newer_;       ///< the total of the page that was added last
};

IndicatorRow merged(std::string name, const IndicatorRow& one, const IndicatorRow& other) {
  IndicatorRow out{std::move(name), one.screened + other.screened, one.byGrade, one.counts};
  for (const auto& [grade, screened] : other.byGrade)
    out.byGrade[grade] += screened;
  for (std::size_t i = 0; i < out.counts.size(); ++i) {
    out.counts.at(i).known += other.counts.at(i).known;
    out.counts.at(i).with += other.counts.at(i).with;
  }
  return out;
}

/// As they are, with one group taken into the other grades, and all grades alone. A merged group is
/// called by what it is, since an earlier issue may have had others.
std::vector<std::vector<IndicatorRow>> groupings(const std::vector<IndicatorRow>& rows) {
  std::vector<std::vector<IndicatorRow>> out{rows};
  if (rows.size() == 4) {
    out.push_back({rows[1], merged("All but grade 3", rows[0], rows[2]), rows[3]});
    out.push_back({rows[0], merged("All but kindergarten", rows[1], rows[2]), rows[3]});
  }
  if (rows.size() > 1) out.push_back({rows.back()});
  return out;
}

/// One way to group the grades, suppressed.
struct Tried {
  std::vector<IndicatorRow> rows;
  CountSystem system;
  std::vector<PlacedRow> placed;
  Suppressed shown;
  std::map<Figure, std::size_t> findings; ///< of all grades, as a term's tables have them
  int hiddenOfAll = 0;                    ///< counts of all grades that are no numbers
  int gain = 0;                           ///< numbers in all rows, less twice what is hidden
};

Tried tryOut(std::vector<IndicatorRow> rows, const SuppressionRule& rule,
             std::span<const Release> releases) {
  IndicatorSystem made(rows);
  if (rows.back().screened >= rule.threshold()) made.knowScreened();
  for (const auto& release : releases | std::views::reverse)
    made.addRelease(release);
  Tried out{{}, made.system(), made.placed(), suppress(made.system(), rule), made.findingsOfAll()};
  out.rows = std::move(rows);
  for (const auto& row : out.placed)
    for (const auto cell : row.with) {
      const bool isNumber = out.shown.cells[cell] == Showing::number;
      out.gain += isNumber ? 1 : -2;
      if (&row == &out.placed.back()) out.hiddenOfAll += isNumber ? 0 : 1;
    }
  return out;
}

/// All grades come first of all, then the grouping that shows much and hides little: a row of
/// blanks tells no one anything.
Tried best(const std::vector<IndicatorRow>& rows, const SuppressionRule& rule,
           std::span<const Release> releases) {
  std::optional<Tried> best;
  const auto rank = [](const Tried& one) {
    return std::tuple(one.shown.leaks(), one.hiddenOfAll, -one.gain);
  };
  for (auto& grouping : groupings(rows)) {
    auto tried = tryOut(std::move(grouping), rule, releases);
    if (!best || rank(tried) < rank(*best)) best = std::move(tried);
  }
  return *std::move(best);
}

Cell shareShown(const CountSystem& system, const Suppressed& shown, std::size_t part,
                std::size_t whole) {
  if (shown.cells[part] != Showing::number || shown.cells[whole] != Showing::number)
    return Withheld{};
  return shareOf(system.cells[part].value, system.cells[whole].value);
}

} // namespace

PublishedIndicators publishIndicators(const std::vector<IndicatorRow>& allRows,
                                      const SuppressionRule& rule,
                                      std::span<const Release> releases) {
  const auto tried = best(allRows, rule, releases);
  const auto& [rows, system, placed, shown] =
      std::tie(tried.rows, tried.system, tried.placed, tried.shown);
  const auto count = [&](std::size_t cell) {
    return shownCount(system.cells[cell].value, shown.cells[cell], rule);
  };
  Table table{indicatorTitle,
              {grouped("Grade"), texts("Indicator"), counts(withHeading, "with"),
               counts(knownHeading, "known"), shares("% of known")}};
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const auto& cells = placed[i];
    table.rows.push_back({rows[i].group, screenedWords, count(cells.screened), noFigure, noFigure});
    for (std::size_t which = 0; which < base::enumCount<Indicator>; ++which)
      table.rows.push_back(
          {rows[i].group, static_cast<Indicator>(which), count(cells.with.at(which)),
           count(cells.known.at(which)),
           shareShown(system, shown, cells.with.at(which), cells.known.at(which))});
  }
  const auto under = std::to_string(rule.threshold());
  table.notes = {
      "By screening, not a dental examination. Each student once over the year: decay and urgency "
      "by "
      "the most serious screening, sealants as found at the first.",
      "Untreated decay: a cavity that is not treated. Treated decay: a filling, a crown, or a "
      "tooth "
      "missing from decay. Caries experience: either. Sealants: on at least one permanent molar, "
      "whoever placed them. Urgent care: pain, infection or swelling; early care: any other "
      "problem "
      "that needs a dentist.",
      "Each % is of the students for whom it is known. No CI is given: these are all the "
      "students screened, not a sample.",
      "Counts of 1 to " + std::to_string(rule.threshold() - 1) + " read \"fewer than " + under +
          "\"; \"suppressed\" is a number of any size that would reveal one. A % on fewer than " +
          std::to_string(fewest) + " is marked unstable."};
  if (shown.leaks() > 0)
    table.notes.push_back(
        "NOT TO BE PUBLISHED: " + counted(shown.leaks(), "small count", "small counts") +
        " could still be worked out.");
  PublishedIndicators out{std::move(table), shown.leaks()};
  const auto told = [&](std::size_t cell) {
    return ReleasedRow<Figure>::Cell{system.cells[cell].value, shown.cells[cell]};
  };
  for (std::size_t i = 0; i < rows.size(); ++i) {
    std::vector<std::string> grades;
    if (i + 1 < rows.size())
      for (const auto& [grade, screened] : rows[i].byGrade)
        grades.push_back(grade);
    out.grades.push_back({grades, {{Figure::screened, told(placed[i].screened)}}});
    auto& row = out.rows.emplace_back(std::move(grades));
    for (const auto& [figure, cell] : figuresOf(placed[i]))
      row.cells[figure] = {system.cells[cell].value, shown.cells[cell]};
  }
  for (const auto& [figure, cell] : tried.findings)
    if (cell != tried.findings.at(Figure::screened)) out.findings[figure] = told(cell);
  return out;
}

} // namespace gk::reports
