#include "estimates/shares/program_share.h"
#include "estimates/shares/retention_levels.h"
#include "reference/reference.h"

using namespace gk::estimates;

namespace gk::reference {

namespace {

LevelledRetention levelled(const base::CsvTable& table) {
  const auto schools = labels(table, "school");
  const auto children = labels(table, "child");
  const auto examined = numbers(table, "examined");
  const auto retained = numbers(table, "retained");
  std::vector<ChildTeeth> rows;
  for (std::size_t i = 0; i < children.size(); ++i)
    rows.push_back({schools[i], children[i], examined[i], retained[i]});
  return retentionByLevel(rows).value();
}

} // namespace

Values retentionByChild(const base::CsvTable& table) {
  const auto found = levelled(table);
  Values out;
  const auto say = [&out](const std::string& level, const RetentionEstimate& estimate) {
    out[level + ".estimate"] = estimate.estimate;
    out[level + ".variance"] = estimate.variance.value();
    out[level + ".effective"] = estimate.effectiveN;
    out[level + ".wilson.low"] = estimate.low;
    out[level + ".wilson.high"] = estimate.high;
    out[level + ".beta.low"] = estimate.publication.low;
    out[level + ".beta.high"] = estimate.publication.high;
    out[level + ".logit.low"] = estimate.logit->low;
    out[level + ".logit.high"] = estimate.logit->high;
  };
  say("child", found.byChild);
  say("school", found.bySchool);
  return out;
}

Values fewSchools(const base::CsvTable& table) {
  const auto found = levelled(table);
  return {{"estimate", found.used.estimate},
          {"child.effect", foundDesignEffect(found.byChild).value()},
          {"school.effect", foundDesignEffect(found.bySchool).value()},
          {"used", found.used.toRead->designEffect},
          {"low", found.used.toRead->range.low},
          {"high", found.used.toRead->range.high}};
}

} // namespace gk::reference
