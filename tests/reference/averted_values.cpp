#include "estimates/averted/averted_scenarios.h"
#include "estimates/shares/follow_up.h"
#include "reference/reference.h"

using namespace gk::estimates;

namespace gk::reference {

Values avertedBounds(const base::CsvTable& table) {
  const auto attack = numbers(table, "attack");
  const auto retention = numbers(table, "retention");
  const auto sealants = numbers(table, "sealants");
  const auto years = labels(table, "years");
  const auto se = numbers(table, "se");
  const auto n = numbers(table, "n");
  const auto due = numbers(table, "due");
  const auto found = numbers(table, "found");

  Values out;
  for (std::size_t i = 0; i < attack.size(); ++i) {
    const auto say = [&](const std::string& name, double value) {
      out["row" + std::to_string(i + 1) + "." + name] = value;
    };
    const AvertedInputs inputs{.attackRate = attack[i],
                               .retentionYearOne = retention[i],
                               .sealants = sealants[i],
                               .years = static_cast<int>(years[i]),
                               .attackRateSe = se[i],
                               .retentionEffectiveN = n[i]};
    const auto made = averted(inputs).value();
    say("averted", made.averted);
    say("se", made.standardError.value());
    say("low", made.interval->low);
    say("high", made.interval->high);
    auto curved = inputs;
    curved.curve.assign(years[i], 1);
    say("none.lost", averted(curved).value().averted);
    curved.curve.assign(years[i], 0);
    curved.curve.front() = 1;
    say("all.lost", averted(curved).value().averted);

    const auto bounds = followUpBounds({due[i], found[i], retention[i] * found[i]}).value().bounds;
    auto end = inputs;
    end.retentionYearOne = bounds.low;
    say("bound.low", averted(end).value().averted);
    end.retentionYearOne = bounds.high;
    say("bound.high", averted(end).value().averted);

    const auto tried =
        avertedScenarios(inputs, {.attackRate = Interval{attack[i] / 2, attack[i] * 2},
                                  .retentionYearOne = bounds,
                                  .efficacy = Interval{cautiousEfficacy, 1}})
            .value();
    say("scenario.low", tried.low.averted);
    say("scenario.high", tried.high.averted);
  }
  return out;
}

} // namespace gk::reference
