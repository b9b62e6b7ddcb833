#include "base/text/text.h"
#include "office/estimates/estimate_csv.h"
#include "office/estimates/estimate_words.h"

#include <algorithm>
#include <ostream>

namespace gk::office {

using base::Error;
using base::ErrorCode;
using base::Result;

namespace {

std::string shown(double number) {
  const bool isWhole = number == static_cast<double>(static_cast<std::int64_t>(number));
  return base::fixed(number, isWhole ? 0 : 2);
}

Result<Exit> curve(const Call& call, const Surroundings& around) {
  const auto text = tableText(call, around);
  if (!text) return text.error();
  const auto spells = readSpells(*text);
  if (!spells) return spells.error();
  const auto found = estimates::survivalCurve(*spells);
  if (!found) return found.error();
  const auto notes = sentences(found->notes);
  if (!call.wantsJson()) {
    around.out << "Sealants: " << shown(found->teeth) << ", of which seen to fail "
               << shown(found->failed) << ".\nFailed within          share   retained after\n";
    double whole = 1;
    for (const auto& [left, right, mass] : found->intervals) {
      whole -= mass;
      auto within = right == left ? "at " + shown(left)
                    : right       ? "over " + shown(left) + " up to " + shown(*right)
                                  : "over " + shown(left) + ", if at all";
      within.resize(std::max<std::size_t>(within.size() + 1, 22), ' ');
      around.out << within << percent(mass)
                 << (right ? "   " + percent(std::max(0.0, whole)) : std::string()) << '\n';
    }
    around.out << "Log-likelihood: " << base::fixed(found->logLikelihood, 4) << '\n';
    if (std::ranges::any_of(found->intervals,
                            [](const auto& one) { return one.right && *one.right > one.left; }))
      around.out << "When within an interval is not known.\n";
    tell(notes, around.out);
    around.out << whatTheySpeakOf << '\n';
    return Exit::fine;
  }
  JsonWriter json(around.out);
  json.beginObject();
  json.arrayField("intervals");
  for (const auto& [left, right, mass] : found->intervals) {
    json.beginObject();
    json.field("left", left);
    json.field("right", right);
    json.field("mass", mass);
    json.endObject();
  }
  json.endArray();
  json.field("log_likelihood", found->logLikelihood);
  json.field("teeth", found->teeth);
  json.field("failed", found->failed);
  json.field("still_whole", found->stillWhole);
  json.field("unchecked", found->unchecked);
  json.field("gap", found->gap);
  json.field("notes", notes);
  json.endObject();
  return Exit::fine;
}

Result<Exit> compare(const Call& call, const Surroundings& around) {
  const auto text = tableText(call, around);
  if (!text) return text.error();
  const auto table = readStrata(*text);
  if (!table) return table.error();
  const auto found = estimates::compare(table->strata);
  if (!found) return found.error();
  const auto& interval = found->interval;
  const auto notes = sentences(found->notes);
  if (!call.wantsJson()) {
    if (found->oddsRatio)
      around.out << "Odds ratio of kept, exposed to other: " << base::fixed(*found->oddsRatio, 3);
    else
      around.out << "Odds ratio: none";
    if (interval)
      around.out << ", 95% CI " << base::fixed(interval->low, 3) << " to "
                 << base::fixed(interval->high, 3);
    around.out << '\n';
    if (found->chiSquared && found->p)
      around.out << "Chi-squared " << base::fixed(*found->chiSquared, 3) << ", p "
                 << base::fixed(*found->p, 4) << '\n';
    around.out << shown(found->teeth) << " teeth; " << found->informativeStrata << " of "
               << base::counted(found->strata, "stratum adds", "strata add") << " information.\n";
    tellRepeated(table->repeatedRows, "a stratum that an earlier line names", around.out);
    tell(notes, around.out);
    around.out << "The comparison is observational: children, teeth and conditions were not "
                  "assigned to a method\nor an operator at random, and may explain all of "
                  "it.\nTeeth count as independent, which teeth of one mouth are not: the "
                  "interval is likely too\nnarrow. Take care with small numbers, and with "
                  "several comparisons: of twenty, one has p\nbelow 0.05 by chance alone.\n"
               << whatTheySpeakOf << '\n';
    return Exit::fine;
  }
  JsonWriter json(around.out);
  json.beginObject();
  json.field("odds_ratio", found->oddsRatio);
  json.field("low", interval ? std::optional(interval->low) : std::nullopt);
  json.field("high", interval ? std::optional(interval->high) : std::nullopt);
  json.field("chi_squared", found->chiSquared);
  json.field("p", found->p);
  json.field("teeth", found->teeth);
  json.field("strata", found->strata);
  json.field("informative_strata", found->informativeStrata);
  json.field("observational", true);
  json.field("repeated_rows", table->repeatedRows);
  json.field("notes", notes);
  json.endObject();
  return Exit::fine;
}

/// From --n, or from the table.
Result<std::vector<double>> sizes(const Call& call, const Surroundings& around) {
  if (!call.has("--n")) {
    const auto text = tableText(call, around);
    if (!text) return text.error();
    return readSizes(*text);
  }
  if (call.operandIfAny(0)) return Error{ErrorCode::callMalformed, "give a table or --n, not both"};
  return numbers(call, "--n");
}

Result<Exit> funnel(const Call& call, const Surroundings& around) {
  const auto target = call.number("--target");
  if (!target) return target.error();
  auto tails = numbers(call, "--tails");
  if (!tails) return tails.error();
  if (tails->empty()) tails = std::vector{0.001, 0.025, 0.975, 0.999};
  const auto ns = sizes(call, around);
  if (!ns) return ns.error();
  std::vector<std::vector<double>> limits;
  for (const double n : *ns) {
    auto& row = limits.emplace_back();
    for (const double tail : *tails) {
      const auto limit = estimates::binomialLimit(**target, n, tail);
      if (!limit) return limit.error();
      row.push_back(*limit);
    }
  }
  if (!call.wantsJson()) {
    around.out << "Limits about " << percent(**target) << ", by the number of teeth\nn          ";
    for (const double tail : *tails)
      around.out << "tail " << tail << "  ";
    around.out << '\n';
    for (std::size_t i = 0; i < ns->size(); ++i) {
      auto n = shown((*ns)[i]);
      n.resize(std::max<std::size_t>(n.size() + 1, 11), ' ');
      around.out << n;
      for (const double limit : limits[i])
        around.out << percent(limit) << "      ";
      around.out << '\n';
    }
    around.out << "n is the effective number: teeth divided by the design effect. A school "
                  "outside needs\na closer look, not a verdict.\n"
               << whatTheySpeakOf << '\n';
    return Exit::fine;
  }
  JsonWriter json(around.out);
  json.beginObject();
  json.field("target", **target);
  json.arrayField("tails");
  for (const double tail : *tails)
    json.value(tail);
  json.endArray();
  json.arrayField("limits");
  for (std::size_t i = 0; i < ns->size(); ++i) {
    json.beginObject();
    json.field("n", (*ns)[i]);
    json.arrayField("limits");
    for (const double limit : limits[i])
      json.value(limit);
    json.endArray();
    json.endObject();
  }
  json.endArray();
  json.endObject();
  return Exit::fine;
}

Result<Exit> shrink(const Call& call, const Surroundings& around) {
  const auto text = tableText(call, around);
  if (!text) return text.error();
  const auto table = readUnits(*text);
  if (!table) return table.error();
  const auto found = estimates::shrunken(table->units);
  if (!found) return found.error();
  const auto notes = sentences(found->notes);
  if (!call.wantsJson()) {
    around.out << "Unit                    retained        raw      shrunken\n";
    for (std::size_t i = 0; i < found->units.size(); ++i) {
      const auto& unit = found->units[i];
      auto name = table->names[i];
      name.resize(std::max<std::size_t>(name.size() + 1, 24), ' ');
      auto counts = shown(table->units[i].kept) + " of " + shown(table->units[i].examined);
      counts.resize(std::max<std::size_t>(counts.size() + 1, 16), ' ');
      around.out << name << counts << (unit.raw ? percent(*unit.raw) : "none") << "   "
                 << percent(unit.shrunken) << '\n';
    }
    around.out << "Mean " << percent(found->mean);
    if (found->alpha && found->beta)
      around.out << "; alpha " << base::fixed(*found->alpha, 3) << ", beta "
                 << base::fixed(*found->beta, 3);
    around.out << "\nReport the shrunken share beside the raw one, never instead of it.\n";
    tellRepeated(table->repeatedRows, "a unit that an earlier line names", around.out);
    tell(notes, around.out);
    around.out << whatTheySpeakOf << '\n';
    return Exit::fine;
  }
  JsonWriter json(around.out);
  json.beginObject();
  json.arrayField("shrunken");
  for (std::size_t i = 0; i < found->units.size(); ++i) {
    const auto& unit = found->units[i];
    json.beginObject();
    json.field("unit", table->names[i]);
    json.field("examined", table->units[i].examined);
    json.field("retained", table->units[i].kept);
    json.field("raw", unit.raw);
    json.field("shrunken", unit.shrunken);
    json.field("own_weight", unit.ownWeight);
    json.endObject();
  }
  json.endArray();
  json.field("alpha", found->alpha);
  json.field("beta", found->beta);
  json.field("mean", found->mean);
  json.field("repeated_rows", table->repeatedRows);
  json.field("notes", notes);
  json.endObject();
  return Exit::fine;
}

} // namespace

std::vector<Verb> comparingVerbs() {
  return {
      {{"estimate curve",
        "[CSV]",
        "how long sealants last, from columns left (last seen retained) and right "
        "(first seen failed; empty while retained)",
        {}},
       curve},
      {{"estimate compare",
        "[CSV]",
        "odds ratio of kept teeth (Mantel-Haenszel), from columns "
        "stratum,exposed_kept,exposed_lost,other_kept,other_lost",
        {}},
       compare},
      {{"estimate funnel",
        "[CSV]",
        "exact binomial limits about a target, from a column n (effective numbers of teeth) or --n",
        {{"--target", "SHARE", "the reference for all, such as 0.92", true},
         {"--tails", "LIST", "lower-tail probabilities (0.001,0.025,0.975,0.999)"},
         {"--n", "LIST", "numbers of teeth, in place of a table"}}},
       funnel},
      {{"estimate shrink",
        "[CSV]",
        "each unit's share beside the one adjusted toward the mean, from columns "
        "unit,examined,retained",
        {}},
       shrink},
  };
}

} // namespace gk::office
