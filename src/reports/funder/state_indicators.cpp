#include "reports/funder/state_indicators.h"

#include "reports/print/cells.h"
#include "reports/print/kept_lines.h"
#include "reports/publish/figure_relations.h"
#include "reports/publish/publication.h"

#include <algorithm>
#include <tuple>

namespace gk::reports {

namespace {

constexpr const char* allGrades = "All grades";
constexpr const char* withHeading = "Children with it";
constexpr const char* knownHeading = "Children known";
constexpr const char* screenedWords = "Screened";
constexpr double dearAll = 5; ///< the program's own line says more to more readers

std::string gradeGroup(const std::string& grade) {
  const auto number = roster::gradeNumber(grade);
  if (!number) return "Other grades";
  return *number == 0 ? "Kindergarten" : *number == 3 ? "Grade 3" : "Other grades";
}

void add(IndicatorCount& count, std::optional<bool> has) {
  if (!has) return;
  ++count.known;
  if (*has) ++count.with;
}

/// Yes if either part is yes, no only if both are no.
std::optional<bool> either(std::optional<bool> one, std::optional<bool> other) {
  if (one == true || other == true) return true;
  if (one == false && other == false) return false;
  return std::nullopt;
}

void add(IndicatorRow& row, const estimates::ScreenedChild& child) {
  using estimates::CareNeed;
  const auto count = [&](Indicator which, std::optional<bool> has) {
    add(row.counts[static_cast<std::size_t>(which)], has);
  };
  ++row.screened;
  count(Indicator::untreated, child.untreatedDecay);
  count(Indicator::treated, child.treatedDecay);
  count(Indicator::experience, either(child.untreatedDecay, child.treatedDecay));
  count(Indicator::sealants, child.sealants);
  count(Indicator::noProblem, child.need == CareNeed::none);
  count(Indicator::early, child.need == CareNeed::early);
  count(Indicator::urgent, child.need == CareNeed::urgent);
}

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
    if (rows.size() < 2) return;
    addUp([](const PlacedRow& row) { return row.screened; });
    for (std::size_t i = 0; i < base::enumCount<Indicator>; ++i) {
      addUp([i](const PlacedRow& row) { return row.with.at(i); });
      if (!isKnownOfAll(i)) addUp([i](const PlacedRow& row) { return row.known.at(i); });
    }
  }

  /// What an earlier issue printed is out: unchanged, or with what has changed since.
  void addEarlier(const std::string& group, const std::string& indicator,
                  const std::string& heading, int shown) {
    const auto cell = find(group, indicator, heading);
    if (!cell) return;
    if (system_.cells[*cell].value == shown) {
      system_.cells[*cell].outAlready = true;
      return;
    }
    const auto then = system_.add(
        {.value = shown, .row = system_.cells[*cell].row, .printed = false, .outAlready = true});
    join(then, *cell);
  }

  /// What a term's tables told of all schools and of each: the same children, or some of them.
  void addRelease(const Release& release) {
    for (const auto& [figure, now] :
         {std::pair(Figure::screened, placed_.back().screened),
          {Figure::untreated, at(placed_.back().with, Indicator::untreated)},
          {Figure::early, at(placed_.back().with, Indicator::early)},
          {Figure::urgent, at(placed_.back().with, Indicator::urgent)}}) {
      std::optional<std::size_t> total;
      CountSum sum{0, {}};
      for (const auto& row : release.term) {
        const auto told = row.cells.find(figure);
        if (told == row.cells.end()) continue;
        const auto cell = system_.add({.value = told->second.value,
                                       .row = system_.totalRow,
                                       .printed = false,
                                       .outAlready = told->second.showing == Showing::number});
        if (row.schools.empty())
          total = cell;
        else
          sum.parts.push_back(cell);
      }
      if (!total) continue;
      sum.whole = *total;
      if (addsUp(sum)) system_.sums.push_back(std::move(sum));
      join(*total, now);
    }
  }

  /// The table of participation says it.
  void knowScreened() { system_.cells[placed_.back().screened].outAlready = true; }

  [[nodiscard]] const CountSystem& system() const { return system_; }
  [[nodiscard]] const std::vector<PlacedRow>& placed() const { return placed_; }

 private:
  /// One count under two names.
  [[nodiscard]] bool isKnownOfAll(std::size_t which) const {
    return std::ranges::all_of(
        rows_, [&](const auto& row) { return row.counts.at(which).known == row.screened; });
  }

  [[nodiscard]] bool addsUp(const CountSum& sum) const {
    int left = system_.cells[sum.whole].value;
    for (const auto part : sum.parts)
      left -= system_.cells[part].value;
    return !sum.parts.empty() && left == 0;
  }

  /// The same number, or a known sum with what has changed since.
  void join(std::size_t then, std::size_t now) {
    const int before = system_.cells[then].value;
    const int after = system_.cells[now].value;
    if (before == after)
      system_.sums.push_back({now, {then}});
    else
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

  [[nodiscard]] std::optional<std::size_t>
  find(const std::string& group, const std::string& indicator, const std::string& heading) const {
    const auto row = std::ranges::find(rows_, group, &IndicatorRow::group);
    if (row == rows_.end()) return std::nullopt;
    const auto& cells = placed_[static_cast<std::size_t>(row - rows_.begin())];
    if (indicator == screenedWords)
      return heading == withHeading ? std::optional(cells.screened) : std::nullopt;
    const auto which = base::fromName<Indicator>(indicator);
    if (!which) return std::nullopt;
    if (heading == withHeading) return at(cells.with, *which);
    if (heading == knownHeading) return at(cells.known, *which);
    return std::nullopt;
  }

  const std::vector<IndicatorRow>& rows_;
  CountSystem system_;
  std::vector<PlacedRow> placed_;
};

/// Numbers that an earlier issue printed; what it hid is not among them.
void addIssue(IndicatorSystem& system, const std::string& figures) {
  bool isOurs = false;
  std::vector<std::string> headings;
  for (const auto& words : fromKeptLines(figures)) {
    if (words.front() == "part" && words.size() == 2) {
      isOurs = words[1] == indicatorTitle;
    } else if (isOurs && words.front() == "columns" && words.size() > 2) {
      headings.assign(words.begin() + 2, words.end());
    } else if (isOurs && words.front() == "row" && words.size() > 2) {
      const auto comma = words[1].find(", ");
      if (comma == std::string::npos) continue;
      for (std::size_t i = 0; i < headings.size() && i + 2 < words.size(); ++i)
        if (const auto shown = base::parseInt(words[i + 2]); shown && *shown >= 0)
          system.addEarlier(words[1].substr(0, comma), words[1].substr(comma + 2), headings[i],
                            static_cast<int>(*shown));
    }
  }
}

IndicatorRow merged(std::string name, const IndicatorRow& one, const IndicatorRow& other) {
  IndicatorRow out{std::move(name), one.screened + other.screened, one.counts};
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
  int hiddenOfAll = 0; ///< counts of all grades that are no numbers
  int gain = 0;        ///< numbers in all rows, less twice what is hidden
};

Tried tryOut(std::vector<IndicatorRow> rows, const SuppressionRule& rule,
             std::span<const std::string> earlier, std::span<const Release> releases) {
  IndicatorSystem made(rows);
  if (rows.back().screened >= rule.threshold()) made.knowScreened();
  for (const auto& release : releases)
    made.addRelease(release);
  for (const auto& figures : earlier)
    addIssue(made, figures);
  Tried out{{}, made.system(), made.placed(), suppress(made.system(), rule)};
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
/// blanks tells nobody anything.
Tried best(const std::vector<IndicatorRow>& rows, const SuppressionRule& rule,
           std::span<const std::string> earlier, std::span<const Release> releases) {
  std::optional<Tried> best;
  const auto rank = [](const Tried& one) {
    return std::tuple(one.shown.leaks(), one.hiddenOfAll, -one.gain);
  };
  for (auto& grouping : groupings(rows)) {
    auto tried = tryOut(std::move(grouping), rule, earlier, releases);
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

std::vector<IndicatorRow> indicatorRows(std::span<const SeenChild> children) {
  std::vector<IndicatorRow> rows;
  for (const auto* group : {"Kindergarten", "Grade 3", "Other grades", allGrades})
    rows.push_back({.group = group});
  for (const auto& seen : children) {
    add(*std::ranges::find(rows, gradeGroup(seen.grade), &IndicatorRow::group), seen.child);
    add(rows.back(), seen.child);
  }
  const auto all = std::move(rows.back());
  rows.pop_back();
  std::erase_if(rows, [](const auto& row) { return row.screened == 0; });
  if (rows.size() == 1) rows.clear(); // the same children twice
  rows.push_back(all);
  return rows;
}

PublishedIndicators publishIndicators(const std::vector<IndicatorRow>& allRows,
                                      const SuppressionRule& rule,
                                      std::span<const std::string> earlier,
                                      std::span<const Release> releases) {
  const auto tried = best(allRows, rule, earlier, releases);
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
      "By screening, not a dental examination. Each child once over the year: decay and urgency by "
      "the most serious screening, sealants as found at the first.",
      "Untreated decay: a cavity that is not treated. Treated decay: a filling, a crown, or a "
      "tooth "
      "missing from decay. Caries experience: either. Sealants: on at least one permanent molar, "
      "whoever placed them. Urgent care: pain, infection or swelling; early care: any other "
      "problem "
      "that needs a dentist.",
      "Each % is of the children for whom it is known. No CI is given: these are all the "
      "children screened, not a sample.",
      "Counts of 1 to " + std::to_string(rule.threshold() - 1) + " read \"fewer than " + under +
          "\"; \"suppressed\" is a number of any size that would reveal one. A % on fewer than " +
          std::to_string(fewest) + " is marked unstable."};
  if (shown.leaks() > 0)
    table.notes.push_back(
        "NOT TO BE PUBLISHED: " + counted(shown.leaks(), "small count", "small counts") +
        " could still be worked out.");
  return {std::move(table), shown.leaks()};
}

} // namespace gk::reports
