#include "office/estimates/estimate_csv.h"

#include "office/tables/csv_column.h"
#include "office/tables/labels.h"

#include <algorithm>
#include <array>
#include <bit>
#include <limits>
#include <unordered_map>

namespace gk::office {

using base::Done;
using base::Result;

namespace {

constexpr double mostYears = 150;   ///< as estimates::attackRate
constexpr double longestTime = 1e9; ///< as estimates::survivalCurve
constexpr double mostOfUnit = 1e6;  ///< as estimates::shrunken and binomialLimit
constexpr double mostMolars = 1e9;

/// The columns of those names, in that order.
template <std::size_t N>
Result<std::vector<CsvColumn>> columns(const CsvRows& rows,
                                       const std::array<std::string_view, N>& names) {
  std::vector<CsvColumn> out;
  for (const auto name : names) {
    const auto column = CsvColumn::of(rows, name);
    if (!column) return column.error();
    out.push_back(*column);
  }
  return out;
}

/// `work` for every row under those columns, as long as none fails.
template <std::size_t N, class Work>
Result<Done> forEachRow(std::string_view csv, const std::array<std::string_view, N>& names,
                        Work work) {
  auto rows = CsvRows::of(csv);
  if (!rows) return rows.error();
  const auto found = columns(*rows, names);
  if (!found) return found.error();
  for (;;) {
    const auto more = rows->next();
    if (!more) return more.error();
    if (!*more) return Done{};
    if (const auto done = work(*rows, *found); !done) return done.error();
  }
}

struct Pair {
  double whole;
  double part;
};

Result<Pair> ordered(const CsvRows& rows, const CsvColumn& partColumn, const Result<double>& whole,
                     const Result<double>& part) {
  if (!whole) return whole.error();
  if (!part) return part.error();
  if (*part > *whole) return partColumn.refused(rows, "more than examined");
  return Pair{*whole, *part};
}

struct Ends {
  double left;
  double right; ///< infinite when there is none
  bool operator==(const Ends&) const = default;
};

struct EndsHash {
  std::size_t operator()(const Ends& ends) const {
    constexpr std::uint64_t odd = 0x9E3779B97F4A7C15; // 2^64 / golden ratio, spreads the bits
    const auto mixed = std::bit_cast<std::uint64_t>(ends.left) * odd;
    const auto both = (mixed ^ (mixed >> 29U) ^ std::bit_cast<std::uint64_t>(ends.right)) * odd;
    return static_cast<std::size_t>(both ^ (both >> 32U));
  }
};

/// By sorting: a table may have ten million rows.
std::size_t repeatedRows(const std::vector<estimates::Exposure>& rows) {
  std::vector<std::pair<std::size_t, double>> keys;
  keys.reserve(rows.size());
  for (const auto& row : rows)
    keys.emplace_back(row.child, row.years);
  std::ranges::sort(keys);
  return static_cast<std::size_t>(std::ranges::unique(keys).size());
}

Result<Ends> endsOf(const CsvRows& rows, const CsvColumn& leftColumn,
                    const CsvColumn& rightColumn) {
  const auto left = leftColumn.amount(rows, longestTime, "a time");
  if (!left) return left.error();
  if (rightColumn.text(rows).empty()) return Ends{*left, std::numeric_limits<double>::infinity()};
  const auto right = rightColumn.amount(rows, longestTime, "a time");
  if (!right) return right.error();
  if (*right < *left)
    return rightColumn.refused(rows, "failed before it was last seen whole, at left");
  return Ends{*left, *right};
}

} // namespace

Result<RetentionCounts> readRetention(std::string_view csv) {
  Labels children(csv);
  Labels schools(csv);
  std::vector<std::uint32_t> clusterOf; // by child
  std::vector<bool> isExamined;         // by child
  RetentionCounts out{{}, 0};
  std::optional<CsvColumn> clusters; // not needed
  bool isFirst = true;
  const auto work = [&](const CsvRows& rows, const std::vector<CsvColumn>& column) -> Result<Done> {
    const auto who = column[0].label(rows);
    if (!who) return who.error();
    if (isFirst && rows.columnIfAny("cluster")) clusters = *CsvColumn::of(rows, "cluster");
    isFirst = false;
    const auto child = children.numberOf(*who);
    const auto where = clusters ? clusters->label(rows) : who;
    if (!where) return where.error();
    const auto cluster = clusters ? schools.numberOf(*where) : child;
    if (child == clusterOf.size()) {
      clusterOf.push_back(static_cast<std::uint32_t>(cluster));
      isExamined.push_back(false);
    } else {
      ++out.repeatedRows;
    }
    if (clusterOf[child] != cluster)
      return clusters->refused(rows, "this child is in another cluster on an earlier line");
    const auto counts = ordered(rows, column[2], column[1].teeth(rows), column[2].teeth(rows));
    if (!counts) return counts.error();
    if (counts->whole > 0 && !isExamined[child]) {
      isExamined[child] = true;
      ++out.children;
    }
    if (cluster == out.clusters.size()) out.clusters.push_back({0, 0});
    out.clusters[cluster].examined += counts->whole;
    out.clusters[cluster].retained += counts->part;
    return Done{};
  };
  const auto done =
      forEachRow(csv, std::array<std::string_view, 3>{"child", "examined", "retained"}, work);
  if (!done) return done.error();
  return out;
}

Result<Exposures> readExposures(std::string_view csv) {
  Labels children(csv);
  Exposures out;
  const auto done =
      forEachRow(csv, std::array<std::string_view, 4>{"child", "exposure", "examined", "affected"},
                 [&](const CsvRows& rows, const std::vector<CsvColumn>& column) -> Result<Done> {
                   const auto who = column[0].label(rows);
                   if (!who) return who.error();
                   const auto years = column[1].number(rows);
                   if (!years) return years.error();
                   if (*years > mostYears) return column[1].refused(rows, "more than 150 years");
                   const auto counts = ordered(rows, column[3], column[2].amount(rows, mostMolars),
                                               column[3].amount(rows, mostMolars));
                   if (!counts) return counts.error();
                   const auto child = children.numberOf(*who);
                   out.rows.push_back({*years, counts->whole, counts->part, child});
                   return Done{};
                 });
  if (!done) return done.error();
  out.repeatedRows = repeatedRows(out.rows);
  return out;
}

Result<std::vector<estimates::Spell>> readSpells(std::string_view csv) {
  std::unordered_map<Ends, double, EndsHash> teeth;
  const auto done =
      forEachRow(csv, std::array<std::string_view, 2>{"left", "right"},
                 [&](const CsvRows& rows, const std::vector<CsvColumn>& column) -> Result<Done> {
                   const auto ends = endsOf(rows, column[0], column[1]);
                   if (!ends) return ends.error();
                   ++teeth[*ends];
                   return Done{};
                 });
  if (!done) return done.error();
  std::vector<estimates::Spell> out;
  out.reserve(teeth.size());
  for (const auto& [ends, count] : teeth) {
    const bool isWhole = ends.right > longestTime;
    out.push_back(
        {ends.left, isWhole ? std::nullopt : std::optional(ends.right), out.size(), count});
  }
  return out;
}

Result<NamedStrata> readStrata(std::string_view csv) {
  Labels names(csv);
  NamedStrata out;
  const auto done =
      forEachRow(csv,
                 std::array<std::string_view, 5>{"stratum", "exposed_kept", "exposed_lost",
                                                 "other_kept", "other_lost"},
                 [&](const CsvRows& rows, const std::vector<CsvColumn>& column) -> Result<Done> {
                   const auto name = column[0].label(rows);
                   if (!name) return name.error();
                   std::array<double, 4> counts{};
                   for (std::size_t i = 0; i < counts.size(); ++i) {
                     const auto count = column[i + 1].teeth(rows);
                     if (!count) return count.error();
                     counts[i] = *count;
                   }
                   const auto place = names.numberOf(*name);
                   if (place == out.strata.size()) {
                     out.strata.push_back({0, 0, 0, 0});
                     out.names.emplace_back(*name);
                   } else {
                     ++out.repeatedRows;
                   }
                   auto& stratum = out.strata[place];
                   stratum.exposedKept += counts[0];
                   stratum.exposedLost += counts[1];
                   stratum.otherKept += counts[2];
                   stratum.otherLost += counts[3];
                   return Done{};
                 });
  if (!done) return done.error();
  return out;
}

Result<NamedUnits> readUnits(std::string_view csv) {
  Labels names(csv);
  NamedUnits out;
  const auto done =
      forEachRow(csv, std::array<std::string_view, 3>{"unit", "examined", "retained"},
                 [&](const CsvRows& rows, const std::vector<CsvColumn>& column) -> Result<Done> {
                   const auto name = column[0].label(rows);
                   if (!name) return name.error();
                   const auto counts = ordered(rows, column[2], column[1].amount(rows, mostOfUnit),
                                               column[2].amount(rows, mostOfUnit));
                   if (!counts) return counts.error();
                   const auto place = names.numberOf(*name);
                   if (place == out.units.size()) {
                     out.units.push_back({0, 0});
                     out.names.emplace_back(*name);
                   } else {
                     ++out.repeatedRows;
                   }
                   out.units[place].examined += counts->whole;
                   out.units[place].kept += counts->part;
                   return Done{};
                 });
  if (!done) return done.error();
  return out;
}

Result<std::vector<double>> readSizes(std::string_view csv) {
  std::vector<double> out;
  const auto done =
      forEachRow(csv, std::array<std::string_view, 1>{"n"},
                 [&](const CsvRows& rows, const std::vector<CsvColumn>& column) -> Result<Done> {
                   const auto size = column[0].amount(rows, mostOfUnit, "a number of teeth");
                   if (!size) return size.error();
                   if (*size == 0) return column[0].refused(rows, "no tooth has no limits");
                   out.push_back(*size);
                   return Done{};
                 });
  if (!done) return done.error();
  return out;
}

} // namespace gk::office
