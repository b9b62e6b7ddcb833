#include "reports/compare/standing_out.h"

#include "estimates/numbers/distributions.h"
#include "reports/compare/echoes.h"
#include "reports/print/cells.h"
#include "reports/retention/display_names.h"
#include "reports/retention/factor_words.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace gk::reports {

namespace {

constexpr double falseAlarms = 0.05; ///< of a whole report, as Holm keeps it

bool isPerson(Factor factor) {
  return factor == Factor::placedBy || factor == Factor::pair;
}

/// How many p-values Holm's step still divides by when it comes to this one.
std::size_t dividedBy(std::span<const FactorComparison> compared, double p) {
  std::size_t all = 0;
  std::size_t smaller = 0;
  for (const auto& one : compared)
    for (const auto& value : one.values)
      if (value.p) {
        ++all;
        if (*value.p < p) ++smaller;
      }
  return all - smaller;
}

std::optional<estimates::Interval> rangeAtStep(const estimates::ClusteredComparison& found,
                                               std::size_t divided) {
  if (!found.teeth.oddsRatio || !found.logVariance || found.children < 2) return std::nullopt;
  if (*found.teeth.oddsRatio <= 0) return std::nullopt;
  const double reach =
      estimates::studentQuantile(1 - falseAlarms / static_cast<double>(divided) / 2,
                                 static_cast<double>(found.children) - 1) *
      std::sqrt(*found.logVariance);
  return estimates::Interval{*found.teeth.oddsRatio * std::exp(-reach),
                             *found.teeth.oddsRatio * std::exp(reach)};
}

const FactorValue* otherOfPair(const FactorComparison& compared, const FactorValue& value) {
  if (!compared.isPair) return nullptr;
  for (const auto& other : compared.values)
    if (&other != &value) return &other;
  return nullptr;
}

/// Of two values that are compared once, the one that kept less is told of.
void turnRound(StandingOut& one, const FactorValue& other) {
  std::swap(one.label, one.others);
  std::swap(one.whole, one.othersWhole);
  std::swap(one.assessable, one.othersAssessable);
  one.range.reset();
  if (other.line.whole95) one.range = printedRange(*other.line.whole95);
  // Without a bound the other way round is zero.
  one.oddsRatio = one.oddsRatio ? 1 / *one.oddsRatio : 0;
  if (one.oddsRange) one.oddsRange = {1 / one.oddsRange->high, 1 / one.oddsRange->low};
  one.isLess = true;
}

/// Factors by which the same teeth stand against the same others.
std::vector<Factor> alsoCalled(const FactorComparison& compared, const FactorValue& value) {
  auto out = compared.alsoCalled;
  for (const auto factor : value.alsoOf)
    if (std::ranges::find(out, factor) == out.end()) out.push_back(factor);
  return out;
}

std::optional<StandingOut> foundIn(std::span<const FactorComparison> all,
                                   const FactorComparison& compared, const FactorValue& value) {
  if (!value.against || !value.p || !value.adjustedP || *value.adjustedP >= falseAlarms)
    return std::nullopt;
  const auto& teeth = value.against->teeth;
  StandingOut out{.factor = compared.factor,
                  .alsoCalled = alsoCalled(compared, value),
                  .label = value.line.label,
                  .others = "the others",
                  .whole = value.line.whole,
                  .assessable = value.line.assessable,
                  .othersWhole = compared.total.whole - value.line.whole,
                  .othersAssessable = compared.total.assessable - value.line.assessable,
                  .oddsRatio = teeth.oddsRatio,
                  .oddsRange = rangeAtStep(*value.against, dividedBy(all, *value.p)),
                  .adjustedP = *value.adjustedP,
                  .level = value.level};
  if (value.line.whole95) out.range = printedRange(*value.line.whole95);
  if (out.oddsRange && out.oddsRange->low <= 1 && 1 <= out.oddsRange->high) return std::nullopt;
  out.isLess = teeth.oddsRatio && *teeth.oddsRatio < 1;
  out.isSmall = teeth.has(estimates::ComparisonNote::smallNumbers) ||
                value.against->has(estimates::ClusteredNote::fewChildren);
  if (const auto* other = otherOfPair(compared, value)) {
    out.others = other->line.label;
    if (!out.isLess) turnRound(out, *other);
  }
  return out;
}

/// How far from no difference; no bound is furthest.
double distanceOf(const StandingOut& one) {
  if (!one.oddsRatio || *one.oddsRatio <= 0) return std::numeric_limits<double>::infinity();
  return std::abs(std::log(*one.oddsRatio));
}

std::string subjectOf(Factor factor, const std::string& label) {
  switch (factor) {
  case Factor::school:
    return "Sealants placed at " + label;
  case Factor::light:
    return label == "no light" ? "Sealants cured without a light"
                               : "Sealants cured under light " + label;
  case Factor::arch:
    return label == "upper" ? "Sealants on upper teeth" : "Sealants on lower teeth";
  case Factor::tooth: {
    const auto comma = label.rfind(", ");
    if (comma == std::string::npos) return "Sealants on the " + label;
    return "Sealants on the " + label.substr(0, comma) + " (tooth " + label.substr(comma + 2) + ")";
  }
  case Factor::isolation:
    return "Sealants placed with " + label;
  case Factor::delivery:
    return "Sealants placed " + label;
  case Factor::lot:
    return "Sealants of lot " + label;
  case Factor::wet:
    return "Sealants on teeth " + label;
  case Factor::holding:
    return "Sealants placed with " + label;
  case Factor::guards:
    return "Sealants placed with " + label + " of the isolation items";
  case Factor::eruption:
  case Factor::enamel:
    return "Sealants on teeth recorded as " + label;
  case Factor::grade:
    return "Sealants of grade " + label;
  case Factor::placedBy:
  case Factor::pair:
    break;
  }
  base::fail("a person is not told of in a sentence");
}

std::string shareWords(int part, int whole) {
  const auto rate = rateOf(part, whole);
  return rate ? shareOf(rate).text() + "%" : std::string(nothing);
}

std::string oddsWords(const StandingOut& one) {
  if (!one.oddsRatio) return "the odds ratio has no bound, so it is judged by permutation";
  std::string words = "odds ratio " + base::fixed(*one.oddsRatio, 2);
  if (!one.oddsRange) return words + ", judged by permutation";
  return words + " (" + base::fixed(one.oddsRange->low, 2) + "-" +
         base::fixed(one.oddsRange->high, 2) + " after adjustment)";
}

std::string ownCaution(Factor factor) {
  switch (factor) {
  case Factor::light:
    return "Lights were not assigned at random: schools, days and people may explain it. Check its "
           "meter log.";
  case Factor::arch:
  case Factor::tooth:
    return "Teeth differ in eruption and in how hard they are to keep dry; this alone does not say "
           "which.";
  case Factor::school:
    return "Schools differ in students, days, people and equipment; this alone does not say which.";
  case Factor::lot:
    return "Lots follow each other in time and place; what else changed with them may explain it.";
  case Factor::eruption:
  case Factor::enamel:
    return "This describes the tooth, not how the sealant was placed.";
  case Factor::wet:
    return "A contaminated tooth may be harder to seal for other reasons.";
  case Factor::isolation:
  case Factor::delivery:
  case Factor::holding:
  case Factor::guards:
    return "Chosen by need, not at random: the harder teeth and students may explain it.";
  case Factor::grade:
    return "Grades differ in age and in how far teeth have erupted.";
  case Factor::placedBy:
  case Factor::pair:
    break;
  }
  base::fail("a person is not told of in a sentence");
}

std::size_t comparisons(std::span<const FactorComparison> compared) {
  std::size_t count = 0;
  for (const auto& one : compared)
    count += static_cast<std::size_t>(
        std::ranges::count_if(one.values, [](const auto& value) { return value.p.has_value(); }));
  return count;
}

/// A light or a lot can be checked at once, so one that is low is told of even where the numbers
/// do not confirm it.
std::vector<std::string> unconfirmed(std::span<const FactorComparison> compared,
                                     const std::vector<StandingOut>& found) {
  std::vector<std::string> words;
  for (const auto& one : compared) {
    if (one.factor != Factor::light && one.factor != Factor::lot) continue;
    for (const auto& value : one.values) {
      const bool isTold = std::ranges::any_of(found, [&](const auto& told) {
        return told.factor == one.factor && told.label == value.line.label;
      });
      if (isTold || !value.funnel) continue;
      const auto place = value.funnel->place;
      if (place == estimates::FunnelPlace::below || place == estimates::FunnelPlace::farBelow)
        words.push_back(named(one.factor) + " " + value.line.label + " (" +
                        shareWords(value.line.whole, value.line.assessable) + ")");
    }
  }
  return words;
}

bool anyUnder(std::span<const FactorComparison> compared, auto isOf) {
  return std::ranges::any_of(compared, [&](const auto& one) {
    return isOf(one.factor) && std::ranges::any_of(one.values, [](const auto& value) {
             return value.adjustedP && *value.adjustedP < falseAlarms;
           });
  });
}

/// Precondition: nothing stands out.
std::string noneWords(std::span<const FactorComparison> compared) {
  const auto looks = comparisons(compared);
  if (looks == 0) return "Nothing can be compared yet: too few assessed sealants.";
  const auto of = ": of " + counted(static_cast<int>(looks), "comparison", "comparisons");
  if (anyUnder(compared, [](Factor factor) { return !isPerson(factor); }))
    return "Nothing stands out" + of +
           ", none has an adjusted p under 0.05 and an odds ratio whose adjusted CI excludes 1.";
  if (anyUnder(compared, isPerson))
    return "Nothing stands out apart from operators" + of +
           ", no other has an adjusted p under 0.05.";
  return "Nothing stands out" + of + ", none has an adjusted p under 0.05.";
}

/// Whether the shares of all teeth say what the odds ratio says within strata.
bool sharesAgree(const StandingOut& one) {
  const auto own = static_cast<double>(one.whole) * one.othersAssessable;
  const auto others = static_cast<double>(one.othersWhole) * one.assessable;
  return one.isLess ? own < others : own > others;
}

/// What the odds ratio compares within; empty where that is all teeth.
std::string withinWords(const StandingOut& one) {
  std::vector<std::string> words;
  if (one.factor != Factor::tooth && one.factor != Factor::arch)
    words.emplace_back("on the same type of tooth");
  if (one.level == FactorLevel::withinSchools) words.emplace_back("at the same school");
  return words.empty() ? "" : " " + base::join(words, " ");
}

} // namespace

std::vector<StandingOut> standingOut(std::span<const FactorComparison> compared) {
  std::vector<StandingOut> out;
  for (const auto& one : compared) {
    if (isPerson(one.factor)) continue;
    for (const auto& value : one.values)
      if (auto found = foundIn(compared, one, value)) out.push_back(*std::move(found));
  }
  std::ranges::stable_sort(out, [](const auto& one, const auto& other) {
    if (one.adjustedP != other.adjustedP) return one.adjustedP < other.adjustedP;
    return distanceOf(one) > distanceOf(other);
  });
  return out;
}

std::string sentenceOf(const StandingOut& one) {
  const std::string words = subjectOf(one.factor, one.label) + " were fully retained " +
                            (one.isLess ? "less" : "more") + " often than " + one.others;
  std::string shares = shareWords(one.whole, one.assessable) + " of " + number(one.assessable);
  if (one.range) shares += " (95% CI " + percentRange(one.range->low, one.range->high) + ")";
  shares += " against " + shareWords(one.othersWhole, one.othersAssessable) + " of " +
            number(one.othersAssessable);
  const auto odds = oddsWords(one) + ", adjusted p " + pValueOf(one.adjustedP).text() + ".";
  if (sharesAgree(one)) return words + ": " + shares + "; " + odds;
  return words + withinWords(one) + ": " + odds +
         " Over all teeth the percentages do not show it (" + shares +
         "): the groups differ in schools or in types of tooth.";
}

std::string cautionOf(const StandingOut& one) {
  auto words = ownCaution(one.factor);
  for (const auto other : one.alsoCalled)
    words +=
        " The teeth divide the same way by " + named(other) + ", so that may be the cause instead.";
  if (one.isSmall) words += " Small numbers.";
  return words;
}

Table standingOutTable(std::span<const FactorComparison> compared) {
  Table table{"What stands out", {counts("No."), texts("Finding"), texts("Caution")}};
  auto found = standingOut(compared);
  const auto all = found;
  const auto echoes = takeOutEchoes(found, compared);
  const auto looks = comparisons(compared);
  for (const auto& one : std::span(found).first(std::min(found.size(), mostStandingOut)))
    table.rows.push_back({table.rows.size() + 1, sentenceOf(one), cautionOf(one)});
  if (found.empty())
    table.rows.push_back(
        {nothing, noneWords(compared), "No difference found does not mean that there is none."});
  if (found.size() > mostStandingOut)
    table.notes.push_back(
        counted(static_cast<int>(found.size() - mostStandingOut), "more value", "more values") +
        " also stand out; see the tables below.");
  if (!found.empty())
    table.notes.push_back(
        "Strongest first: by p adjusted for the " + std::to_string(looks) +
        " comparisons of this report (Holm's method), then by the odds ratio. Each odds ratio's CI "
        "is widened by that adjustment; a percent has its own 95% CI.");
  if (!echoes.empty())
    table.notes.push_back(
        "Not listed, as less than half of the difference is left without the teeth named: " +
        base::join(echoes, "; ") + ".");
  if (const auto low = unconfirmed(compared, all); !low.empty())
    table.notes.push_back("Worth checking: " + base::join(low, ", ") +
                          (low.size() == 1
                               ? " is below its expected range, but not confirmed"
                               : " are below their expected ranges, but not confirmed") +
                          " by the adjusted comparison.");
  if (anyUnder(compared, isPerson))
    table.notes.emplace_back("Operators are not listed here. Their table is below, for coaching.");
  return table;
}

} // namespace gk::reports
