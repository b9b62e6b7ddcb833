#include "estimates/attack_rate/attack_rate_age.h"
#include "estimates/attack_rate/attack_rate_profile.h"
#include "estimates/attack_rate/attack_rate_schools.h"
#include "reference/reference.h"

#include <cmath>

using namespace gk::estimates;

namespace gk::reference {
namespace {

void addSchools(Values& out, const std::vector<std::vector<Exposure>>& schools) {
  const auto found = schoolRates(schools).value();
  out["schools.effect"] = found.designEffect;
  out["schools.tau2"] = found.tauSquared;
  out["schools.moments"] = found.tauSquaredMoments;
  out["schools.q"] = found.q;
  out["schools.q.p"] = found.qP.value();
  out["schools.annual"] = found.annual;
  out["schools.low"] = found.interval.low;
  out["schools.high"] = found.interval.high;
  out["schools.next.low"] = found.prediction->low;
  out["schools.next.high"] = found.prediction->high;
  for (std::size_t i = 0; i < found.schools.size(); ++i) {
    const auto name = "school" + std::to_string(i + 1);
    out[name] = found.schools[i].shrunken;
    out[name + ".low"] = found.schools[i].interval.low;
    out[name + ".high"] = found.schools[i].interval.high;
  }
}

} // namespace

Values attackRates(const base::CsvTable& table) {
  const auto schools = labels(table, "school");
  const auto children = labels(table, "child");
  const auto years = numbers(table, "years");
  const auto examined = numbers(table, "examined");
  const auto affected = numbers(table, "affected");
  std::vector<Exposure> rows;
  std::vector<std::vector<Exposure>> bySchool;
  for (std::size_t i = 0; i < years.size(); ++i) {
    rows.push_back({years[i], examined[i], affected[i], children[i]});
    if (schools[i] > bySchool.size()) bySchool.resize(schools[i]);
    bySchool[schools[i] - 1].push_back(rows.back());
  }
  const auto rate = attackRate(rows).value();
  const auto profile = attackRateProfile(rows).value();
  const auto byAge = riskByAge(rows).value();
  Values out{{"annual", rate.annual},
             {"cloglog", rate.cloglog.value()},
             {"robust", rate.robustVariance.value()},
             {"model", rate.modelVariance.value()},
             {"low", rate.low},
             {"high", rate.high},
             {"loglik", profile.logLikelihood},
             {"profile.low", profile.independent.low},
             {"profile.high", profile.independent.high},
             {"profile.clustered.low", profile.clustered.low},
             {"profile.clustered.high", profile.clustered.high},
             {"band.ratio", byAge.likelihoodRatio.value()},
             {"band.ratio.p", byAge.likelihoodRatioP.value()},
             {"band.clustered", byAge.clusteredRatio.value()},
             {"band.clustered.p", byAge.clusteredRatioP.value()},
             {"band.score", byAge.robustScore.value()},
             {"band.score.p", byAge.robustScoreP.value()}};
  addSchools(out, bySchool);
  return out;
}

} // namespace gk::reference
