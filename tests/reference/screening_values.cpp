#include "estimates/shares/screening_measures.h"
#include "reference/reference.h"

#include <utility>

using namespace gk::estimates;

namespace gk::reference {
namespace {

std::vector<ScreenedChild> childrenOf(const base::CsvTable& table) {
  const auto schools = labels(table, "school");
  const auto untreated = labels(table, "untreated");
  const auto treated = labels(table, "treated");
  const auto sealants = labels(table, "sealants");
  const auto need = labels(table, "need");
  std::vector<ScreenedChild> children;
  for (std::size_t i = 0; i < schools.size(); ++i)
    children.push_back({schools[i], untreated[i] == 1, treated[i] == 1, sealants[i] == 1,
                        static_cast<CareNeed>(need[i])});
  return children;
}

} // namespace

Values screeningSchools(const base::CsvTable& table) {
  const auto children = childrenOf(table);
  const auto random = screeningMeasures(children, ScreeningDesign::simpleRandom).value();
  Values out;
  const std::pair<std::string, ScreeningMeasures> designs[]{
      {"schools", screeningMeasures(children, ScreeningDesign::schools).value()},
      {"random", random}};
  for (const auto& [design, found] : designs) {
    const std::pair<std::string, const RetentionEstimate&> measures[]{
        {"untreated", *found.untreatedDecay},
        {"treated", *found.treatedDecay},
        {"experience", *found.cariesExperience},
        {"sealants", *found.sealants},
        {"any", *found.anyNeed},
        {"urgent", *found.urgentNeed}};
    for (const auto& [measure, estimate] : measures) {
      out[design + "." + measure + ".estimate"] = estimate.estimate;
      out[design + "." + measure + ".variance"] = estimate.variance.value();
    }
  }
  out["random.untreated.logit.low"] = random.untreatedDecay->logit->low;
  out["random.untreated.logit.high"] = random.untreatedDecay->logit->high;
  out["random.experience.logit.low"] = random.cariesExperience->logit->low;
  out["random.experience.logit.high"] = random.cariesExperience->logit->high;
  return out;
}

} // namespace gk::reference
