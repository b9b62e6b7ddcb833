#include "base/text/text.h"
#include "estimates/averted/averted.h"
#include "estimates/averted/present_value.h"
#include "office/estimates/estimate_csv.h"
#include "office/estimates/estimate_words.h"

#include <algorithm>
#include <cmath>
#include <ostream>

namespace gk::office {

using base::Error;
using base::ErrorCode;
using base::Result;

namespace {

Result<estimates::AvertedInputs> avertedInputs(const Call& call) {
  estimates::AvertedInputs inputs{0, 0, 0};
  const auto rate = call.number("--attack-rate");
  if (!rate) return rate.error();
  inputs.attackRate = **rate;
  const auto retained = call.number("--retention");
  if (!retained) return retained.error();
  inputs.retentionYearOne = **retained;
  const auto sealants = call.number("--sealants");
  if (!sealants) return sealants.error();
  inputs.sealants = **sealants;
  const auto years = call.whole("--years", 0, 100);
  if (!years) return years.error();
  inputs.years = **years;
  const auto efficacy = call.number("--efficacy");
  if (!efficacy) return efficacy.error();
  inputs.efficacy = efficacy->value_or(1);
  const auto error = call.number("--attack-rate-se");
  if (!error) return error.error();
  inputs.attackRateSe = *error;
  const auto teeth = call.number("--retention-teeth");
  if (!teeth) return teeth.error();
  inputs.retentionEffectiveN = *teeth;
  return inputs;
}

void tellAverted(const estimates::AvertedInputs& inputs, const estimates::AvertedEstimate& usual,
                 double cautious, std::ostream& out) {
  out << "Cavities averted in " << base::counted(inputs.years, "year", "years") << ": "
      << base::fixed(usual.averted, 1);
  if (usual.interval)
    out << " (95% CI " << base::fixed(usual.interval->low, 1) << " to "
        << base::fixed(usual.interval->high, 1) << ", sampling error only)";
  out << "\nPer 1,000 sealants: " << base::fixed(1000 * usual.perSealant, 2) << '\n';
  if (usual.preventedFraction)
    out << "Prevented fraction: " << percent(*usual.preventedFraction) << '\n';
  out << "Cautious scenario, a retained sealant stops "
      << base::percent(std::min(inputs.efficacy, estimates::cautiousEfficacy), 0)
      << "% of attacks: " << base::fixed(cautious, 1)
      << "\n\nLimits of the number (docs/methods.md, section 3):\n"
      << (inputs.efficacy < 1
              ? "- Trials found a median of 81% less decay in sealed teeth at 2 years and 50% "
                "less\n"
                "  up to 4 years, lost sealants included.\n"
              : "- The model takes a retained sealant to protect in full and a lost one not "
                "at all. It is\n  kinder to sealants than trials were: they found medians of "
                "81% at 2 years and 50%\n  up to 4 years.\n")
      << "- The retention of later years is "
         "a curve calibrated to one published example, so that\n  agreement with that "
         "example validates nothing.\n- The comparison is with no sealant at all; "
         "rate and retention are alike for all children.\n"
      << whatTheySpeakOf << '\n';
}

Result<Exit> averted(const Call& call, const Surroundings& around) {
  const auto inputs = avertedInputs(call);
  if (!inputs) return inputs.error();
  const auto usual = estimates::averted(*inputs);
  if (!usual) return usual.error();
  auto careful = *inputs;
  careful.efficacy = std::min(careful.efficacy, estimates::cautiousEfficacy);
  const auto cautious = estimates::averted(careful);
  if (!cautious) return cautious.error();
  if (!call.wantsJson()) {
    tellAverted(*inputs, *usual, cautious->averted, around.out);
    return Exit::fine;
  }
  const auto& interval = usual->interval;
  JsonWriter json(around.out);
  json.beginObject();
  json.field("averted", usual->averted);
  json.field("averted_per_sealant", usual->perSealant);
  json.field("prevented_fraction", usual->preventedFraction);
  json.field("low", interval ? std::optional(interval->low) : std::nullopt);
  json.field("high", interval ? std::optional(interval->high) : std::nullopt);
  json.field("without_sealants", usual->withoutSealants);
  json.field("cautious", cautious->averted);
  json.endObject();
  return Exit::fine;
}

Result<Exit> retention(const Call& call, const Surroundings& around) {
  const auto text = tableText(call, around);
  if (!text) return text.error();
  const auto counts = readRetention(*text);
  if (!counts) return counts.error();
  const auto found = estimates::retention(counts->clusters);
  if (!found) return found.error();
  const auto notes = sentences(found->notes);
  // As the interval uses it: as found, or as planned.
  const double effect = found->toRead ? found->toRead->designEffect : found->designEffect;
  if (call.wantsJson()) {
    JsonWriter json(around.out);
    json.beginObject();
    json.field("estimate", found->estimate);
    const auto range = found->toRead ? std::optional(found->toRead->range) : std::nullopt;
    json.field("low", range ? std::optional(range->low) : std::nullopt);
    json.field("high", range ? std::optional(range->high) : std::nullopt);
    json.field("teeth", found->teeth);
    json.field("children", counts->children);
    json.field("clusters", found->clusters);
    json.field("design_effect", effect);
    json.field("n_effective", found->teeth / effect);
    json.field("publication_low", found->publication.low);
    json.field("publication_high", found->publication.high);
    const auto& careful = found->conservativeExact;
    json.field("conservative_low", careful ? std::optional(careful->low) : std::nullopt);
    json.field("conservative_high", careful ? std::optional(careful->high) : std::nullopt);
    json.field("repeated_rows", counts->repeatedRows);
    json.field("notes", notes);
    json.endObject();
    return Exit::fine;
  }
  around.out << "Retained: " << base::fixed(found->retained, 0) << " of "
             << base::fixed(found->teeth, 0) << " teeth in "
             << base::counted(counts->children, "child", "children") << ", "
             << percent(found->estimate) << "\n95% CI: "
             << (found->toRead ? range(found->toRead->range.low, found->toRead->range.high)
                               : "none from one cluster")
             << (found->toRead && found->toRead->isPlanned
                     ? ", with a planning value of how alike the teeth of a cluster are"
                     : "")
             << "\nDesign effect " << base::fixed(effect, 2) << ": the teeth count as much as "
             << base::fixed(found->teeth / effect, 1) << " independent ones, from "
             << base::counted(found->clusters, "cluster", "clusters") << ".\n";
  tellRepeated(counts->repeatedRows, "a child that an earlier line names", around.out);
  if (found->conservativeExact && found->clusters > 1)
    around.out << "With each cluster as one observation, exact (Clopper-Pearson): "
               << range(found->conservativeExact->low, found->conservativeExact->high) << '\n';
  tell(notes, around.out);
  around.out << whatTheySpeakOf << '\n';
  return Exit::fine;
}

Result<Exit> attackRate(const Call& call, const Surroundings& around) {
  const auto text = tableText(call, around);
  if (!text) return text.error();
  const auto rows = readExposures(*text);
  if (!rows) return rows.error();
  const auto found = estimates::attackRate(rows->rows);
  if (!found) return found.error();
  const auto notes = sentences(found->notes);
  if (call.wantsJson()) {
    JsonWriter json(around.out);
    json.beginObject();
    json.field("attack_rate", found->annual);
    json.field("low", found->toRead().low);
    json.field("high", found->toRead().high);
    json.field("standard_error", found->standardError);
    json.field("children", found->children);
    json.field("molars", found->molars);
    json.field("affected", found->affected);
    json.field("molar_years", found->molarYears);
    json.field("rows_left_out", found->rowsLeftOut);
    json.field("repeated_rows", rows->repeatedRows);
    json.field("notes", notes);
    json.endObject();
    return Exit::fine;
  }
  around.out << "Attack rate: " << percent(found->annual) << " a year, 95% CI "
             << range(found->toRead().low, found->toRead().high) << '\n'
             << base::fixed(found->affected, 0) << " of " << base::fixed(found->molars, 0)
             << " molars affected in " << base::counted(found->children, "child", "children")
             << ", " << base::fixed(found->molarYears, 1) << " molar-years.\n";
  if (found->rowsLeftOut > 0) around.out << "Rows left out: " << found->rowsLeftOut << ".\n";
  tellRepeated(rows->repeatedRows, "a child and an exposure that an earlier line names",
               around.out);
  tell(notes, around.out);
  around.out
      << "Molars sealed elsewhere are not in it, which can make the rate too high or too low.\n"
      << whatTheySpeakOf << '\n';
  return Exit::fine;
}

/// None for no tooth, and where the quotient is past all numbers.
std::optional<double> costPerAverted(double cost, std::optional<double> averted) {
  if (!averted || !(*averted > 0) || !std::isfinite(cost / *averted)) return std::nullopt;
  return cost / *averted;
}

Result<Exit> money(const Call& call, const Surroundings& around) {
  const auto yearly = call.number("--yearly");
  if (!yearly) return yearly.error();
  const auto cost = call.number("--cost");
  if (!cost) return cost.error();
  if (**cost < 0) return Error{ErrorCode::estimateInput, "--cost: a cost cannot be negative"};
  const auto averted = call.number("--averted");
  if (!averted) return averted.error();
  if (*averted && **averted < 0)
    return Error{ErrorCode::estimateInput, "--averted: a count of teeth cannot be negative"};
  const auto years = call.whole("--years", 0, 100);
  if (!years) return years.error();
  const auto rate = call.number("--rate");
  if (!rate) return rate.error();
  const auto value = estimates::presentValue(**yearly, **years, **rate);
  if (!value) return value.error();
  const double net = *value - **cost;
  if (!std::isfinite(net))
    return Error{ErrorCode::estimateInput, "--yearly and --cost are too large to be summed"};
  const auto perAverted = costPerAverted(**cost, *averted);
  if (call.wantsJson()) {
    JsonWriter json(around.out);
    json.beginObject();
    json.field("present_value", *value);
    json.field("net", net);
    json.field("per_averted", perAverted);
    json.endObject();
  } else {
    around.out << "Worth today: " << base::fixed(*value, 2)
               << "\nLess the cost: " << base::fixed(net, 2);
    if (perAverted)
      around.out << "\nCost per cavity averted: " << base::fixed(*perAverted, 2);
    else if (*averted)
      around.out << "\nNo cavity is averted, so there is no cost for each.";
    around.out << "\nCosts and benefits are your own figures.\n" << whatTheySpeakOf << '\n';
  }
  return Exit::fine;
}

} // namespace

std::vector<Verb> estimateVerbs() {
  return {
      {{"estimate averted",
        "",
        "cavities averted, in teeth",
        {{"--attack-rate", "SHARE", "yearly, of a never-sealed molar, such as 0.07", true},
         {"--retention", "SHARE", "retained at one year, such as 0.92", true},
         {"--sealants", "N", "teeth sealed", true},
         {"--years", "N", "how long to look ahead", true},
         {"--efficacy", "SHARE", "of attacks that a retained sealant stops (1)"},
         {"--attack-rate-se", "X", "its standard error on the log(-log(1-rate)) scale"},
         {"--retention-teeth", "N", "effective number of teeth behind the retention"}}},
       averted},
      {{"estimate retention",
        "[CSV]",
        "share retained, from columns child,examined,retained and maybe cluster",
        {}},
       retention},
      {{"estimate attack-rate",
        "[CSV]",
        "yearly attack rate, from columns child,exposure,examined,affected",
        {}},
       attackRate},
      {{"estimate money",
        "",
        "what a yearly benefit is worth today, less a cost",
        {{"--yearly", "SUM", "benefit at the end of each year", true},
         {"--cost", "SUM", "paid today", true},
         {"--years", "N", "how many years", true},
         {"--rate", "SHARE", "discount a year, such as 0.03", true},
         {"--averted", "N", "cavities averted, for the cost of each"}}},
       money},
  };
}

} // namespace gk::office
