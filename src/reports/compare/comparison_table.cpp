#include "reports/compare/comparison_table.h"

#include "reports/compare/retention_plots.h"
#include "reports/print/cells.h"
#include "reports/retention/display_names.h"
#include "reports/retention/factor_words.h"

#include <algorithm>
#include <limits>

namespace gk::reports {

namespace {

std::string placeWords(const std::optional<estimates::Departure>& departure) {
  if (!departure || !departure->share) return nothing;
  switch (departure->place) {
  case estimates::FunnelPlace::farBelow:
    return "far below";
  case estimates::FunnelPlace::below:
    return "below";
  case estimates::FunnelPlace::within:
    return "within";
  case estimates::FunnelPlace::above:
    return "above";
  case estimates::FunnelPlace::farAbove:
    return "far above";
  }
  base::fail("no such place");
}

constexpr double unbounded = std::numeric_limits<double>::infinity();

Cell ratio(const FactorValue& value) {
  if (!value.against) return noFigure;
  const auto& found = *value.against;
  if (!found.teeth.oddsRatio) {
    if (!found.teeth.has(estimates::ComparisonNote::oddsRatioUnbounded)) return noFigure;
    return numberOf(unbounded, 2);
  }
  Estimate cell{Number{*found.teeth.oddsRatio, 2}, std::nullopt};
  if (found.interval && !value.hasFewSchools)
    cell.range = {found.interval->low, found.interval->high, 2};
  return cell;
}

Cell bootstrapRange(const FactorValue& value) {
  if (!value.against || !value.against->bootstrap || value.hasFewSchools) return noFigure;
  const auto& found = *value.against->bootstrap;
  return Range{found.low, found.high.value_or(unbounded), 2};
}

Cell pCell(const FactorValue& value) {
  if (value.sameAs)
    return "as " + value.sameAs->label + (value.sameAs->isReversed ? ", reversed" : "");
  if (value.hasFewSchools) return "cannot be separated from schools";
  if (value.against && !value.p) return "too few to tell";
  return pValueOf(value.adjustedP);
}

bool isSmall(const FactorValue& value) {
  return value.against && (value.against->teeth.has(estimates::ComparisonNote::smallNumbers) ||
                           value.against->has(estimates::ClusteredNote::fewChildren));
}

Cells rowOf(const FactorValue& value) {
  const auto& line = value.line;
  if (line.hidden) {
    Cells cells(11, noFigure);
    cells.front() = line.label;
    cells.back() = "too few teeth to show";
    return cells;
  }
  const auto& limits = value.funnel ? value.funnel->limits : std::nullopt;
  return {line.label,
          line.placed,
          line.childrenFound,
          line.assessable,
          shareOf(line.whole, line.assessable),
          rangeCell(line.whole95, line.unit),
          ratio(value).with(isSmall(value) ? ", small numbers" : ""),
          bootstrapRange(value),
          pCell(value),
          limits ? Cell(Range{limits->low, limits->high}) : noFigure,
          placeWords(value.funnel)};
}

bool hasNote(const FactorComparison& compared, estimates::FunnelNote note) {
  return std::ranges::find(compared.funnelNotes, note) != compared.funnelNotes.end();
}

bool hasAny(const FactorComparison& compared, auto is) {
  return std::ranges::any_of(compared.values,
                             [&](const auto& value) { return value.against && is(value); });
}

bool isOfSchools(const FactorValue& value) {
  return value.level == FactorLevel::betweenSchools && !value.hasFewSchools;
}

std::string strataWords(const FactorComparison& compared) {
  const bool isTooth = compared.factor == Factor::tooth || compared.factor == Factor::arch;
  std::string words = "Odds ratio of fully retained against not, each value against all the others";
  if (!isTooth) words += ", within upper and lower, first and second molars";
  if (hasAny(compared, [](const auto& v) { return v.level == FactorLevel::withinSchools; }))
    words += ", within schools where a school has both";
  words += ". CIs and p allow for likeness of teeth within a student";
  if (hasAny(compared, isOfSchools))
    return words + "; where whole schools are the units, of students within a school too, and the "
                   "bootstrap resamples schools.";
  return words + "; the bootstrap resamples students.";
}

/// How p came about, each sentence where one stands so.
void addLevelNotes(Table& table, const FactorComparison& compared) {
  if (hasAny(compared, [](const auto& v) { return v.hasFewSchools; }))
    table.notes.push_back(
        "Cannot be separated from schools: each school has this value or the others, "
        "and fewer than " +
        number(fewestSchoolsASide) +
        " schools are on one side. A difference may come from the schools; no p, no CI of the "
        "odds ratio and no expected range is given.");
  if (hasAny(compared, isOfSchools))
    table.notes.emplace_back(
        "Where each school has this value or the others, whole schools are the "
        "units: p by permuting schools.");
  const auto isPermuted = [&](Permuted what) {
    return hasAny(compared, [what](const auto& v) { return v.permuted == what; });
  };
  constexpr auto where = "Where numbers are small or one side has none missing, p is by permuting ";
  if (isPermuted(Permuted::childrenInSchools))
    table.notes.push_back(where + std::string("students within their schools."));
  if (isPermuted(Permuted::children))
    table.notes.push_back(where + std::string("students among the schools."));
  if (isPermuted(Permuted::teeth))
    table.notes.push_back(where + std::string("teeth within a student, where a student has both."));
}

/// Other names of the same comparison, value by value.
void addOtherNames(Table& table, const FactorComparison& compared) {
  for (const auto factor : compared.alsoCalled)
    table.notes.push_back("By " + named(factor) +
                          " the teeth divide in the same way: one comparison under two names.");
  if (hasAny(compared, [](const auto& value) { return value.sameAs.has_value(); }))
    table.notes.emplace_back("p \"as\" another value: it divides the teeth in the same way as that "
                             "one, in a table above, and is compared and counted once.");
}

} // namespace

Table comparisonTable(const FactorComparison& compared) {
  Table table{"Retention by " + named(compared.factor),
              {{headingOf(compared.factor), Kind::text, "value"},
               counts("Placed"),
               counts("Students found", "children_found"),
               counts("Assessable"),
               shares("Fully retained, %"),
               ranges("95% CI"),
               ranges("Odds ratio (95% CI)"),
               ranges("Bootstrap"),
               numbers("p"),
               ranges("95% expected range"),
               texts("Place")}};
  for (const auto& value : compared.values)
    table.rows.push_back(rowOf(value));
  const bool isAny = hasAny(compared, [](const auto&) { return true; });
  table.notes = {isAny ? strataWords(compared)
                       : "Nothing is compared: fewer than two values have assessed sealants and "
                         "are shown.",
                 "Observational: students, teeth and conditions were not assigned to a "
                 "method, a light or a person at random, and may explain all of a difference. "
                 "Small numbers are too few to judge an individual.",
                 "95% expected range: where a value with as many teeth would fall if it were "
                 "no different from the whole cohort. Outside it, look for a cause; " +
                     std::string(compared.allowsForSchools
                                     ? "the limits allow for what schools differ by, so little "
                                       "falls outside by chance."
                                     : "about one of twenty values falls outside by chance.")};
  if (isAny && compared.comparedTogether > 1)
    table.notes.push_back("p is adjusted for the " + std::to_string(compared.comparedTogether) +
                          " comparisons made together.");
  addLevelNotes(table, compared);
  addOtherNames(table, compared);
  // Where the first is hidden or has no tooth, neither is compared.
  if (compared.isPair && compared.values.front().against)
    table.notes.emplace_back("With two values, the second is the first in reverse.");
  if (hasNote(compared, estimates::FunnelNote::fewUnits))
    table.notes.emplace_back(
        "Few values: each is a large part of the cohort that it is compared with.");
  table.plot = compared.factor == Factor::school ? funnelPlot(compared) : rangePlot(compared);
  return table;
}

} // namespace gk::reports
